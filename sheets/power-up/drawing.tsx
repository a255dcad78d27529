/** Draws the first power-up as a checklist to be printed and written on. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { area } from '../frame/page-size.ts';
import { heightOf } from '../lettering/letter-size.ts';
import { Letters, Paragraph } from '../lettering/letters.tsx';
import type { Page, SheetDrawing } from '../sheet.ts';
import { isHeading, tableText } from '../table/table.ts';
import type { TextBlock } from '../text-block.ts';
import { Checklist, checklistPages, spoken } from './checklist-pages.tsx';
import type { PowerUpModel } from './model.ts';

const LABELS = ['reads', 'by, at'];
const TITLE = 7;

export const powerUpDrawing: SheetDrawing<PowerUpModel> = {
  name: 'power-up', title: 'First power-up', meaning: 'Every step of the first power-up: state, meter, predicted reading, hold points; to be printed and written on.',
  pages: (model) => {
    if (model.none !== undefined) return [{ body: <Head words={[model.none]} isStopped={false} />, text: [{ kind: 'heading', text: 'First power-up' }, { kind: 'paragraph', text: model.none }] }];
    const words = headWords(model);
    const top = TITLE + words.reduce((sum, text) => sum + heightOf(text, area.width, 'small') + 1, 0) + 4;
    const pages = checklistPages('Steps', model.table, top);
    return pages.map((page, index): Page => ({
      ...(pages.length > 1 ? { subtitle: subtitleOf(page.part.rows) } : {}),
      body: <g>{index === 0 && <Head words={words} isStopped={model.stops > 0} />}<Checklist page={page} labels={LABELS} boxesOf={(row) => (isHeading(row) ? 0 : model.boxes[row.label ?? ''] ?? 1)} /></g>,
      text: [...(index === 0 ? [{ kind: 'heading', text: 'First power-up' } as const, ...words.map((text): TextBlock => ({ kind: 'paragraph', text }))] : []), tableText('Steps', page.table, spoken(page.part.rows))],
    }));
  },
};

function headWords({ steps, holds, stops }: PowerUpModel): readonly string[] {
  return [
    ...(stops === 0 ? [] : [`${stops === 1 ? 'One finding is' : `${stops} findings are`} at STOP: step 1 names ${stops === 1 ? 'it' : 'them'}. Do not begin and energise nothing before ${stops === 1 ? 'it is' : 'they are'} settled; steps marked HELD wait for ${stops === 1 ? 'it' : 'them'}.`]),
    'This work can kill and can burn a house down. Qualified help, local codes and inspection decide. What follows was computed from the build file: a model never proves that a circuit is dead, only a meter does, tried on a known source before and after.',
    `${steps} steps, ${holds} of them hold points (HOLD): do not go on until the reading is in, and right. Grey: what a wrong reading most likely means. Write down what the meter shows, who read it, and when.`,
  ];
}

/** Steps of the page, by their numbers. */
function subtitleOf(rows: PowerUpModel['table']['rows']): string {
  const numbers = rows.flatMap((row) => (isHeading(row) ? [] : [/^step (\d+)/.exec(row.label ?? '')?.[1] ?? '']));
  return numbers.length === 0 ? 'steps' : numbers.length === 1 ? `step ${numbers[0]!}` : `steps ${numbers[0]!} to ${numbers.at(-1)!}`;
}

function Head({ words, isStopped }: { readonly words: readonly string[]; /** the first of them tells of open findings */ readonly isStopped: boolean }): ReactElement {
  const palette = usePalette();
  let y = TITLE + 3;
  return (
    <g>
      <Letters x={0} y={4} face="strong" text="First power-up" />
      {words.map((text, index) => { const at = y; y += heightOf(text, area.width, 'small') + 1; return <Paragraph key={index} x={0} y={at} width={area.width} size="small" fill={isStopped && index === 0 ? palette.red : index === (isStopped ? 1 : 0) ? palette.ink : palette.muted} text={text} />; })}
    </g>
  );
}
