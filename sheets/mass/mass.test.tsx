import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analysed } from '../../checks/fixtures/analysed.ts';
import type { MassResults } from '../../core/topics/mass/study.ts';
import { cellText } from '../table/table.ts';
import type { Row } from '../table/table.ts';
import { lettersInTrouble } from '../table/text-boxes.ts';
import { massDrawing } from './drawing.tsx';
import { massModel } from './model.ts';
import type { MassModel } from './model.ts';
import { usualScale } from './side-view.ts';

const modelOf = (text: string, system: 'metric' | 'imperial' = 'metric'): MassModel => massModel.model(analysed(text), { units: { system }, state: {} }) as MassModel;
const demo = (name: string): string => readFileSync(new URL(`../../examples/${name}/build.yaml`, import.meta.url), 'utf8');
const van = demo('bakery-van');
const row = (rows: readonly Row[], first: string): readonly string[] => rows.flatMap((one) => ('cells' in one && cellText(one.cells[0]).startsWith(first) ? [one.cells.map(cellText)] : []))[0]!;
const withParts = (parts: string): string => `halfshaft: 1\nname: x\nparts:\n${parts}`;

describe('the sheet of masses', () => {
  it.each([van, demo('two-string-coupe'), demo('orchard-hauler'), '', van.replace(/ {2}wheelbase:.*\n/, ''), van.replaceAll(/at: \[[^\]]*\]/g, ''),
    withParts(`  ${'a'.repeat(60)}: { kind: ballast, mass: 10 kg, at: [0, 0, 0] }\n`), withParts('  far: { kind: ballast, mass: 1 kg, at: [90 m, 0, 3 m], size: 1 x 1 x 1 m }\n')])('draws any build with no letters cut or on each other (%#)', (text) => {
    for (const system of ['metric', 'imperial'] as const) for (const page of massDrawing.pages(structuredClone(modelOf(text, system)))) expect(lettersInTrouble(page.body)).toEqual([]);
  });
  it('shows what the analysis has, loads rounded up and room down', () => {
    const analysis = analysed(van);
    const { after } = analysis.results['mass'] as MassResults;
    const model = massModel.model(analysis, { units: { system: 'metric' }, state: {} }) as MassModel;
    const front = row(model.balance.rows, 'Front axle');
    expect(front[1]).toBe('748 kg ±4 measured');
    const shown = Number.parseFloat(front[2]!);
    expect(shown).toBeGreaterThanOrEqual(after!.front);
    expect(shown - after!.front).toBeLessThan(1);
    expect(Number.parseFloat(front[5]!)).toBeLessThanOrEqual(980 - after!.front);
  });
  it('lists every thing taken out and put in, on whatever page', () => {
    const analysis = analysed(van);
    const pages = massDrawing.pages(massModel.model(analysis, { units: { system: 'metric' }, state: {} }) as MassModel);
    const listed = pages.flatMap(({ text }) => text.flatMap((block) => (block.kind === 'table' && block.caption === 'Masses and places' ? block.rows.map((cells) => cells[0]) : [])));
    const aboard = [...analysis.car.parts.values()].filter(({ kind }) => kind.standsBeside !== true).map(({ name }) => name);
    for (const name of [...analysis.build.removed.keys(), ...aboard]) expect(listed).toContain(name);
  });
  it('shares each mass between the axles so that the sum is the change', () => {
    const model = modelOf(withParts('  m: { kind: ballast, mass: 100 kg, at: [500, 0, 0 mm] }\n').replace('parts:', 'vehicle: { wheelbase: 2 m }\nparts:'));
    expect(row(model.entries.rows, 'm').slice(6)).toEqual(['+75 kg', '+25 kg']);
  });
  it('says what is missing for the balance', () => {
    expect(modelOf(van.replace(/ {2}wheelbase:.*\n/, '')).missing).toEqual(['vehicle.wheelbase']);
    expect(massDrawing.pages(modelOf(''))[0]!.text.some((block) => block.kind === 'paragraph' && block.text.includes('vehicle.wheelbase'))).toBe(true);
  });
});

it('a usual scale is the largest at which the length fits', () => {
  expect([[4.2, 188], [4.2, 84.1], [4.2, 84], [0.1, 100], [900, 200]].map(([length, room]) => usualScale([[length!, room!]]))).toEqual([25, 50, 50, 5, 5000]);
});
