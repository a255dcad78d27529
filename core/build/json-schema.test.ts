import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { smallExample, smallWords } from '../../checks/fixtures/small-words.ts';
import { buildSchema } from './json-schema.ts';
import { readBuild } from './read-build.ts';

const ajv = new Ajv2020({ allErrors: true, strict: true, allowUnionTypes: true, strictRequired: false });
const validate = ajv.compile(buildSchema(smallWords));
const errorsOf = (text: string) => { validate(parse(text)); return (validate.errors ?? []).map((error) => `${error.instancePath} ${error.keyword}`); };
const changed = (from: string, to: string) => { expect(smallExample).toContain(from); return smallExample.replace(from, () => to); };

describe('the JSON Schema of the build file', () => {
  it('accepts the example that the reader accepts', () => {
    expect(errorsOf(smallExample)).toEqual([]);
  });

  it('accepts the smallest file', () => {
    expect(errorsOf('halfshaft: 1\nname: t\n')).toEqual([]);
  });

  it('gives every quantity its meaning, unit and an example', () => {
    const schema = buildSchema(smallWords) as { $defs: Record<string, { properties: Record<string, unknown> }> };
    expect(schema.$defs['part_drive']?.properties['peak_power']).toMatchObject({ description: expect.stringContaining('[W]'), examples: ['80 kW label'] });
  });

  const wrong: readonly (readonly [string, string, string, string])[] = [
    ['a key nobody knows', 'peak_power: 80', 'peek_power: 80', '/parts/INV'],
    ['a section nobody knows', 'runs:\n', 'rusn:\n', ''],
    ['a kind nobody knows', 'kind: drive', 'kind: drvie', '/parts/INV/kind'],
    ['a missing required value', ', series: 12, mass: 12.4', ', mass: 12.4', '/parts/M1'],
    ['a choice that is none', 'chemistry: nmc', 'chemistry: nmx', '/cells/reclaimed/chemistry'],
    ['a count out of range', 'studs: 3', 'studs: 99', '/parts/J1/studs'],
    ['a position of two', '[-200, 0, 500 mm]', '[-200, 500 mm]', '/parts/INV/at'],
    ['a run without its end', 'from: M1.pos, to: M2.neg, stock', 'from: M1.pos, stock', '/runs/W1'],
    ['a run cut from nothing', ', stock: flat, length', ', length', '/runs/W1'],
    ['a run of a kind without the fields of that kind', 'area: 2/0 AWG\n', 'note: x\n', '/runs/W3'],
    ['a setting nobody knows', '{ draw: 25 kW }', '{ drow: 25 kW }', '/modes/go/set/INV'],
    ['a name with a space', '  J1:\n', '  J 1:\n', '/parts'],
    ['another version', 'halfshaft: 1', 'halfshaft: 2', '/halfshaft'],
  ];
  it.each(wrong)('refuses %s, as the reader does', (_, from, to, path) => {
    const text = changed(from, to);
    expect(errorsOf(text).map((error) => error.split(' ')[0])).toContain(path);
    expect(readBuild(text, smallWords).problems.length).toBeGreaterThan(0);
  });
});
