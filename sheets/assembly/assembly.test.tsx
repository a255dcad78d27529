import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { analysed } from '../../checks/fixtures/analysed.ts';
import { assemblyPlan } from '../../core/order/assembly-plan.ts';
import { twoStringCar } from '../../checks/fixtures/pack-car.ts';
import { cellText, isHeading } from '../table/table.ts';
import { lettersInTrouble } from '../table/text-boxes.ts';
import { plainText } from '../text-block.ts';
import { chainRows } from './chain-rows.ts';
import { assemblyDrawing } from './drawing.tsx';
import { assemblyModel } from './model.ts';
import type { AssemblyModel } from './model.ts';

const choices = { units: { system: 'metric' }, state: {} } as const;
const modelOf = (text: string): AssemblyModel => assemblyModel.model(analysed(text, ['pack']), choices) as AssemblyModel;
const demo = (name: string): string => readFileSync(new URL(`../../examples/${name}/build.yaml`, import.meta.url), 'utf8');
const van = demo('bakery-van');
const said = (text: string): string => assemblyDrawing.pages(modelOf(text)).map((page) => plainText(page.text)).join('\n');
/** Thirty modules in a row. */
const long = `halfshaft: 1\nname: long\ncells: { c: { chemistry: nmc, capacity: 60 Ah, resistance: 1 mΩ, minimum_voltage: 3 V, nominal_voltage: 3.65 V, maximum_voltage: 4.2 V } }\nstock: { bar: { kind: busbar, width: 20 mm, thickness: 3 mm, insulation: bare } }\nparts:\n${Array.from({ length: 30 }, (_, index) => `  M${index}: { kind: battery_module, cell: c, series: 12 }`).join('\n')}\nruns:\n${Array.from({ length: 29 }, (_, index) => `  L${index}: { from: M${index}.pos, to: M${index + 1}.neg, stock: bar, length: 80 mm }`).join('\n')}\n`;

describe('the sheet of the assembly', () => {
  it.each([van, demo('two-string-coupe'), demo('orchard-hauler'), twoStringCar, long, '', 'halfshaft: 1\nname: one\nparts: { M1: { kind: battery_module } }\n', van.replace(/\nruns:[\s\S]*/, '\n'), van.replaceAll('SD', `S${'d'.repeat(59)}`),
    van.replace('H02: {', 'H02: { after: [H03], torque: 9 N·m datasheet,').replace('H03: {', 'H03: { after: [H02],')])('draws any build with no letters cut or on each other (%#)', (text) => {
    for (const page of assemblyDrawing.pages(structuredClone(modelOf(text)))) expect(lettersInTrouble(page.body)).toEqual([]);
  });
  it('numbers every joint once, in the chain or beside it, as the order has them', () => {
    const { chains, beside } = modelOf(van);
    const numbered = [...chains.flatMap(({ pieces, tail }) => [...pieces.flatMap(({ before, own }) => [...before, ...(own ? [own] : [])]), ...tail]), ...beside].filter(({ number }) => number > 0).sort((a, b) => a.number - b.number);
    const plan = assemblyPlan(analysed(van, []).car);
    if (plan.outcome !== 'planned') throw new Error(plan.outcome);
    expect(numbered.map(({ name }) => name)).toEqual(plan.steps.map(({ joint }) => joint.name));
  });
  it('keeps the pieces of a chain in their order over its rows', () => {
    const [chain] = modelOf(long).chains;
    const rows = chainRows(chain!, 382);
    expect(rows.length).toBeGreaterThan(2);
    expect(rows.flatMap(({ pieces }) => pieces.map(({ piece }) => piece.name))).toEqual(chain!.pieces.map(({ name }) => name));
  });
  it('shows the torque of the file, and says where there is none', () => {
    const { procedure } = modelOf(van.replace('H02: {', 'H02: { torque: 9 N·m datasheet, hardware: "M8 flange nut, brass",'));
    const rows = procedure!.rows.flatMap((row) => (isHeading(row) ? [] : [row.cells.map(cellText)]));
    expect(rows.find(([, joint]) => joint!.startsWith('H02'))![3]).toMatch(/9 N·m datasheet; M8 flange nut, brass/);
    expect(rows.find(([, joint]) => joint!.startsWith('H04'))![3]).toContain('torque not in the file');
  });
  it('tells the way back, both orders, and that strings stand too far apart', () => {
    expect(said(van)).toMatch(/6 of the states that follow are above 60 V \(class B\); in the order of the file 12/);
    expect(said(van)).toMatch(/TAKING APART[\s\S]*reads below 60 V at DU\.pos to DU\.neg[\s\S]*SD; SD\.in to SD\.out\tM7\.pos \(red\) to M1\.neg: \+335 V; 0 A in a clamp meter around it\.\tby hand; face shield/);
    expect(said(demo('two-string-coupe'))).toMatch(/stands 16\.3 V above B1[\s\S]*Not now: bring them together first/);
    expect(said(twoStringCar)).toMatch(/Closes a loop of 8 modules\. By the modules’ readings the ends stand 80 mV apart/);
  });
  it('names the open findings at STOP at its head, and holds the joints that they are about', () => {
    const model = assemblyModel.model(analysed(van.replace(/^runs:/m, 'runs:\n  L1: { from: M5.pos, to: M6.pos, stock: hv50, length: 0.2 m }')), choices) as AssemblyModel;
    expect(model.stops[1]).toMatch(/^STOP 1: M6 is short-circuited through L1, H07/);
    const rows = model.procedure!.rows.flatMap((row) => (isHeading(row) ? [] : [row]));
    const held = rows.filter(({ label }) => label!.includes('held'));
    expect(held.map(({ label }) => label!.split(' ').at(-1)).sort()).toEqual(['H07', 'L1']);
    for (const { cells } of held) expect(cells.map(cellText).join(' ')).not.toMatch(/spanner|gloves|torque/);
    for (const page of assemblyDrawing.pages(structuredClone(model))) expect(lettersInTrouble(page.body)).toEqual([]);
  });
  it('says why there is nothing to order', () => {
    expect(said('halfshaft: 1\nname: new\n')).toMatch(/no high-voltage joint that a battery reaches yet/);
    expect(said(van.replace('H02: {', 'H02: { after: [H03],').replace('H03: {', 'H03: { after: [H02],'))).toMatch(/wait for each other, so there is no order: H02, H03/);
  });
});
