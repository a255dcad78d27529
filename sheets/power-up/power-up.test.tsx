import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analysed } from '../../checks/fixtures/analysed.ts';
import { powerUp } from '../../core/power-up/steps.ts';
import { isHeading } from '../table/table.ts';
import { lettersInTrouble, textBoxesOf } from '../table/text-boxes.ts';
import { plainText } from '../text-block.ts';
import { powerUpDrawing } from './drawing.tsx';
import { powerUpModel } from './model.ts';
import type { PowerUpModel } from './model.ts';

const choices = { units: { system: 'metric' }, state: {} } as const;
const modelOf = (text: string): PowerUpModel => powerUpModel.model(analysed(text, []), choices) as PowerUpModel;
const hauler = readFileSync(new URL('../../examples/orchard-hauler/build.yaml', import.meta.url), 'utf8');

describe('the sheet of the first power-up', () => {
  it.each([hauler, '', 'halfshaft: 1\nname: one\nparts: { M1: { kind: battery_module } }\n', hauler.replaceAll('K_main', `K_${'x'.repeat(58)}`), hauler.replace(/\nmodes:[\s\S]*/, '\n')])('draws any build with no letters cut or on each other (%#)', (text) => {
    for (const page of powerUpDrawing.pages(structuredClone(modelOf(text)))) expect(lettersInTrouble(page.body)).toEqual([]);
  });
  it('has every step once and in order, with its prediction, and a box for what is read', () => {
    const analysis = analysed(hauler, []);
    const { steps } = powerUp(analysis.car, analysis.ask, analysis.prepared);
    const model = powerUpModel.model(analysis, choices) as PowerUpModel;
    const rows = model.table.rows.flatMap((row) => (isHeading(row) ? [] : [row]));
    expect(rows.map(({ label }) => label)).toEqual(steps.map(({ title }, index) => `step ${index + 1}: ${title}`));
    expect(model.holds).toBe(steps.filter(({ isHoldPoint }) => isHoldPoint).length);
    const pages = powerUpDrawing.pages(model);
    const boxes = pages.flatMap(({ body }) => textBoxesOf(body)).filter(({ text }) => text === 'by, at');
    expect(boxes).toHaveLength(steps.length);
    const said = pages.map((page) => plainText(page.text)).join('\n');
    for (const { title } of steps) expect(said).toContain(title);
    expect(said).toMatch(/HOLD/);
    expect(said).toMatch(/right from [\d.]+ V to [\d.]+ V/);
  });
});
