/** A page of a diagram in words: every part with its numbers, every run with its ends. */
import type { Car } from '../../core/car/car.ts';
import { levelWords } from '../levels.ts';
import type { TextBlock } from '../text-block.ts';
import { lineText } from './make-mark.ts';
import type { Mark, MarkLine } from './mark.ts';
import type { DiagramPage } from './pages.ts';

/** One row a part and one a run; plain data of the model, so that the drawing need not know the car. */
export interface PageWords { readonly parts: readonly (readonly string[])[]; readonly runs: readonly (readonly string[])[] }

export function pageWords(page: DiagramPage, car: Car): PageWords {
  const marks = page.blocks.flatMap((block) => block.marks);
  const parts = marks.flatMap(({ mark, references }) => {
    const own = mark.slots.length > 0
      ? mark.slots.map((slot) => [slot.parts.join(' '), '', said(slot.lines), slot.level === undefined ? '' : levelWords[slot.level], ''])
      : [[mark.name.join(' '), mark.label, said(mark.lines), mark.level === undefined ? '' : levelWords[mark.level], references.join('; ')]];
    return own;
  });
  const run = (name: string, size: MarkLine): readonly string[] => [name, car.runs.get(name)?.from ?? '', car.runs.get(name)?.to ?? '', lineText(size)];
  const runs = [
    ...page.blocks.flatMap((block) => block.wires.map((wire) => run(wire.run, wire.text.size))),
    ...marks.flatMap(({ mark }: { readonly mark: Mark }) => [...mark.grounds.map((ground) => run(ground.run, ground.size)), ...mark.slots.flatMap((slot) => slot.below.map((wire) => run(wire.run, wire.size)))]),
  ];
  return { parts, runs };
}

const said = (lines: readonly MarkLine[]): string => lines.map(lineText).join('; ');

export function wordsAsText({ parts, runs }: PageWords): readonly TextBlock[] {
  return [
    ...(parts.length > 0 ? [{ kind: 'table', caption: 'Parts', head: ['Part', 'What', 'Numbers', 'Findings', 'Goes on'], rows: parts } satisfies TextBlock] : []),
    ...(runs.length > 0 ? [{ kind: 'table', caption: 'Runs', head: ['Run', 'From', 'To', 'Size'], rows: runs } satisfies TextBlock] : []),
  ];
}
