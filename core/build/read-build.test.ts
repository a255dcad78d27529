import { describe, expect, it } from 'vitest';
import { smallExample, smallWords } from '../../checks/fixtures/small-words.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { ProblemCode } from './problem.ts';
import { readBuild } from './read-build.ts';

const read = (text: string) => readBuild(text, smallWords);
const head = 'halfshaft: 1\nname: t\n';
const quantity = (value: unknown): Quantity => value as Quantity;

/** Replaces a stretch of the example that must be there exactly once. */
function changed(from: string, to: string): string {
  expect(smallExample.split(from).length, `“${from}” once in the example`).toBe(2);
  return smallExample.replace(from, () => to);
}

/** The only problem of a text. */
function onlyProblem(text: string) {
  const { problems } = read(text);
  expect(problems.map((problem) => problem.message)).toHaveLength(1);
  const [problem] = problems;
  if (!problem) throw new Error('no problem');
  return problem;
}

function textAt(text: string, place: { offset: number; end: number }): string {
  return text.slice(place.offset, place.end);
}

describe('reading a build file', () => {
  it('says that an empty file is empty, and still fills the conditions from the handbook', () => {
    const build = read('');
    expect(build.problems).toMatchObject([{ code: 'bad_value', place: { line: 1, column: 1 }, found: 'an empty file' }]);
    expect(quantity(build.conditions['ambient'])).toMatchObject({ basis: 'handbook', path: 'handbook:conditions.ambient' });
    expect(build.parts.size).toBe(0);
  });

  it('reads a file of two lines without a problem', () => {
    expect(read(head)).toMatchObject({ name: 't', units: 'metric', scenario: undefined, problems: [] });
  });

  it('reads every section of the example without a problem', () => {
    const build = read(smallExample);
    expect(build.problems).toEqual([]);
    expect([build.removed, build.cells, build.stock, build.parts, build.runs, build.modes].map((section) => [...section.keys()])).toEqual([
      ['engine'], ['reclaimed'], ['hv50', 'flat'], ['M1', 'M2', 'INV', 'J1', 'VCU'], ['W1', 'W2', 'W3', 'W4', 'W5'], ['ready', 'go'],
    ]);
    expect(build.scenario).toBe('a van gets half a pack');
  });

  it('keeps number, tolerance, basis and unit of a value, and its path', () => {
    const mass = quantity(read(smallExample).parts.get('M1')?.fields['mass']);
    expect(mass).toMatchObject({ quantity: 'mass', nominal: 12.4, basis: 'measured', toleranceIsStated: true, unit: 'kg', path: 'parts.M1.mass' });
    expect([mass.low, mass.high]).toEqual([expect.closeTo(12.3, 9), expect.closeTo(12.5, 9)]);
  });

  it('never takes a word for a boolean or a number where text is meant', () => {
    const build = read(`halfshaft: 1\nname: 0x10\nscenario: yes\n`);
    expect(build).toMatchObject({ name: '0x10', scenario: 'yes', problems: [] });
  });

  it('knows the place of every value and of every key of an entry', () => {
    const build = read(smallExample);
    const at = (path: string) => { const place = build.places.get(path); if (!place) throw new Error(`no place for ${path}`); return textAt(smallExample, place); };
    expect(at('parts.M1.mass')).toBe('12.4 kg ±0.1 measured');
    expect(at('parts.M2.mass')).toBe('"12.6 kg"');
    expect(at('parts.INV')).toBe('INV');
    expect(at('parts.M1.at.y')).toBe('-310');
    expect(at('parts.M1.size.y')).toBe('150');
    expect(at('runs.W2.via.1.z')).toBe('380 mm');
    expect(at('modes.go.set.INV.draw')).toBe('25 kW');
    for (const place of build.places.values()) expect(smallExample.split('\n')[place.line - 1]?.slice(place.column - 1, place.column)).toBe(smallExample[place.offset]);
  });

  it('spreads the unit, tolerance and basis of the last item over a position, in the unit they were written in', () => {
    const position = (text: string) => (read(changed('[-200, 0, 500 mm]', text)).parts.get('INV')?.fields['at'] as unknown as Quantity[]).map((one) => [one.nominal, one.high, one.basis]);
    expect(position('[980, -310, 340 mm ±2 measured]')).toEqual([[0.98, expect.closeTo(0.982, 12), 'measured'], [-0.31, expect.closeTo(-0.308, 12), 'measured'], [0.34, expect.closeTo(0.342, 12), 'measured']]);
    expect(position('[98 cm, -310 ±5, 340 mm ±2 drawing]')).toEqual([[0.98, expect.closeTo(0.982, 12), 'drawing'], [-0.31, expect.closeTo(-0.305, 12), 'drawing'], [0.34, expect.closeTo(0.342, 12), 'drawing']]);
    expect(position('[38, 1 1/2, 14"]').map(([nominal]) => nominal)).toEqual([expect.closeTo(0.9652, 12), expect.closeTo(0.0381, 12), expect.closeTo(0.3556, 12)]);
    expect(position('[970..990, −310, 340 mm]').map(([nominal, high]) => [nominal, high])).toEqual([[expect.closeTo(0.98, 12), 0.99], [-0.31, expect.any(Number)], [0.34, expect.any(Number)]]);
    expect(position('[1 m estimate, 2 m label, 3 m ±1 cm measured]').map(([, , basis]) => basis)).toEqual(['estimate', 'label', 'measured']);
  });

  it('reads a size with x or × into three quantities of their own', () => {
    for (const sign of [' x ', ' × ', 'x']) {
      const size = read(changed('385 x 150 x 110 mm ±2 measured', `385${sign}150${sign}110 mm ±2 measured`)).parts.get('M1')?.fields['size'] as unknown as Quantity[];
      expect(size.map((one) => [one.nominal, one.low, one.path])).toEqual([
        [0.385, expect.closeTo(0.383, 12), 'parts.M1.size.x'], [0.15, expect.closeTo(0.148, 12), 'parts.M1.size.y'], [0.11, expect.closeTo(0.108, 12), 'parts.M1.size.z'],
      ]);
    }
  });

  it('fills an absent handbook field from the catalogue, as one variable for all who share the row', () => {
    const build = read(smallExample);
    const [first, second] = ['M1', 'M2'].map((name) => build.parts.get(name)?.fields['leakage']);
    expect(first).toMatchObject({ nominal: 20e6, low: 1e6, high: 100e6, shape: 'normal', basis: 'handbook', path: 'handbook:block.leakage' });
    expect(second).toBe(first);
    expect(build.quantities.get('handbook:block.leakage')).toBe(first);
  });

  it('falls back to the handbook when a handbook field is wrong, and says that it is wrong', () => {
    const text = changed('ambient: 35 °C', 'ambient: 35 kg');
    expect(onlyProblem(text)).toMatchObject({ code: 'wrong_quantity', path: 'conditions.ambient' });
    expect(quantity(read(text).conditions['ambient']).path).toBe('handbook:conditions.ambient');
  });

  it('throws when a descriptor names a handbook row that the catalogue does not have, or one that it cannot use', () => {
    const rows = new Map(smallWords.catalogue.rows);
    rows.delete('conditions.ambient');
    expect(() => readBuild(head, { ...smallWords, catalogue: { rows, tables: new Map() } })).toThrow('conditions.ambient');
    const { catalogue } = smallWords;
    const ambient = catalogue.rows.get('conditions.ambient');
    if (!ambient) throw new Error('fixture');
    const withRow = (row: typeof ambient) => () => readBuild(head, { ...smallWords, catalogue: { ...catalogue, rows: new Map(catalogue.rows).set(row.key, row) } });
    expect(withRow({ ...ambient, quantity: 'mass' })).toThrow('is a mass');
    expect(withRow({ ...ambient, value: '90 °C' })).toThrow('outside its range');
    expect(withRow({ ...ambient, range: 'a few' })).toThrow('range a few');
  });

  it('lays the fields of a run over those of its stock', () => {
    const build = read(smallExample);
    expect(build.runs.get('W4')).toMatchObject({ kind: 'lead', stock: 'hv50', from: { part: 'INV', port: 'neg' }, to: { part: 'M1', port: 'neg' } });
    expect(quantity(build.runs.get('W4')?.fields['rating']).path).toBe('runs.W4.rating');
    expect(quantity(build.runs.get('W2')?.fields['rating']).path).toBe('handbook:lead.rating');
    expect(quantity(build.runs.get('W4')?.fields['area']).path).toBe('stock.hv50.area');
    expect(build.runs.get('W3')).toMatchObject({ kind: 'lead', stock: undefined });
    expect(build.runs.get('W2')?.fields['bundled']).toBe(2);
  });

  it('collects each uncertain quantity once, under its own path', () => {
    const build = read(smallExample);
    for (const [path, one] of build.quantities) expect(one.path).toBe(path);
    expect(build.quantities.has('stock.hv50.area')).toBe(true);
    expect([...build.quantities.keys()].filter((path) => path.startsWith('runs.W2.via'))).toHaveLength(6);
  });

  it('reads a file with CRLF line ends and a byte order mark to the same model', () => {
    const windows = read(`\uFEFF${smallExample.replaceAll('\n', '\r\n')}`);
    const unix = read(smallExample);
    expect(windows.problems).toEqual([]);
    expect([...windows.quantities.entries()]).toEqual([...unix.quantities.entries()]);
    expect(windows.places.get('parts.INV.note')?.line).toBe(unix.places.get('parts.INV.note')?.line);
  });

  it('shares an anchored value with its aliases, each under its own path', () => {
    const build = read(`${head}cells:\n  a: &cell { chemistry: nmc, capacity: 60 Ah, resistance: 1 mΩ }\n  b: *cell\n`);
    expect(build.problems).toEqual([]);
    expect(quantity(build.cells.get('b')?.fields['capacity']).path).toBe('cells.b.capacity');
  });

  it('accepts yes, no, true and false for a flag', () => {
    for (const [word, value] of [['yes', true], ['no', false], ['true', true], ['False', false]] as const) {
      expect(read(changed('screened: yes', `screened: ${word}`)).stock.get('hv50')?.fields['screened']).toBe(value);
    }
  });

  it('takes the fallback of a choice when the file is silent', () => {
    expect(read(smallExample).parts.get('INV')?.fields['cooling']).toBe('air');
  });

  it('misses nothing of a vehicle that the file does not describe, and each value of one it begins to describe', () => {
    expect(read(`${head}vehicle: { wheelbase: 2 m }`).problems.map((problem) => problem.path).sort()).toEqual(['vehicle.front_axle_load', 'vehicle.front_track', 'vehicle.rear_axle_load', 'vehicle.rear_track']);
  });
});

describe('a problem of a build file', () => {
  /** [what is wrong, from, to, code, path, the very characters, nearest] */
  const cases: readonly (readonly [string, string, string, ProblemCode, string, string, string | undefined])[] = [
    ['a mass in millimetres', '12.4 kg ±0.1 measured', '35 mm', 'wrong_quantity', 'parts.M1.mass', 'mm', undefined],
    ['a unit that does not exist', '142 kg', '142 kgg', 'bad_value', 'removed.engine.mass', 'kgg', 'kg'],
    ['a misspelt key', 'peak_power: 80', 'peek_power: 80', 'unknown_key', 'parts.INV.peek_power', 'peek_power', 'peak_power'],
    ['a misspelt section', 'runs:\n', 'rusn:\n', 'unknown_key', 'rusn', 'rusn', 'runs'],
    ['an unknown kind of part', 'kind: drive', 'kind: drvie', 'unknown_kind', 'parts.INV.kind', 'drvie', 'drive'],
    ['an unknown kind of run', '{ kind: bar,', '{ kind: bra,', 'unknown_kind', 'stock.flat.kind', 'bra', 'bar'],
    ['a choice that is none', 'chemistry: nmc', 'chemistry: nmx', 'bad_value', 'cells.reclaimed.chemistry', 'nmx', 'nmc'],
    ['a mass of nothing', '"12.6 kg"', '0 kg', 'out_of_range', 'parts.M2.mass', '0 kg', undefined],
    ['a charge above full', '{ ambient: 35 °C }', '{ state_of_charge: 150 % }', 'out_of_range', 'conditions.state_of_charge', '150 %', undefined],
    ['too many studs', 'studs: 3', 'studs: 99', 'out_of_range', 'parts.J1.studs', '99', undefined],
    ['half a stud', 'studs: 3', 'studs: 3.5', 'bad_value', 'parts.J1.studs', '3.5', undefined],
    ['a flag that is neither', 'sealed: no', 'sealed: nope', 'bad_value', 'parts.INV.sealed', 'nope', undefined],
    ['a port that the part does not have', 'from: M1.pos', 'from: M1.poss', 'unknown_port', 'runs.W1.from', 'M1.poss', 'M1.pos'],
    ['a port that the fields of the part do not give it', 'to: J1.s1', 'to: J1.s4', 'unknown_port', 'runs.W2.to', 'J1.s4', 'J1.s1'],
    ['a part that is not there', 'from: VCU.run', 'from: VCV.run', 'unknown_name', 'runs.W5.from', 'VCV.run', 'VCU.run'],
    ['a part without its port', 'from: M2.pos', 'from: M2', 'unknown_port', 'runs.W2.from', 'M2', undefined],
    ['a port reference in a field', 'run: INV.enable', 'run: INV.enabel', 'unknown_port', 'parts.VCU.outputs.run', 'INV.enabel', 'INV.enable'],
    ['a part name in a list', 'watches: [M1, M2]', 'watches: [M1, M3]', 'unknown_name', 'parts.VCU.watches.1', 'M3', 'M1'],
    ['a cell that is not there', 'cell: reclaimed, series: 12, mass: 12.4', 'cell: reclaimd, series: 12, mass: 12.4', 'unknown_name', 'parts.M1.cell', 'reclaimd', 'reclaimed'],
    ['a stock that is not there', 'stock: flat', 'stock: flta', 'unknown_name', 'runs.W1.stock', 'flta', 'flat'],
    ['a mode that is not there', 'from: [ready]', 'from: [redy]', 'unknown_name', 'modes.go.from.0', 'redy', 'ready'],
    ['a setting of a part that is not there', 'INV: { draw', 'INX: { draw', 'unknown_name', 'modes.go.set.INX', 'INX', 'INV'],
    ['a setting that the kind does not have', '{ draw: 25 kW }', '{ drow: 25 kW }', 'unknown_key', 'modes.go.set.INV.drow', 'drow', 'draw'],
    ['a setting of the wrong quantity', '{ draw: 25 kW }', '{ draw: 25 V }', 'wrong_quantity', 'modes.go.set.INV.draw', 'V', undefined],
    ['a position of two', '[-200, 0, 500 mm]', '[-200, 500 mm]', 'bad_value', 'parts.INV.at', '[-200, 500 mm]', undefined],
    ['a position in kilograms', '[-120, 40, 560 mm]', '[-120, 40 kg, 560 mm]', 'wrong_quantity', 'removed.engine.at.y', 'kg', undefined],
    ['a size of two', '385 x 150 x 110 mm ±2 measured', '385 x 150 mm', 'bad_value', 'parts.M1.size', '385 x 150 mm', undefined],
    ['a run from a port to itself', 'to: M2.neg', 'to: M1.pos', 'run_to_itself', 'runs.W1', 'M1.pos', undefined],
    ['a group where a value belongs', '"12.6 kg"', '{ kg: 12 }', 'bad_value', 'parts.M2.mass', '{ kg: 12 }', undefined],
    ['a value where a group belongs', 'bar: { width: 20 mm, coated: yes }', 'bar: 20 mm', 'bad_value', 'parts.J1.bar', '20 mm', undefined],
    ['a value that was left empty', 'peak_power: 80 kW label', 'peak_power:', 'missing_value', 'parts.INV.peak_power', 'peak_power', undefined],
    ['a version of the future', 'halfshaft: 1', 'halfshaft: 2', 'wrong_version', 'halfshaft', '2', undefined],
    ['a name with a space', '  VCU:\n    kind', '  V CU:\n    kind', 'bad_value', 'parts.V CU', 'V CU', undefined],
  ];
  // Some mistakes make others: a part of unknown name is then missed elsewhere.
  it.each(cases)('%s has its place, code and nearest spelling', (_, from, to, code, path, characters, nearest) => {
    const text = changed(from, to);
    const problem = read(text).problems.find((each) => each.path === path);
    expect(problem).toMatchObject({ code, path, nearest });
    if (!problem) return;
    expect(textAt(text, problem.place)).toBe(characters);
    expect(problem.place.line).toBe(text.slice(0, problem.place.offset).split('\n').length);
    expect(problem.message).not.toMatch(/undefined|\[object/);
  });

  it('is told once, not again by all that depends on it', () => {
    expect(onlyProblem(changed('kind: drive', 'kind: drvie'))).toMatchObject({ code: 'unknown_kind' });
    expect(onlyProblem(changed('stock: flat', 'stock: flta'))).toMatchObject({ code: 'unknown_name' });
    expect(onlyProblem(changed('{ kind: bar,', '{ kind: bra,'))).toMatchObject({ code: 'unknown_kind' });
  });

  it('of three numbers with one unit is told once, at the unit', () => {
    const text = changed('[-200, 0, 500 mm]', '[-200, 0, 500]');
    expect(onlyProblem(text)).toMatchObject({ path: 'parts.INV.at.z', code: 'bad_value' });
    expect(onlyProblem(changed('385 x 150 x 110 mm ±2 measured', '385 x 150 x 110 kg'))).toMatchObject({ path: 'parts.M1.size.z', code: 'wrong_quantity' });
    expect(read(changed('[-200, 0, 500 mm]', '[abc, 0, 500 kg]')).problems.map((problem) => problem.path)).toEqual(['parts.INV.at.x', 'parts.INV.at.z']);
  });

  it('does not keep the rest of the file from being read', () => {
    const build = read(changed('12.4 kg ±0.1 measured', '35 mm'));
    expect(build.parts.get('M1')?.fields['mass']).toBeUndefined();
    expect(build.parts.get('M1')?.fields['series']).toBe(12);
    expect(build.runs.size).toBe(5);
  });

  it('tells of a missing required value at the name of its part', () => {
    const text = changed('peak_power: 80 kW label   # on the plate', 'cooling: air');
    const problem = onlyProblem(text);
    expect(problem).toMatchObject({ code: 'missing_value', path: 'parts.INV.peak_power' });
    expect(textAt(text, problem.place)).toBe('INV');
  });

  it('takes a bad port reference out of the model', () => {
    expect(read(changed('run: INV.enable', 'run: INV.enabel')).parts.get('VCU')?.fields['outputs']).toEqual({});
  });

  it('counts the runs on a port, and still keeps them', () => {
    const build = read(changed('to: J1.s1', 'to: INV.pos'));
    expect(build.problems).toMatchObject([{ code: 'double_connection', path: 'runs.W3.to', level: 'note' }]);
    expect(build.runs.has('W3')).toBe(true);
  });

  it('sees two runs between the same two ports, whichever way round', () => {
    const build = read(changed('runs:\n', 'runs:\n  W0: { from: M2.neg, to: M1.pos, stock: flat }\n'));
    expect(build.problems).toMatchObject([{ code: 'double_connection', path: 'runs.W1', level: 'note' }]);
  });

  it('keeps the first of two equal keys', () => {
    const text = changed('studs: 3', 'studs: 3\n    studs: 4');
    expect(onlyProblem(text)).toMatchObject({ code: 'duplicate_key', path: 'parts.J1.studs', place: { line: text.slice(0, text.indexOf('studs: 4')).split('\n').length, column: 5 } });
    expect(read(text).parts.get('J1')?.fields['studs']).toBe(3);
  });

  it('tells every one of many problems, in the order of the text', () => {
    const { problems } = read(smallExample.replace('nmc', 'nmx').replace('12.4 kg', '12.4 kV').replace('M1.pos', 'M1.poss').replace('25 kW', '25 mm'));
    expect(problems.map((problem) => problem.path)).toEqual(['cells.reclaimed.chemistry', 'parts.M1.mass', 'runs.W1.from', 'modes.go.set.INV.draw']);
  });

  it('cuts a tolerance that reaches outside what is possible, and notes it', () => {
    const text = changed('12.4 kg ±0.1 measured', '12.4 kg ±20 measured');
    expect(onlyProblem(text)).toMatchObject({ code: 'out_of_range', level: 'note' });
    const mass = quantity(read(text).parts.get('M1')?.fields['mass']);
    expect(mass.nominal).toBe(12.4);
    expect(mass.low).toBeGreaterThan(0);
  });

  it('of syntax has a place, and what can still be read is read', () => {
    const build = read(`${head}cells:\n  a: { chemistry: nmc, capacity: 60 Ah, resistance: 1 mΩ\nparts: [\n`);
    expect(build.problems[0]).toMatchObject({ code: 'bad_yaml', place: { line: 5 } });
    expect(build.name).toBe('t');
    expect(build.cells.has('a')).toBe(true);
  });

  it('is a second document in the file', () => {
    expect(onlyProblem(`${head}---\nname: again\n`)).toMatchObject({ code: 'bad_yaml', place: { line: 3, column: 1 } });
  });

  it('is a file beyond a megabyte', () => {
    expect(onlyProblem(`${head}# ${'x'.repeat(1_000_000)}`)).toMatchObject({ code: 'too_large', place: { line: 1 } });
  });

  it('is nesting beyond forty, in brackets, dashes or indents; what stands before is read', () => {
    for (const deep of [`scenario: ${'['.repeat(400_000)}`, `scenario:\n  ${'- '.repeat(400)}x`, `scenario:\n${Array.from({ length: 60 }, (_, n) => `${' '.repeat(n + 1)}a:`).join('\n')}`]) {
      const build = read(head + deep);
      expect(build.problems.map((problem) => problem.code)).toContain('too_deep');
      expect(build.problems[0]?.place.line).toBeGreaterThanOrEqual(3);
      expect(build.name).toBe('t');
    }
  });

  it('is an alias of itself, of nothing, or one too many', () => {
    expect(read(`${head}cells: &c\n  a: *c\n`).problems).toMatchObject([{ code: 'too_many_aliases', path: 'cells.a', place: { line: 4 } }]);
    expect(read(`${head}cells: *none\n`).problems).toMatchObject([{ code: 'bad_yaml', place: { line: 3 } }]);
    const levels = Array.from({ length: 12 }, (_, n) => `  l${n}: &l${n} [${Array.from({ length: 10 }, () => (n === 0 ? 'x' : `*l${n - 1}`)).join(', ')}]`);
    expect(read(`${head}removed:\n${levels.join('\n')}\n`).problems.map((problem) => problem.code)).toContain('too_many_aliases');
  });
});

describe('modes that contradict themselves', () => {
  const modes = (text: string) => readBuild(`halfshaft: 1\nname: t\nmodes:\n${text}`, smallWords);

  it('finds a mode that comes back before it is over, and takes it as one that does not say when', () => {
    const { problems, modes: read } = modes('  boost: { lasts: 10 s, every: 4 s }\n');
    expect(problems).toMatchObject([{ code: 'out_of_range', path: 'modes.boost.every', level: 'stop' }]);
    expect(read.get('boost')!.every).toBeUndefined();
    expect(modes('  boost: { lasts: 10 s, every: 10 s }\n').problems).toEqual([]);
  });

  it('finds a mode that is entered from itself, and leaves that out', () => {
    const { problems, modes: read } = modes('  off: {}\n  boost: { from: [off, boost] }\n');
    expect(problems).toMatchObject([{ code: 'bad_value', path: 'modes.boost.from.1' }]);
    expect(read.get('boost')!.from).toEqual(['off']);
  });

  it('reads up to what charge a mode is used', () => {
    expect(modes('  regen: { highest_charge: 90 % }\n').modes.get('regen')!.highestCharge?.nominal).toBeCloseTo(0.9, 12);
    expect(modes('  regen: { highest_charge: 120 % }\n').problems).toMatchObject([{ code: 'out_of_range' }]);
  });
});
