import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { words } from '../../../catalogue/words.ts';
import { fieldsOfEntry } from '../../../core/build/field-at.ts';
import { locate } from '../../../core/build/locate.ts';
import { readSource } from '../../../core/build/read-source.ts';
import { keptAnalysis } from '../../../study/kept-analysis.ts';
import type { CardField } from '../protocol.ts';
import { answerCard, ownerOf } from './card.ts';
import { answerKinds } from './kinds.ts';

const units = { system: 'metric' } as const;
const kept = keptAnalysis(words);
const demo = (name: string): string => readFileSync(`examples/${name}/build.yaml`, 'utf8');
const van = demo('bakery-van');
const every = (fields: readonly CardField[]): CardField[] => fields.flatMap((field) => [field, ...every(field.fields)]);

describe.each(['bakery-van', 'two-string-coupe'])('cards of %s', (name) => {
  const text = demo(name);
  const root = readSource(text, () => undefined);
  const { build } = kept.of(text);
  const owners = [...['parts', 'runs', 'cells', 'stock', 'removed', 'modes'].flatMap((section) => [...(build[section as 'parts'] as ReadonlyMap<string, unknown>).keys()].map((entry) => `${section}.${entry}`))];

  test('every field of its descriptor is there, each value as the file has it', () => {
    for (const owner of owners) {
      const card = answerCard({ text, path: owner, units }, kept);
      expect(card?.path).toBe(owner);
      const [section = '', entry = ''] = owner.split('.');
      const fields = fieldsOfEntry(section, entry, root, words) ?? {};
      const names = card?.fields.map((field) => field.name) ?? [];
      expect(names, owner).toEqual(expect.arrayContaining(Object.keys(fields)));
      // one comparison a card: an expectation for each of ten thousand fields takes most of the time
      const shown: [string, string][] = [];
      const inFile: [string, string][] = [];
      for (const field of every(card?.fields ?? [])) {
        const segments = field.path.split('.');
        const spots = locate(root, segments, text);
        const node = spots.length === segments.length ? spots.at(-1)?.node : undefined;
        const written = node?.form === 'scalar' && field.fields.length === 0 ? node.text : !node && !/\.size\.[xyz]$/.test(field.path) ? '' : undefined;
        if (written === undefined) continue;
        shown.push([field.path, field.written]);
        inFile.push([field.path, written]);
      }
      expect(shown).toEqual(inFile);
    }
  });
});

describe('a card', () => {
  const card = (path: string, text = van) => answerCard({ text, path, units }, kept);
  const field = (path: string, name: string, text = van) => every(card(path, text)?.fields ?? []).find((each) => each.path.endsWith(`.${name}`));

  test('opens for a path below its owner, and for nothing that is not there', () => {
    expect(card('parts.M1.mass')?.path).toBe('parts.M1');
    expect(card('vehicle.wheelbase')?.title).toBe('Vehicle');
    expect(card('name')?.path).toBe('');
    expect(card('parts.nobody')).toBeUndefined();
    expect(ownerOf('chassis')).toBeUndefined();
  });
  test('says what counts while the file is silent', () => {
    expect(field('parts.K_pos', 'contact_resistance')?.instead).toMatch(/handbook/);
    const run = [...kept.of(van).build.runs.values()].find((each) => each.stock === 'hv50');
    expect(field(`runs.${run?.name}`, 'conductor_area')?.instead).toBe('50 mm² label, from stock hv50');
    expect(field(`runs.${run?.name}`, 'kind')?.instead).toBe('cable, as stock hv50');
  });
  test('a position is three numbers, of which two take over what the last one says', () => {
    expect(field('parts.M1', 'at')?.fields.map(({ written, instead }) => [written, instead])).toEqual([['1040', 'mm ±10 measured, as written at z'], ['-130', 'mm ±10 measured, as written at z'], ['262 mm ±10 measured', undefined]]);
    expect(field('parts.M1', 'size')?.fields.map(({ written }) => written)).toEqual(['590', '225', '110 mm measured']);
  });
  test('ports with what is on them', () => {
    const ends = card('parts.M1')?.ends ?? [];
    expect(ends.map(({ point }) => point)).toEqual(['M1.pos', 'M1.neg']);
    for (const { runs } of ends) for (const run of runs) expect(kept.of(van).build.runs.has(run.name)).toBe(true);
    expect(ends.some(({ runs }) => runs.length > 0)).toBe(true);
  });
  test('a value that cannot be used keeps its text and says why', () => {
    const text = van.replace('mass: 25.3 kg ±0.2 measured, size: 590', 'mass: 25.3 kgg, size: 590');
    const mass = field('parts.M1', 'mass', text);
    expect(mass?.written).toBe('25.3 kgg');
    expect(mass?.problems.join()).toMatch(/did you mean kg/);
  });
  test('a mode shows what it sets, in the words that the part itself gives', () => {
    expect(field('modes.full_power', 'set.DU.draw')?.written).toBe('80 kW ±5 label');
    expect(field('modes.full_power', 'KEY.position')?.options.map(({ value }) => value)).toContain('run');
  });
  test('a handbook value opens the card of one that takes it', () => {
    expect(card('handbook:contactor.contact_resistance')?.kind).toBe('contactor');
  });
});

test('every kind can be added, each with the fields it requires', () => {
  const kinds = answerKinds({ text: van }, kept);
  expect(kinds.map(({ kind }) => kind)).toEqual([...words.kinds.keys()]);
  const module = kinds.find(({ kind }) => kind === 'battery_module');
  expect(module?.required.map(({ name }) => name)).toEqual(['cell', 'series']);
  expect(module?.required[0]?.options).toEqual([{ value: 'reclaimed', says: 'nmc' }]);
});
