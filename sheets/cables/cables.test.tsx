import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analysed } from '../../checks/fixtures/analysed.ts';
import type { HighVoltageResults } from '../../core/topics/high-voltage/study.ts';
import { cellText } from '../table/table.ts';
import type { Section } from '../table/flow.tsx';
import { lettersInTrouble } from '../table/text-boxes.ts';
import { cablesDrawing } from './drawing.tsx';
import { cablesModel } from './model.ts';
import type { CablesModel } from './model.ts';

const choices = { units: { system: 'metric' }, state: {} } as const;
const modelOf = (text: string): CablesModel => cablesModel.model(analysed(text), choices) as CablesModel;
const demo = (name: string): string => readFileSync(new URL(`../../examples/${name}/build.yaml`, import.meta.url), 'utf8');
const van = demo('bakery-van');
const cells = ({ table: { rows } }: Section): readonly (readonly string[])[] => rows.flatMap((row) => ('cells' in row ? [row.cells.map(cellText)] : []));
const column = ({ table: { columns } }: Section, head: string): number => columns.findIndex((one) => one.head === head);

describe('the schedules of cables and fuses', () => {
  it.each([van, demo('two-string-coupe'), demo('orchard-hauler'), '', van.replaceAll(/, *length: [^},\n]*/g, ''), van.replaceAll('F_main', `F_${'x'.repeat(58)}`), van.replace(/\nmodes:[\s\S]*/, '\n')])('draw any build with no letters cut or on each other (%#)', (text) => {
    for (const page of cablesDrawing.pages(structuredClone(modelOf(text)))) expect(lettersInTrouble(page.body)).toEqual([]);
  });
  it('hold every run and every fuse once', () => {
    const analysis = analysed(van);
    const [high, highFuses, low, lowFuses] = (cablesModel.model(analysis, choices) as CablesModel).sections as [Section, Section, Section, Section];
    expect([...cells(high), ...cells(low)].map(([name]) => name).sort()).toEqual([...analysis.car.runs.keys()].sort());
    const fuses = [...analysis.car.parts.values()].filter(({ roles }) => roles.protection !== undefined).map(({ name }) => name);
    expect([...cells(highFuses), ...cells(lowFuses)].map(([name]) => name).sort()).toEqual(fuses.sort());
  });
  it('show what the analysis has', () => {
    const analysis = analysed(van);
    const [high, highFuses] = (cablesModel.model(analysis, choices) as CablesModel).sections as [Section, Section];
    const { conductors, shortCircuits } = analysis.results['high-voltage'] as HighVoltageResults;
    for (const [index, line] of cells(high).entries()) {
      const load = conductors.runs[index]!;
      const lost = Number.parseFloat(line[column(high, 'Voltage lost')]!) * (line[column(high, 'Voltage lost')]!.endsWith('mV') ? 1e-3 : 1);
      if (load.resistance !== undefined && load.current !== undefined && load.current * load.resistance > 1e-3) expect(lost / (load.current * load.resistance)).toBeCloseTo(1, 1);
      expect(line[column(high, 'Opened by')]).toBe(shortCircuits.find(({ run }) => run === load.run)?.fuse ?? (shortCircuits.some(({ run }) => run === load.run) ? 'nothing known' : '—'));
    }
    const disconnect = cells(highFuses).find(([name]) => name === 'SD')!;
    expect(disconnect[column(highFuses, 'Rating')]).toBe('250 A label');
    expect(disconnect[column(highFuses, 'Can break')]).toBe('—');
    expect(disconnect.at(-1)).toBe('data missing');
  });
  it('say where a length comes from', () => {
    const of = (run: string): string => cells(modelOf(van.replace(/(H05: \{[^}]*?), length: [^,}]*/, `$1${run}`)).sections[0]!).find(([name]) => name === 'H05')![3]!;
    expect(of(', length: 2 m measured')).toBe('2 m; measured');
    expect(of('')).toMatch(/from the route|missing/);
  });
});
