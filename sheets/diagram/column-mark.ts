/** The size of a string of the battery drawn as a column, and the places in it. */
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { reachOf } from '../symbols/size.ts';
import type { GraphPort } from './graph.ts';
import { coarse, lineText, NAME_STEP, STEP } from './make-mark.ts';
import type { Mark, MarkPort, Slot } from './mark.ts';

/** of the line down the column, and left edge of what is written beside it [mm] */
export const AXIS = 6;
export const TEXT = 14;
/** between two places of the column: the run that joins them [mm] */
export const BETWEEN = 7;
/** least width of the lettering [mm] */
const COLUMN = 34;
/** names of more modules than this stand as first … last */
const MOST_NAMES = 12;

export interface Name { readonly text: string; readonly path?: string }
export type SlotSpec = Omit<Slot, 'y' | 'height' | 'names' | 'inside'> & { readonly names: readonly Name[]; readonly inside: readonly Name[] };
/** a run of another part of the drawing that ends at a point of the column */
export interface Tap { readonly id: string; readonly point: string }

export function columnMark(id: string, label: string, specs: readonly SlotSpec[], taps: readonly Tap[], referenceLines: number): Mark {
  let y = 1;
  const slots = specs.map((spec): Slot => {
    const [names, inside] = [fewer(spec.names), fewer(spec.inside)];
    const height = Math.max(2 * reachOf(spec.symbol.name) + 3, 3 + namesByLine(names).length * NAME_STEP + spec.lines.length * STEP + namesByLine(inside).length * STEP);
    const slot: Slot = { ...spec, names, inside, y, height };
    y += height + BETWEEN;
    return slot;
  });
  const bottom = y - BETWEEN;
  const texts = slots.flatMap((slot) => [...slot.lines.map(lineText), ...slot.below.map(({ run, size }) => `${run} ${lineText(size)} ..`)].map((text) => widthOf(text, letterSize.small) + 2));
  const width = coarse(TEXT + Math.max(COLUMN, ...texts, ...slots.map(({ names }) => names.length === 1 ? widthOf(names[0]!.text, letterSize.body, 'strong') + 6 : 0)));
  const ports = taps.map((tap): MarkPort => ({ ...tap, name: '', side: 'east', voltage: 'high', y: placeOf(tap.point, slots, bottom) }));
  const spread = apart(ports);
  const first = slots[0]?.parts[0] ?? '';
  return {
    id, part: first, path: `parts.${first}`, label, form: 'column', voltage: 'high', width, height: bottom + 1 + referenceLines * STEP, name: [], symbol: { name: 'battery' }, axis: 0, body: 0,
    lines: [], ports: spread, grounds: [], isOff: false, referenceLines, slots,
  };
}

/** At the very ends; between two places at the run; else beside the terminal. */
function placeOf(point: string, slots: readonly Slot[], bottom: number): number {
  const index = slots.findIndex(({ top }) => top === point);
  if (index === 0) return 1;
  if (index > 0) return slots[index]!.y - 1;
  const below = slots.findIndex((slot) => slot.bottom === point);
  if (below === slots.length - 1) return bottom;
  return below >= 0 ? slots[below]!.y + slots[below]!.height + 1 : (slots[0]?.y ?? 0) + 2;
}

/** Two runs at one point leave at one place; runs at points close to each other are kept apart so that both can be seen. */
function apart(ports: readonly MarkPort[]): readonly MarkPort[] {
  const seen: number[] = [];
  return [...ports].sort((a, b) => a.y - b.y).map((port) => {
    let { y } = port;
    while (seen.some((other) => Math.abs(other - y) < 1)) y += 1.5;
    seen.push(y);
    return { ...port, y } satisfies MarkPort & GraphPort;
  });
}

function fewer(names: readonly Name[]): readonly Name[] {
  return names.length <= MOST_NAMES ? names : [names[0]!, { text: '…' }, names.at(-1)!];
}

/** Names in lines no wider than the column. */
export function namesByLine(names: readonly Name[]): readonly (readonly (Name & { readonly x: number })[])[] {
  const lines: (Name & { readonly x: number })[][] = [];
  let x = Infinity;
  for (const name of names) {
    const width = widthOf(name.text, letterSize.body, 'strong');
    if (x + width > COLUMN - 5) {
      lines.push([]);
      x = 0;
    }
    lines.at(-1)!.push({ ...name, x });
    x += width + 1.6;
  }
  return lines;
}
