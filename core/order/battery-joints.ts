/**
 * The joints of a car's high-voltage side, as a puzzle for `best-order.ts`: which runs must be made and which disconnects pushed in,
 * which of them ever meet the battery, and which terminals can be touched while it is done.
 *
 * While it is assembled every contactor is open and every disconnect is out; fuses, shunts and bars are what they are.
 */
import { mainsRuns } from '../car/mains-runs.ts';
import { metalOf, ownerOf, unionFind } from '../car/metal-graph.ts';
import type { Car, CarPart } from '../car/car.ts';
import type { JoinProblem, ProblemJoint, Terminal } from './join-problem.ts';

export interface BatteryJoint {
  /** of the run, or of the disconnect that is pushed in */
  readonly name: string;
  readonly is: 'run' | 'disconnect';
  /** points that it joins */
  readonly a: string; readonly b: string;
}

export interface BatteryTerminal { readonly point: string; readonly part: string; readonly exposed: Terminal['exposed'] }

export interface BatteryJoints {
  /** joints on metal that the cells reach once everything is joined; in the order of the file, disconnects last */
  readonly live: readonly BatteryJoint[];
  /** joints that meet no cell while contactors are open: made first, without voltage */
  readonly dead: readonly BatteryJoint[];
  readonly terminals: readonly BatteryTerminal[];
  /** of `live` and `terminals`, in their order */
  readonly problem: JoinProblem;
  /** of the modules in `problem.cells`, in its order: what the builder's meter read [V], in the direction of the file */
  readonly readings: readonly { readonly module: string; readonly voltage: number | undefined; /** its terminals */ readonly positive: string; readonly negative: string }[];
  /** modules that lack the values for a voltage */
  readonly unknown: readonly string[];
}

/** @returns the joints of a car; none when it has no cells. Never throws on a strange car. */
export function batteryJoints(car: Car): BatteryJoints {
  const modules = [...car.parts.values()].filter(({ roles }) => roles.cells !== undefined);
  const all = jointsOf(car);
  const [inside, whole] = [unionFind(), unionFind()];
  for (const { id, a, b, isContact } of metalOf(car).links) {
    if (isContact || ownerOf(id) === id) continue;
    inside.join(a, b);
    whole.join(a, b);
  }
  for (const { a, b } of all) whole.join(a, b);
  for (const part of modules) whole.join(...poles(part));
  const reached = new Set(modules.map((part) => whole.find(poles(part)[0])));
  const isReached = (point: string): boolean => reached.has(whole.find(point));
  const live = all.filter(({ a }) => isReached(a));
  const terminals = terminalsOf(car, isReached);

  const numbers = new Map<string, number>();
  const pieceOf = (point: string): number => {
    const piece = inside.find(point);
    const known = numbers.get(piece) ?? numbers.size;
    numbers.set(piece, known);
    return known;
  };
  const rest = {
    cells: modules.flatMap((part) => {
      const [negative, positive] = poles(part);
      return part.cell === undefined ? [] : [{ negative: pieceOf(negative), positive: pieceOf(positive), voltage: part.roles.cells!.series * part.cell.maximumVoltage }];
    }),
    joints: live.map((joint, index): ProblemJoint => ({ a: pieceOf(joint.a), b: pieceOf(joint.b), after: mustFollow(car, live, index) })),
    terminals: terminals.map(({ point, exposed }): Terminal => ({ piece: pieceOf(point), exposed, joints: live.flatMap(({ a, b }, index) => (a === point || b === point ? [index] : [])) })),
  };
  return {
    live, dead: all.filter(({ a }) => !isReached(a)), terminals,
    // counted when all have their number
    problem: { ...rest, pieces: numbers.size },
    readings: modules.flatMap((part) => { const [negative, positive] = poles(part); return part.cell === undefined ? [] : [{ module: part.name, voltage: part.roles.cells!.measuredVoltage, positive, negative }]; }),
    unknown: modules.filter(({ cell }) => cell === undefined).map(({ name }) => name),
  };
}

const poles = ({ name, roles }: CarPart): [negative: string, positive: string] => [`${name}.${roles.cells!.negative}`, `${name}.${roles.cells!.positive}`];

/** High-voltage runs that are not on the mains side, in the order of the file; then the disconnects. */
function jointsOf(car: Car): BatteryJoint[] {
  const mains = mainsRuns(car);
  const runs = [...car.runs.values()].filter(({ carries, name }) => carries === 'high_voltage' && !mains.has(name)).map(({ name, from, to }): BatteryJoint => ({ name, is: 'run', a: from, b: to }));
  const disconnects = [...car.parts.values()].flatMap(({ name, roles }): BatteryJoint[] => (roles.disconnect ? [{ name, is: 'disconnect', a: `${name}.${roles.disconnect.a}`, b: `${name}.${roles.disconnect.b}` }] : []));
  return [...runs, ...disconnects];
}

/** High-voltage terminals that the battery reaches. */
function terminalsOf(car: Car, isReached: (point: string) => boolean): BatteryTerminal[] {
  return [...car.parts.values()].flatMap(({ name, ports, fields }) => ports
    .filter(({ carries, name: port }) => carries === 'high_voltage' && isReached(`${name}.${port}`))
    .map(({ name: port }): BatteryTerminal => ({ point: `${name}.${port}`, part: name, exposed: exposure(fields['terminals']) })));
}

/** A file that says nothing is taken at its worst. */
function exposure(terminals: unknown): Terminal['exposed'] {
  return terminals === 'finger_proof' ? 'never' : terminals === 'covered' ? 'until_joined' : 'always';
}

/** What the build says about access, and: a disconnect goes in when everything else is joined, because it is what splits the pack. */
function mustFollow(car: Car, live: readonly BatteryJoint[], index: number): number[] {
  const { name, is } = live[index] as BatteryJoint;
  if (is === 'disconnect') return live.flatMap((joint, at) => (joint.is === 'run' ? [at] : []));
  const named = (key: 'after' | 'before', run: string): readonly unknown[] => { const list = car.runs.get(run)?.fields[key]; return Array.isArray(list) ? list : []; };
  return live.flatMap((joint, at) => (joint.is === 'run' && at !== index && (named('after', name).includes(joint.name) || named('before', joint.name).includes(name)) ? [at] : []));
}
