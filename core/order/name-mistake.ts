/**
 * What the builder's readings say about the way the battery is put together: a module that is turned round, a link on the wrong terminal,
 * a link that is not there, leads that were swapped.
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
import type { JoinProblem } from './join-problem.ts';

export interface PointReading {
  /** points between which the meter was, the red lead at `a` */
  readonly a: string; readonly b: string;
  /** read, a minus b [V] */
  readonly voltage: number;
  /** how far a right reading may lie from what is expected [V] */
  readonly band: number;
}

export type Mistake =
  | { readonly is: 'reversed'; readonly module: string }
  | { readonly is: 'wrong_link'; readonly run: string; /** end that was meant, and where it seems to be */ readonly meant: string; readonly seems: string }
  | { readonly is: 'not_joined'; readonly joint: string }
  | { readonly is: 'swapped_leads'; readonly a: string; readonly b: string };

export interface NamedMistake {
  /** that together explain the readings */
  readonly mistakes: readonly Mistake[];
  /** `M4 appears reversed: -44.1 V where +44.1 V is expected` */
  readonly statement: string;
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
  const has = (index: number): boolean => made === undefined || made.has(battery.live[index]!.name);
  const points = pointsOf(battery);
  const problem = expectedProblem(car, battery);
  const known = readings.filter(({ a, b }) => points.has(a) && points.has(b));
  const floating = FLOATING * problem.cells.reduce((sum, { voltage }) => sum + Math.abs(voltage), 0);
  const judge = (tried: JoinProblem): ((reading: PointReading) => number | undefined) => {
    const islands = islandsOf(tried, has);
    return ({ a, b }) => {
      const [pieceA, pieceB] = [points.get(a)!, points.get(b)!];
      return islands.islandOf(pieceA) === islands.islandOf(pieceB) ? islands.voltageOf(pieceA) - islands.voltageOf(pieceB) : undefined;
    };
  };
  const fits = (expected: number | undefined, { voltage, band }: PointReading): boolean => (expected === undefined ? Math.abs(voltage) <= Math.max(band, floating) : Math.abs(voltage - expected) <= band);
  const right = judge(problem);
  const wrong = known.flatMap((reading) => { const expected = right(reading); return fits(expected, reading) ? [] : [{ reading, expected }]; });
  const unknown = readings.filter((reading) => !known.includes(reading));
  if (wrong.length === 0) return { wrong, named: [], unknown };

  // a reading right across a module that has its sign turned settles that module
  const settled = new Set(problem.cells.flatMap((cell, index) => (known.some((reading) => isAcross(reading, cell, points) && fits(-right(reading)!, reading) && !fits(right(reading), reading)) ? [index] : [])));
  const withSettled = reversed(problem, settled);
  const explains = (tried: JoinProblem, except?: PointReading): boolean => { const by = judge(tried); return known.every((reading) => reading === except ? fits(negated(by(reading)), reading) : fits(by(reading), reading)); };
  const base = [...settled].map((index): Mistake => ({ is: 'reversed', module: battery.readings[index]!.module }));
  const found: Mistake[][] = [];
  if (explains(withSettled)) found.push([]);
  else {
    const free = problem.cells.map((_, index) => index).filter((index) => !settled.has(index) && !known.some((reading) => isAcross(reading, problem.cells[index]!, points)));
    for (const index of free) if (explains(reversed(withSettled, new Set([index])))) found.push([{ is: 'reversed', module: battery.readings[index]!.module }]);
    found.push(...linkMistakes(battery, withSettled, has, explains));
    for (const reading of wrong) if (explains(withSettled, reading.reading)) found.push([{ is: 'swapped_leads', a: reading.reading.a, b: reading.reading.b }]);
    if (found.length === 0) {
      for (const [at, one] of free.entries()) for (const other of free.slice(at + 1)) if (explains(reversed(withSettled, new Set([one, other])))) found.push([one, other].map((index) => ({ is: 'reversed', module: battery.readings[index]!.module })));
    }
  }
  const kept = found.length > 0 ? found : settled.size > 0 ? [[]] : [];
  return { wrong, unknown, named: kept.map((more) => ({ mistakes: [...base, ...more], statement: [...base, ...more].map((mistake) => stated(mistake, wrong, battery, points)).join('; ') })) };
}

const negated = (value: number | undefined): number | undefined => (value === undefined ? undefined : -value);

/** The battery with what the meter read at each module in place of its highest voltage; else its voltage at the charge of the file. */
function expectedProblem(car: Car, { problem, readings }: BatteryJoints): JoinProblem {
  return { ...problem, cells: problem.cells.map((cell, index) => { const { module, voltage } = readings[index]!; const part = car.parts.get(module)!; return { ...cell, voltage: voltage ?? part.roles.cells!.series * part.cell!.voltage }; }) };
}

function reversed(problem: JoinProblem, which: ReadonlySet<number>): JoinProblem {
  return which.size === 0 ? problem : { ...problem, cells: problem.cells.map((cell, index) => (which.has(index) ? { ...cell, voltage: -cell.voltage } : cell)) };
}

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

const signed = (volts: number): string => `${volts > 0 ? '+' : ''}${printValue(volts, 'voltage')}`;

function stated(mistake: Mistake, wrong: MistakeFinding['wrong'], { readings, problem }: BatteryJoints, points: ReadonlyMap<string, number>): string {
  const where = ({ reading, expected }: MistakeFinding['wrong'][number], withPoints: boolean): string => `${signed(reading.voltage)}${withPoints ? ` from ${reading.a} to ${reading.b}` : ''} where ${expected === undefined ? 'nothing' : signed(expected)} is expected`;
  const [first] = wrong;
  switch (mistake.is) {
    case 'reversed': {
      const cell = problem.cells[readings.findIndex(({ module }) => module === mistake.module)]!;
      const own = wrong.find(({ reading }) => isAcross(reading, cell, points));
      return `${mistake.module} appears reversed: ${where(own ?? first!, own === undefined)}`;
    }
    case 'wrong_link': return `${mistake.run} appears to be on ${mistake.seems} instead of ${mistake.meant}: ${where(first!, true)}`;
    case 'not_joined': return `${mistake.joint} appears not to be joined: ${where(first!, true)}`;
    case 'swapped_leads': { const own = wrong.find(({ reading }) => reading.a === mistake.a && reading.b === mistake.b) ?? first!; return `the polarity between ${mistake.a} and ${mistake.b} is wrong (leads of the meter swapped, or the two cables): ${where(own, false)}`; }
  }
}
