/**
 * What the builder's readings say about the way the battery is put together: a module that is turned round, a link on the wrong terminal,
 * a module bridged or left out, a link that is not there, leads that were swapped. Readings may be of different states of assembly.
 *
 * Every single mistake is tried on the battery of the file: it counts when it explains all readings. A reading right across one module
 * settles that module by itself. Where several mistakes explain the same readings, all are named.
 * Range:   voltages without load; what nothing ties together reads near nothing, because a meter and the leaks pull it down
 */
import type { Car } from '../car/car.ts';
import { printValue } from '../quantity/print-value.ts';
import { batteryJoints } from './battery-joints.ts';
import type { BatteryJoints } from './battery-joints.ts';
import { islandsOf } from './join-problem.ts';
import type { Islands, JoinProblem } from './join-problem.ts';
import { presentProblem } from './measured-network.ts';

export interface PointReading {
  /** points between which the meter was, the red lead at `a` */
  readonly a: string; readonly b: string;
  /** read, a minus b [V] */
  readonly voltage: number;
  /** how far a right reading may lie from what is expected [V] */
  readonly band: number;
  /** joints that were made then; absent: those of the call */
  readonly made?: ReadonlySet<string>;
  /** what its step expects, for the words [V]; absent: what the file makes of it */
  readonly predicted?: number;
}

export type Mistake =
  | { readonly is: 'reversed'; readonly module: string }
  | { readonly is: 'left_out'; readonly module: string }
  | { readonly is: 'wrong_link'; readonly run: string; /** end that was meant, and where it seems to be */ readonly meant: string; readonly seems: string }
  | { readonly is: 'not_joined'; readonly joint: string }
  | { readonly is: 'swapped_leads'; readonly a: string; readonly b: string };

export interface NamedMistake {
  /** that together explain the readings */
  readonly mistakes: readonly Mistake[];
  /** `M4 appears reversed: -44.1 V where +44.1 V is expected` */
  readonly statement: string;
  /** its end: `-44.1 V where +44.1 V is expected`, of the reading that shows it best */
  readonly where: string;
}

export interface MistakeFinding {
  /** readings that are not what the file makes them, with what it makes them [V]; undefined: nothing ties the points together */
  readonly wrong: readonly { readonly reading: PointReading; readonly expected: number | undefined }[];
  /** each explains all readings; several: the readings do not tell them apart. Empty: all is right, or nothing explains it */
  readonly named: readonly NamedMistake[];
  /** readings at points that the battery does not have */
  readonly unknown: readonly PointReading[];
}

/** Share of the whole pack below which a reading between things that nothing joins counts as nothing; what insulation lets through. */
const FLOATING = 0.05;

/**
 * @param made  joints that are made; absent: all
 * @returns never throws on a strange car; modules without a voltage are left out
 */
export function nameMistake(car: Car, readings: readonly PointReading[], made?: ReadonlySet<string>): MistakeFinding {
  const battery = batteryJoints(car);
  const points = pointsOf(battery);
  const problem = presentProblem(car, battery);
  const known = readings.filter(({ a, b }) => points.has(a) && points.has(b));
  const unknown = readings.filter((reading) => !known.includes(reading));
  const floating = FLOATING * problem.cells.reduce((sum, { voltage }) => sum + Math.abs(voltage), 0);
  const madeBy = (reading: PointReading): ReadonlySet<string> | undefined => reading.made ?? made;
  const judge = (tried: JoinProblem): ((reading: PointReading) => number | undefined) => {
    const states = new Map<ReadonlySet<string> | undefined, Islands>();
    return (reading) => {
      const joined = madeBy(reading);
      const islands = states.get(joined) ?? islandsOf(tried, (index) => joined === undefined || joined.has(battery.live[index]!.name));
      states.set(joined, islands);
      const [pieceA, pieceB] = [points.get(reading.a)!, points.get(reading.b)!];
      return islands.islandOf(pieceA) === islands.islandOf(pieceB) ? islands.voltageOf(pieceA) - islands.voltageOf(pieceB) : undefined;
    };
  };
  const fits = (expected: number | undefined, { voltage, band }: PointReading): boolean => (expected === undefined ? Math.abs(voltage) <= Math.max(band, floating) : Math.abs(voltage - expected) <= band);
  const right = judge(problem);
  const wrong = known.flatMap((reading) => { const expected = right(reading); return fits(expected, reading) ? [] : [{ reading, expected }]; });
  if (wrong.length === 0) return { wrong, named: [], unknown };

  // a reading right across a module that has its sign turned settles that module
  const settled = new Set(problem.cells.flatMap((cell, index) => (known.some((reading) => isAcross(reading, cell, points) && fits(-right(reading)!, reading) && !fits(right(reading), reading)) ? [index] : [])));
  const withSettled = reversed(problem, settled);
  // what is wrong now decides soonest
  const inTurn = [...wrong.map(({ reading }) => reading), ...known.filter((reading) => !wrong.some((one) => one.reading === reading))];
  const explains = (tried: JoinProblem, except?: PointReading): boolean => { const by = judge(tried); return inTurn.every((reading) => reading === except ? fits(negated(by(reading)), reading) : fits(by(reading), reading)); };
  const base = [...settled].map((index): Mistake => ({ is: 'reversed', module: battery.readings[index]!.module }));
  const found: Mistake[][] = [];
  if (explains(withSettled)) found.push([]);
  else {
    const free = problem.cells.map((_, index) => index).filter((index) => !settled.has(index) && !known.some((reading) => isAcross(reading, problem.cells[index]!, points)));
    for (const index of free) if (explains(reversed(withSettled, new Set([index])))) found.push([{ is: 'reversed', module: battery.readings[index]!.module }]);
    for (const index of free) if (explains(withVoltage(withSettled, index, 0))) found.push([{ is: 'left_out', module: battery.readings[index]!.module }]);
    const isMade = (index: number): boolean => known.some((reading) => { const joined = madeBy(reading); return joined === undefined || joined.has(battery.live[index]!.name); });
    found.push(...linkMistakes(battery, withSettled, isMade, explains));
    for (const reading of wrong) if (explains(withSettled, reading.reading)) found.push([{ is: 'swapped_leads', a: reading.reading.a, b: reading.reading.b }]);
    if (found.length === 0) {
      for (const [at, one] of free.entries()) for (const other of free.slice(at + 1)) if (explains(reversed(withSettled, new Set([one, other])))) found.push([one, other].map((index) => ({ is: 'reversed', module: battery.readings[index]!.module })));
    }
  }
  const kept = found.length > 0 ? found : settled.size > 0 ? [[]] : [];
  return { wrong, unknown, named: kept.map((more) => named([...base, ...more], wrong, battery, points)) };
}

const negated = (value: number | undefined): number | undefined => (value === undefined ? undefined : -value);

function reversed(problem: JoinProblem, which: ReadonlySet<number>): JoinProblem {
  return which.size === 0 ? problem : { ...problem, cells: problem.cells.map((cell, index) => (which.has(index) ? { ...cell, voltage: -cell.voltage } : cell)) };
}

const withVoltage = (problem: JoinProblem, which: number, voltage: number): JoinProblem => ({ ...problem, cells: problem.cells.map((cell, index) => (index === which ? { ...cell, voltage } : cell)) });

/** Piece of metal of every terminal that a probe can touch. */
function pointsOf({ terminals, problem }: BatteryJoints): ReadonlyMap<string, number> {
  return new Map(terminals.map(({ point }, index) => [point, problem.terminals[index]!.piece]));
}

function isAcross({ a, b }: PointReading, { positive, negative }: JoinProblem['cells'][number], points: ReadonlyMap<string, number>): boolean {
  const [pieceA, pieceB] = [points.get(a), points.get(b)];
  return (pieceA === positive && pieceB === negative) || (pieceA === negative && pieceB === positive);
}

/** One end of one run on another terminal of the battery, or a joint that is not there. */
function linkMistakes({ live, terminals, problem: { terminals: ends } }: BatteryJoints, problem: JoinProblem, has: (joint: number) => boolean, explains: (tried: JoinProblem) => boolean): Mistake[][] {
  const found: Mistake[][] = [];
  const seen = new Set<string>();
  live.forEach((joint, index) => {
    if (!has(index)) return;
    const apart = { ...problem, joints: problem.joints.map((one, at) => (at === index ? { ...one, b: one.a } : one)) };
    if (explains(apart)) found.push([{ is: 'not_joined', joint: joint.name }]);
    if (joint.is !== 'run') return;
    for (const end of ['a', 'b'] as const) {
      terminals.forEach(({ point }, at) => {
        const { piece } = ends[at]!;
        const other = problem.joints[index]![end === 'a' ? 'b' : 'a'];
        // on a terminal of the same metal it is no mistake, on its own other end it is a run that joins nothing
        if (piece === problem.joints[index]![end] || piece === other || !isCellTerminal(problem, piece)) return;
        const key = `${index} ${end} ${piece}`;
        if (seen.has(key)) return;
        seen.add(key);
        if (explains({ ...problem, joints: problem.joints.map((one, place) => (place === index ? { ...one, [end]: piece } : one)) })) found.push([{ is: 'wrong_link', run: joint.name, meant: joint[end], seems: point }]);
      });
    }
  });
  return found;
}

const isCellTerminal = ({ cells }: JoinProblem, piece: number): boolean => cells.some(({ positive, negative }) => positive === piece || negative === piece);

const signed = (volts: number): string => `${volts > 0 ? '+' : ''}${printValue(volts, 'voltage', { digits: 4 })}`;

function named(mistakes: readonly Mistake[], wrong: MistakeFinding['wrong'], battery: BatteryJoints, points: ReadonlyMap<string, number>): NamedMistake {
  const each = mistakes.map((mistake) => ({ what: whatIs(mistake), where: whereIs(mistake, wrong, battery, points) }));
  return { mistakes, statement: each.map(({ what, where }) => `${what}: ${where}`).join('; '), where: each[0]!.where };
}

function whatIs(mistake: Mistake): string {
  switch (mistake.is) {
    case 'reversed': return `${mistake.module} appears reversed`;
    case 'left_out': return `${mistake.module} appears bridged or left out`;
    case 'wrong_link': return `${mistake.run} appears to be on ${mistake.seems} instead of ${mistake.meant}`;
    case 'not_joined': return `${mistake.joint} appears not to be joined`;
    case 'swapped_leads': return `the polarity between ${mistake.a} and ${mistake.b} is wrong (leads of the meter swapped, or the two cables)`;
  }
}

/** The reading that shows it best: the one right across, else the first that is wrong, with its points. */
function whereIs(mistake: Mistake, wrong: MistakeFinding['wrong'], { readings, problem }: BatteryJoints, points: ReadonlyMap<string, number>): string {
  const own = wrong.find(({ reading }) => {
    if (mistake.is === 'swapped_leads') return reading.a === mistake.a && reading.b === mistake.b;
    return mistake.is === 'reversed' && isAcross(reading, problem.cells[readings.findIndex(({ module }) => module === mistake.module)]!, points);
  });
  const { reading, expected } = own ?? wrong[0]!;
  const should = reading.predicted ?? expected;
  return `${signed(reading.voltage)}${own ? '' : ` from ${reading.a} to ${reading.b}`} where ${should === undefined ? 'nothing' : signed(should)} is expected`;
}
