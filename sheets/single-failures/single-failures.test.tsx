import { describe, expect, it } from 'vitest';
import { analysed } from '../../checks/fixtures/analysed.ts';
import { lowVoltageCar } from '../../checks/fixtures/low-voltage-car.ts';
import { singleFailures } from '../../core/faults/effects/single-failures.ts';
import { cellText, isHeading } from '../table/table.ts';
import { lettersInTrouble } from '../table/text-boxes.ts';
import { singleFailuresDrawing } from './drawing.tsx';
import { singleFailuresModel } from './model.ts';
import type { SingleFailuresModel } from './model.ts';

const choices = { units: { system: 'metric' }, state: {} } as const;
const modelOf = (text: string): SingleFailuresModel => singleFailuresModel.model(analysed(text), choices) as SingleFailuresModel;

describe('the sheet of single failures', () => {
  const analysis = analysed(lowVoltageCar);
  const model = singleFailuresModel.model(analysis, choices) as SingleFailuresModel;
  const pages = singleFailuresDrawing.pages(model);
  it('is plain data', () => expect(structuredClone(model)).toEqual(model));
  it('names every failure somewhere, and says so in words', () => {
    const said = JSON.stringify(pages.flatMap(({ text }) => text));
    for (const { about, id } of singleFailures(analysis.car, analysis.ask).failures) expect(said.includes(about[0]!), id).toBe(true);
    expect(said).not.toMatch(/NaN|undefined|\[object|\bsafe\b/);
  });
  it('stands worst first', () => {
    const titles = model.sections.map(({ title }) => title);
    expect(titles[0]).toBe('What one failure must not do');
    expect(titles.at(-1)).toBe('Nothing happens');
    expect(titles.indexOf('Dangerous at once')).toBeLessThan(titles.indexOf('Something does not work'));
  });
  it('keeps its letters apart and inside', () => { for (const { body } of pages) expect(lettersInTrouble(<g>{body}</g>)).toEqual([]); });
  it('gives the reason instead of a table when there is nothing', () => {
    const none = modelOf('halfshaft: 1\n');
    expect(none.none).toMatch(/no parts/);
    expect(singleFailuresDrawing.pages(none)).toHaveLength(1);
    const [page] = singleFailuresDrawing.pages(none);
    expect(lettersInTrouble(<g>{page!.body}</g>)).toEqual([]);
  });
  it('has a cell for every column', () => {
    for (const { table } of model.sections) for (const row of table.rows) if (!isHeading(row)) expect(row.cells.map(cellText)).toHaveLength(table.columns.length);
  });
});
