import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { words } from '../../../catalogue/words.ts';
import { keptAnalysis } from '../../../study/kept-analysis.ts';
import { answerComplete } from './complete.ts';

const kept = keptAnalysis(words);
const van = readFileSync('examples/bakery-van/build.yaml', 'utf8');

/** What is offered at the bar in a text, and what would be replaced. */
function at(text: string): { readonly replaces: string; readonly labels: readonly string[] } | undefined {
  const offset = text.indexOf('|');
  const whole = text.slice(0, offset) + text.slice(offset + 1);
  const found = answerComplete({ text: whole, offset }, kept);
  return found && { replaces: whole.slice(found.from, found.to), labels: found.items.map(({ label }) => label) };
}
const inVan = (find: string, put: string) => at(van.replace(find, put));

describe('completion', () => {
  test.each([
    ['the top of a file', 'halfshaft: 1\n|', '', ['name', 'units', 'parts', 'runs', 'modes'], ['halfshaft', 'mass']],
    ['half a section', 'par|', 'par', ['parts'], []],
    ['keys of a kind', 'parts:\n  K:\n    kind: contactor\n    ra|', 'ra', ['rating', 'coil_voltage', 'mass', 'at'], ['kind', 'series']],
    ['keys in braces', 'parts:\n  K: { kind: contactor, rating: 2 A, | }', '', ['voltage_rating', 'note'], ['rating', 'kind']],
    ['keys while a bracket is open', 'parts:\n  K: { kind: contactor, \n       vol|\n  L: { kind: fuse }', 'vol', ['voltage_rating'], ['kind']],
    ['kinds', 'parts:\n  K: { kind: co| }', 'co', ['contactor', 'battery_module'], ['cable']],
    ['kinds of run', 'stock:\n  s: { kind: | }', '', ['cable', 'wire', 'busbar'], ['contactor']],
    ['keys of a run', 'stock:\n  s: { kind: cable }\nruns:\n  W: { stock: s, | }', '', ['from', 'to', 'length', 'outside_diameter'], ['stock', 'width']],
    ['choices', 'cells:\n  c: { chemistry: n| }', 'n', ['nmc', 'lfp'], []],
    ['yes or no', 'parts:\n  K: { kind: contactor, auxiliary: | }', '', ['yes', 'no'], []],
    ['units', 'parts:\n  K: { kind: contactor, mass: 3 | }', '', ['kg', 'g', 'lb'], ['mm', 'measured']],
    ['half a unit', 'vehicle:\n  wheelbase: 2.5 m|', 'm', ['m', 'mm', 'ft'], ['kg']],
    ['a basis', 'vehicle:\n  wheelbase: 2.5 m |', '', ['±', 'measured', 'label', 'estimate'], ['mm']],
    ['half a basis', 'vehicle:\n  wheelbase: 2.5 m ±5 mm mea|', 'mea', ['measured'], ['±']],
    ['the unit of a place', 'parts:\n  K: { kind: contactor, at: [1, 2, 3 | ] }', '', ['mm', 'm', 'in'], ['kg']],
    ['an example where nothing is', 'vehicle:\n  wheelbase: |', '', ['2.54 m ±5 mm measured'], []],
    ['conditions', 'conditions:\n  |', '', ['ambient', 'state_of_charge'], []],
  ])('%s', (_, text, replaces, some, none) => {
    const found = at(text);
    expect(found?.replaces).toBe(replaces);
    expect(found?.labels).toEqual(expect.arrayContaining([...some]));
    for (const label of none) expect(found?.labels).not.toContain(label);
  });

  test('names of what the build has', () => {
    expect(inVan('cell: reclaimed, series: 12, parallel: 2, measured_voltage: 47.92 V', 'cell: |, series: 12, parallel: 2, measured_voltage: 47.92 V')?.labels).toEqual(['reclaimed']);
    expect(inVan('guards: BOX_floor', 'guards: BOX|')?.labels).toEqual(expect.arrayContaining(['BOX_floor', 'M1']));
    const ports = at(`${van.slice(0, van.indexOf('\nruns:'))}\nruns:\n  X: { from: M1.| }\n`);
    expect(ports?.labels).toEqual(expect.arrayContaining(['M1.pos', 'K_neg.coil_a']));
  });
  test('settings and their words in a mode', () => {
    expect(inVan('VCU:     { on: [main_relay, du_wake, dcdc_on, k_neg, k_pos, lamp_ready, fan] }', 'VCU:     { on: [main_relay, | ] }')?.labels).toEqual(expect.arrayContaining(['k_pos', 'fan']));
    expect(inVan('DU:      { draw: 80 kW ±5 label }', 'DU:      { dr| }')?.labels).toEqual(expect.arrayContaining(['draw']));
  });
  test('nothing in a comment, nothing where a name is free', () => {
    expect(at('parts:  # abo|ut')).toBeUndefined();
    expect(at('parts:\n  |')).toBeUndefined();
  });
});
