import { describe, expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { analyse } from '../analyse.ts';
import { batteryJoints } from './battery-joints.ts';
import { islandsOf } from './join-problem.ts';
import type { JoinProblem } from './join-problem.ts';
import { nameMistake } from './name-mistake.ts';
import type { PointReading } from './name-mistake.ts';

const cars = examples.map(({ name, text }) => ({ name, car: analyse(text, words, { only: [] }).car }));

/** What a meter reads in a battery that is put together otherwise than the file says. */
function read(problem: JoinProblem, pointOf: ReadonlyMap<string, number>, pairs: readonly (readonly [string, string])[]): PointReading[] {
  const islands = islandsOf(problem, () => true);
  return pairs.map(([a, b]) => {
    const [one, other] = [pointOf.get(a)!, pointOf.get(b)!];
    return { a, b, voltage: islands.islandOf(one) === islands.islandOf(other) ? islands.voltageOf(one) - islands.voltageOf(other) : 0, band: 0.5 };
  });
}

describe.each(cars)('readings of $name', ({ car }) => {
  const battery = batteryJoints(car);
  const problem: JoinProblem = { ...battery.problem, cells: battery.problem.cells.map((cell, index) => ({ ...cell, voltage: battery.readings[index]!.voltage ?? car.parts.get(battery.readings[index]!.module)!.cell!.voltage * car.parts.get(battery.readings[index]!.module)!.roles.cells!.series })) };
  const pointOf = new Map(battery.terminals.map(({ point }, index) => [point, battery.problem.terminals[index]!.piece]));
  const modules = battery.readings.map(({ module }) => module);
  const across = modules.map((module): [string, string] => [`${module}.pos`, `${module}.neg`]);
  const alongAll = modules.map((module): [string, string] => [`${module}.pos`, `${modules[0]!}.neg`]);

  it('that agree with the file name nothing', () => {
    expect(nameMistake(car, read(problem, pointOf, [...across, ...alongAll]))).toEqual({ wrong: [], named: [], unknown: [] });
  });
  it('name each module that is turned round, by its own reading', () => {
    modules.forEach((module, index) => {
      const planted = { ...problem, cells: problem.cells.map((cell, at) => (at === index ? { ...cell, voltage: -cell.voltage } : cell)) };
      const { named } = nameMistake(car, read(planted, pointOf, [across[index]!]));
      expect(named.map(({ mistakes }) => mistakes)).toEqual([[{ is: 'reversed', module }]]);
      expect(named[0]!.statement).toMatch(new RegExp(`^${module} appears reversed: -[\\d.]+ V where \\+[\\d.]+ V is expected$`));
    });
  });
  it('name it also from readings along the string, without one across it', () => {
    modules.forEach((module, index) => {
      const planted = { ...problem, cells: problem.cells.map((cell, at) => (at === index ? { ...cell, voltage: -cell.voltage } : cell)) };
      const pairs = alongAll.filter(([a]) => !a.startsWith(`${modules[0]!}.`));
      const { wrong, named } = nameMistake(car, read(planted, pointOf, pairs));
      if (wrong.length === 0) return;
      expect(named.some(({ mistakes }) => mistakes.length === 1 && mistakes[0]!.is === 'reversed' && mistakes[0]!.module === module), module).toBe(true);
    });
  });
  it('name two at once', () => {
    if (modules.length < 2) return;
    const planted = { ...problem, cells: problem.cells.map((cell, at) => (at < 2 ? { ...cell, voltage: -cell.voltage } : cell)) };
    expect(nameMistake(car, read(planted, pointOf, across.slice(0, 2))).named[0]!.mistakes).toEqual([{ is: 'reversed', module: modules[0] }, { is: 'reversed', module: modules[1] }]);
  });
  it('name every run whose end is on the next module’s wrong terminal, or not on at all', () => {
    let tried = 0;
    battery.live.forEach((joint, index) => {
      if (joint.is !== 'run') return;
      const cells = problem.cells.map((cell) => [cell.negative, cell.positive]);
      const far = cells.find((ends) => ends.includes(problem.joints[index]!.b));
      if (!far || cells.every((ends) => !ends.includes(problem.joints[index]!.a))) return;
      const wrongPiece = far.find((piece) => piece !== problem.joints[index]!.b)!;
      const pairs: [string, string][] = [...across, ...battery.live.map(({ a, b }): [string, string] => [a, b])];
      const planted = { ...problem, joints: problem.joints.map((one, at) => (at === index ? { ...one, b: wrongPiece } : one)) };
      expect(nameMistake(car, read(planted, pointOf, pairs)).named.flatMap(({ mistakes }) => mistakes), joint.name).toContainEqual({ is: 'wrong_link', run: joint.name, meant: joint.b, seems: expect.stringMatching(new RegExp(`^${joint.b.split('.')[0]}\\.`)) });
      const gone = { ...problem, joints: problem.joints.map((one, at) => (at === index ? { ...one, b: one.a } : one)) };
      const chain: [string, string][] = [...across, ...alongAll];
      const found = nameMistake(car, read(gone, pointOf, chain));
      if (found.wrong.length > 0) expect(found.named.flatMap(({ mistakes }) => mistakes)).toContainEqual({ is: 'not_joined', joint: joint.name });
      tried++;
    });
    expect(tried > 0 || modules.length <= 2).toBe(true);
  });
});

describe('a reading', () => {
  const { car } = cars.find(({ name }) => name === 'bakery-van')!;
  it('of the whole string with its sign turned is a matter of leads', () => {
    const { named } = nameMistake(car, [{ a: 'M7.pos', b: 'M1.neg', voltage: -335.43, band: 1 }]);
    expect(named).toEqual([{ mistakes: [{ is: 'swapped_leads', a: 'M7.pos', b: 'M1.neg' }], statement: 'the polarity between M7.pos and M1.neg is wrong (leads of the meter swapped, or the two cables): -335.4 V where +335.4 V is expected', where: '-335.4 V where +335.4 V is expected' }]);
  });
  it('of the whole string, less by two modules, may be any of them: all are named', () => {
    const { named } = nameMistake(car, [{ a: 'M7.pos', b: 'M1.neg', voltage: 335.43 - 2 * 47.92, band: 1 }]);
    expect(named.filter(({ mistakes }) => mistakes[0]!.is === 'reversed').map(({ mistakes }) => mistakes.map((one) => one.is === 'reversed' && one.module)).flat()).toEqual(['M1', 'M2', 'M3', 'M4', 'M5', 'M6', 'M7']);
  });
  it('of the whole string, less by one module: it may be bridged or left out, or the link before it is on its far terminal', () => {
    const found = nameMistake(car, [{ a: 'M7.pos', b: 'M1.neg', voltage: 335.43 - 47.92, band: 1, predicted: 336 }]).named;
    expect(found.flatMap(({ mistakes }) => (mistakes.length === 1 && mistakes[0]!.is === 'left_out' ? [mistakes[0]!.module] : []))).toEqual(['M1', 'M2', 'M3', 'M4', 'M5', 'M6', 'M7']);
    // what its step expects is said, not what the readings of the file make of it
    expect(found[0]!.where).toBe('+287.5 V from M7.pos to M1.neg where +336 V is expected');
  });
  it('of an earlier state of assembly counts with the joints of that state', () => {
    const { live } = batteryJoints(car);
    const pair = live.find(({ a, b }) => a.startsWith('M') && b.startsWith('M') && a.endsWith('.pos') && b.endsWith('.neg'))!;
    const [first, second] = [pair.a.split('.')[0]!, pair.b.split('.')[0]!];
    const made = new Set([pair.name]);
    const across = { a: `${second}.pos`, b: `${first}.neg`, band: 1, made };
    expect(nameMistake(car, [{ ...across, voltage: 95.9 }, { a: pair.a, b: pair.b, voltage: 0.9, band: 0.5, made: new Set() }]).wrong).toEqual([]);
    // one of the two is turned round; the reading of a third one says nothing of it
    const { named } = nameMistake(car, [{ ...across, voltage: 0 }]);
    expect(named.flatMap(({ mistakes }) => mistakes.flatMap((one) => (one.is === 'reversed' ? [one.module] : []))).sort()).toEqual([first, second].sort());
  });
  it('that nothing explains is told as wrong and not explained', () => {
    const { wrong, named } = nameMistake(car, [{ a: 'M4.pos', b: 'M4.neg', voltage: 31, band: 0.5 }]);
    expect(wrong).toHaveLength(1);
    expect(named).toEqual([]);
  });
  it('at a point that the battery does not have is handed back', () => {
    expect(nameMistake(car, [{ a: 'M9.pos', b: 'M4.neg', voltage: 31, band: 0.5 }]).unknown).toHaveLength(1);
  });
});
