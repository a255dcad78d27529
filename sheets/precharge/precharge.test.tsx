import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analysed } from '../../checks/fixtures/analysed.ts';
import type { HighVoltageResults } from '../../core/topics/high-voltage/study.ts';
import { plainText } from '../text-block.ts';
import { lettersInTrouble } from '../table/text-boxes.ts';
import { prechargeDrawing } from './drawing.tsx';
import { prechargeModel } from './model.ts';
import type { PrechargeModel } from './model.ts';

const choices = { units: { system: 'metric' }, state: {} } as const;
const modelOf = (text: string): PrechargeModel => prechargeModel.model(analysed(text), choices) as PrechargeModel;
const demo = (name: string): string => readFileSync(new URL(`../../examples/${name}/build.yaml`, import.meta.url), 'utf8');
const van = demo('bakery-van');
const said = (text: string): string => prechargeDrawing.pages(modelOf(text)).map((page) => plainText(page.text)).join('\n');

describe('the sheet of the precharge', () => {
  it.each([van, demo('two-string-coupe'), demo('orchard-hauler'), '', van.replaceAll(/\n *lasts: 0.5 s[^\n]*/g, ''), van.replace('resistance: 100 Ω', 'resistance: 2 kΩ'), van.replace('link_capacitance: 0.88 mF', 'link_capacitance: 0.88 F'),
    van.replace(/\nmodes:[\s\S]*/, '\n'), van.replaceAll('PRE', `P${'r'.repeat(59)}`)])('draws any build with no letters cut or on each other (%#)', (text) => {
    for (const page of prechargeDrawing.pages(structuredClone(modelOf(text)))) expect(lettersInTrouble(page.body)).toEqual([]);
  });
  it('draws the curve that the analysis has, up to where the contactor closes', () => {
    const analysis = analysed(van);
    const [result] = (analysis.results['high-voltage'] as HighVoltageResults).precharge.precharges;
    const { voltage } = (prechargeModel.model(analysis, choices) as PrechargeModel).precharges[0]!.plots!;
    const [filling, after] = voltage.curves;
    expect(filling!.points[0]).toEqual([0, 0]);
    expect(filling!.points.at(-1)).toEqual([result!.lasts, result!.voltageReached]);
    expect(after!.points[1]![1]).toBeCloseTo(result!.packVoltage, 9);
    expect(voltage.time.to).toBeGreaterThan(result!.lasts!);
  });
  it('says plainly that a precharge never finishes', () => {
    const [sheet] = modelOf(demo('two-string-coupe')).precharges;
    expect(sheet!.plots!.voltage.points[0]!.text).toMatch(/never gets to 95 %/);
    expect(said(demo('two-string-coupe'))).toMatch(/never/);
  });
  it('says what is missing where there is none', () => {
    expect(modelOf('halfshaft: 1\nname: new\n').none.join(' ')).toMatch(/no precharge resistor[\s\S]*describes no modes/);
    expect(modelOf(van.replace(/\nmodes:[\s\S]*/, '\n')).none.join(' ')).toMatch(/PRE could precharge, but no mode/);
  });
  it('compares the discharge with what is published, and not below 60 V', () => {
    expect(said(van)).toMatch(/75\.1 s; 2 min is usual[\s\S]*2\.8 s; by DU/);
    expect(said(demo('orchard-hauler'))).toMatch(/stays at or below 60 V/);
  });
  it('tells a wait that the file does not give', () => { expect(said(van.replaceAll(/\n *lasts: 0.5 s[^\n]*/g, ''))).toMatch(/needs modes\.precharge\.lasts/); });
});
