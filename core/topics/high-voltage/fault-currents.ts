/**
 * Bolted shorts: across the pack, across every part that has both poles, between conductors that can meet, and at the ends of
 * leads that none of these reaches; with a full warm pack and with a nearly empty cold one. What flows then in every run, fuse and contact is read from the solved network.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import type { ExtremeState } from '../../car/extreme-states.ts';
import { highVoltageRuns } from '../../car/high-voltage-runs.ts';
import { extremeStates } from '../../car/extreme-states.ts';
import { byShape } from '../../car/shape.ts';
import type { State } from '../../car/state.ts';
import type { Check } from '../../findings/finding.ts';
import { runInductance } from '../../physics/loop-inductance.ts';
import type { RestSolved } from '../../solve/rest-result.ts';
import { needsOf } from './check-numbers.ts';
import type { HeatingMemo } from '../../car/heating-memo.ts';
import type { ModeAnswer } from './mode-currents.ts';
import { modeAnswers, whyNot } from './mode-currents.ts';
import type { FaultPoint } from './fault-points.ts';
import type { ConductorPair } from './conductor-points.ts';
import { conductorPairs } from './conductor-points.ts';
import { deadEnds } from './dead-ends.ts';
import type { LiveMode } from './fault-points.ts';
import { contactsOf, faultPoints, feedingModes, isLive, liveMode } from './fault-points.ts';
import { fuseCut } from './fuse-cut.ts';
import { CARRIES_SHARE, openingsIn, protectionOf, type Opening, type Protection } from './fuse-in-fault.ts';
import { metalPaths } from './metal-paths.ts';
import type { Packs } from './pack-ends.ts';
import { packsOf } from './pack-ends.ts';
import { SHORT_LEAD, unfusedEnd } from './unfused-ends.ts';

export { CARRIES_SHARE } from './fuse-in-fault.ts';

/** Resistance of a bolted short [ohm]; our choice. */
const BOLTED = 1e-4;

export interface FaultCase {
  /** part across whose poles the short lies; for the pack its positive end module; between conductors, and at the end of a lead, the run */
  readonly at: string;
  readonly where: FaultPoint['where'];
  /** between conductors: the other one */
  readonly other?: string;
  readonly positive: string;
  readonly negative: string;
  readonly end: ExtremeState;
  /** mode whose closed contacts feed the fault */
  readonly mode: string | undefined;
  /** in the short [A], > 0 */
  readonly current: number;
  /** electromotive force that drives it [V] */
  readonly voltage: number;
  /** of the whole loop [ohm] */
  readonly resistance: number;
  /** of the runs of the loop, weighted with the current they carry [H] */
  readonly inductance: number;
  /** runs of the loop whose length is not known: their inductance is missing */
  readonly lengthMissing: readonly string[];
  /** current of a run or an element (`Part.element`), signed [A] */
  readonly currentOf: (id: string) => number;
  /** fuses and other protection that carry it */
  readonly openings: readonly Opening[];
  /** fuses that end it together, see `fuse-cut.ts`; empty: not even all of them do */
  readonly cut: () => readonly Opening[];
  /** whether opening one element alone stops the current in another: they are in series in this fault */
  readonly stops: (opener: string, id: string) => boolean;
}

export interface FailedFault { readonly at: string; readonly other?: string; readonly end: ExtremeState; readonly why: string }

export interface Faults {
  readonly cases: readonly FaultCase[];
  readonly failed: readonly FailedFault[];
  /** parts with both poles that no mode connects to a pack: nothing is known of a short there */
  readonly notReached: readonly string[];
  /** the pairs of conductors that were looked at */
  readonly pairs: readonly ConductorPair[];
}

/** Conductors in the lowest fault [K]: warm from the load before, 90 °C; our choice. In the highest they are at 20 °C. */
const WARM_CONDUCTOR = 363.15;

const bothEnds: readonly ExtremeState[] = ['high', 'low'];
const highOnly: readonly ExtremeState[] = ['high'];

/** What the ideas of this subject share, worked out once for a draw. */
export interface Known {
  readonly packs: Packs; readonly protection: readonly Protection[]; readonly modes: readonly ModeAnswer[]; readonly faults: Faults;
  /** temperatures and capacities already worked out in this draw, see `heating-memo.ts` */
  readonly heating: HeatingMemo;
}

export function knownOf(car: Car, ask: Network): Known {
  const packs = packsOf(car);
  const modes = modeAnswers(car, ask);
  const protection = protectionOf(car);
  return { packs, protection, modes, faults: faultsOf(car, ask, packs, modes, protection), heating: new Map() };
}

export interface FaultSummary {
  readonly at: string; readonly other?: string; readonly where: FaultCase['where']; readonly end: ExtremeState; readonly mode: string | undefined;
  /** [A] */ readonly current: number; /** [V] */ readonly voltage: number; /** [ohm] */ readonly resistance: number;
  /** [H] */ readonly inductance: number; /** L/R [s] */ readonly timeConstant: number;
  /** fuses and other protection that carry it, by `Part.element` [A] */
  readonly protection: Readonly<Record<string, number>>;
}

/** Prospective fault currents, and whether something opens each of them. */
export function studyFaultCurrents(car: Car, ask: Network, known: Known = knownOf(car, ask)): { readonly results: readonly FaultSummary[]; readonly checks: readonly Check[] } {
  const { packs, faults } = known;
  const checks: Check[] = [];
  if (packs.packs.length === 0 && [...car.parts.values()].some(({ ports }) => ports.some(({ carries }) => carries === 'high_voltage'))) {
    checks.push({ code: 'high-voltage.pack-known', about: [], sense: 'is_true', needs: packs.missing.length > 0 ? packs.missing : ['parts'] });
  }
  for (const { at, other, end, why } of faults.failed) checks.push({ code: 'high-voltage.fault-computed', about: [at], variant: other === undefined ? end : `${end} ${other}`, value: 0, limit: 1, sense: 'is_true', details: { reason: why } });
  for (const part of faults.notReached) checks.push({ code: 'high-voltage.fault-current-known', about: [part], sense: 'at_most', needs: packs.missing.length > 0 ? packs.missing : ['modes'] });

  const results = faults.cases.map((fault): FaultSummary => ({
    at: fault.at, ...(fault.other === undefined ? {} : { other: fault.other }), where: fault.where, end: fault.end, mode: fault.mode, current: fault.current, voltage: fault.voltage, resistance: fault.resistance,
    inductance: fault.inductance, timeConstant: fault.inductance / fault.resistance,
    protection: Object.fromEntries(fault.openings.map(({ fuse, through }) => [fuse.id, through])),
  }));
  for (const fault of faults.cases) {
    if (fault.where !== 'pack' || fault.end !== 'high') continue;
    // a fuse in one of two parallel strings does not end it
    const fuses = fusesThatEnd(fault);
    const pack = packs.packs.find(({ positive }) => positive === fault.positive);
    const bare = pack && unfusedEnd(car, metalPaths(car, ask), pack);
    checks.push({
      code: 'high-voltage.pack-terminals-protected', about: [fault.at], value: fuses, limit: 1, sense: 'at_least', quantity: 'number',
      ...(bare?.length !== undefined && bare.length <= SHORT_LEAD ? { levelWhenBroken: 'watch' as const } : {}),
      details: {
        fault: { value: fault.current, quantity: 'current' }, positive_end: fault.positive, other_end: fault.negative,
        bare: bare === undefined || bare.runs.length === 0 ? 'the terminals alone' : bare.runs.length > MOST_NAMED ? `${bare.runs.length} runs` : bare.runs.join(', '),
        ...(bare?.length === undefined ? { length: 'an unknown length' } : { length: { value: bare.length, quantity: 'length' } as const }),
      },
    });
  }
  checks.push(...conductorChecks(car, faults));
  return { results, checks };
}

/** Fuses that carry a fault, none when it goes on with all of them open. */
const fusesThatEnd = (fault: FaultCase): number => (fault.cut().length > 0 ? fault.openings.filter(({ fuse }) => fuse.opensByHeat).length : 0);

/** One check a pair of conductors: something ends a short between them. */
function conductorChecks(car: Car, { cases, pairs }: Faults): readonly Check[] {
  return pairs.flatMap(({ at, other, cables }): Check[] => {
    const fault = cases.find((one) => one.where === 'conductors' && one.at === at && one.other === other);
    if (!fault) return [];
    const fuses = fusesThatEnd(fault);
    const bothLeave = cables.every((side) => side.length > 0);
    // whether a cable leaves its box is not known without its length
    const needs = fuses > 0 ? [] : cables.flatMap((side) => (side.length > 0 && side.every((name) => car.runs.get(name)?.length === undefined) ? [`runs.${side[0]!}.length`] : []));
    return [{
      code: 'high-voltage.conductors-protected', about: [at, other], value: fuses, limit: 1, sense: 'at_least', quantity: 'number', ...needsOf(needs),
      ...(bothLeave ? {} : { levelWhenBroken: 'watch' as const }),
      details: { fault: { value: fault.current, quantity: 'current' }, voltage: { value: fault.voltage, quantity: 'voltage' } },
    }];
  });
}

/** More runs than this are counted, not named. */
const MOST_NAMED = 6;

function faultsOf(car: Car, ask: Network, packs: Packs, modes: readonly ModeAnswer[], protection: readonly Protection[]): Faults {
  const sources = packs.packs.filter(({ maximumVoltage }) => maximumVoltage > 0);
  const cases: FaultCase[] = [];
  const failed: FailedFault[] = [];
  const notReached: string[] = [];
  if (sources.length === 0) return { cases, failed, notReached, pairs: [] };
  const runsAt = runsByNode(car);
  const lowestPack = sources[sources.length - 1]!.maximumVoltage;
  const cells = { high: moduleVoltages(car, 'high'), low: moduleVoltages(car, 'low') };
  const contacts = contactsOf(car);
  const solved: readonly LiveMode[] = modes.length > 0
    ? modes.flatMap(({ mode, solved: answer }) => (answer ? [liveMode(mode, answer, contacts)] : []))
    : [ask.solve({})].flatMap((answer) => (answer.outcome === 'solved' ? [liveMode(undefined, answer, contacts)] : []));

  const points = faultPoints(car, sources);
  // the lowest fault is at the far end of something; across the pack itself only the highest matters when there is such an end
  const hasEquipment = points.some(({ where }) => where === 'equipment');
  const add = (point: FaultPoint, mode: string | undefined, end: ExtremeState): void => {
    const state: State = {
      ...(mode === undefined ? {} : { mode }), withoutLoads: true, bridges: [{ a: point.positive, b: point.negative, resistance: BOLTED }],
      ...extremeStates[end], ...(end === 'low' ? { conductorTemperature: WARM_CONDUCTOR } : {}),
    };
    const answer = ask.solve(state);
    if (answer.outcome === 'solved') {
      const loop = faultLoop(car, point, answer, runsAt, cells[end]);
      if (!loop) return;
      const openings = openingsIn(loop, protection);
      cases.push({ ...point, end, mode, ...loop, openings, cut: once(() => fuseCut(openings, feedsWithout(car, ask, mode, point))), stops: stopsIn(car, ask, mode, point, loop) });
    } else failed.push({ at: point.at, ...(point.other === undefined ? {} : { other: point.other }), end, why: whyNot(answer) });
  };
  for (const point of points) {
    const live = solved.filter(({ answer }) => isLive(answer, point, lowestPack));
    const feeding = feedingModes(point, live);
    if (feeding.length === 0) {
      if (point.where === 'equipment') notReached.push(point.at);
      else failed.push({ at: point.at, end: 'high', why: 'no mode could be solved in which the pack shows a voltage' });
      continue;
    }
    const before = cases.length + failed.length;
    for (const mode of feeding) for (const end of point.where === 'pack' && hasEquipment ? highOnly : bothEnds) add(point, mode, end);
    if (cases.length + failed.length === before) notReached.push(point.at);
  }
  /** in the mode that joins most of the pack, the right way round */
  const addBetween = (point: Pick<FaultPoint, 'at' | 'where' | 'other'>, a: string, b: string, ends: readonly ExtremeState[]): void => {
    const between = (answer: RestSolved): number => (answer.islandOf(a) === answer.islandOf(b) ? answer.voltageOf(a) - answer.voltageOf(b) : 0);
    const live = solved.filter(({ answer }) => Math.abs(between(answer)) > LEAST_VOLTAGE);
    for (const mode of feedingModes(point, live)) {
      const [positive, negative] = between(live.find((one) => one.mode === mode)!.answer) > 0 ? [a, b] : [b, a];
      for (const end of ends) add({ ...point, positive, negative }, mode, end);
    }
  };
  const paths = metalPaths(car, ask);
  const pairs = conductorPairs(car, paths, sources, points);
  for (const { at, other, a, b } of pairs) addBetween({ at, where: 'conductors', other }, a, b, bothEnds);
  for (const { run, end, against } of deadEnds(car, paths, sources, cases)) addBetween({ at: run, where: 'lead' }, end, against, bothEnds);
  return { cases, failed, notReached, pairs };
}

/** Less stands between two points that leakage alone joins [V]; our choice, below the voltage of one cell. */
const LEAST_VOLTAGE = 1;

interface ModuleVoltage { readonly positive: string; /** [V] */ readonly voltage: number }

/** Electromotive force of each module at one end of what the pack can give. */
function moduleVoltages(car: Car, end: ExtremeState): readonly ModuleVoltage[] {
  const conditions = { ...car.conditions, ...extremeStates[end] };
  return [...car.parts.values()].flatMap(({ names, roles: { cells } }) => {
    const now = cells && car.cells.get(cells.cell)?.at(conditions);
    return cells && now ? [{ positive: names.of(cells.positive), voltage: cells.series * now.voltage }] : [];
  });
}

type RunsAt = ReadonlyMap<string, readonly { readonly run: string; readonly sign: 1 | -1 }[]>;

const runsByNode = byShape((car): RunsAt => {
  const at = new Map<string, { run: string; sign: 1 | -1 }[]>();
  const add = (node: string, run: string, sign: 1 | -1): void => { at.set(node, [...(at.get(node) ?? []), { run, sign }]); };
  for (const run of highVoltageRuns(car)) {
    add(run.from, run.name, 1);
    add(run.to, run.name, -1);
  }
  return at;
});

/** Whether the pack still feeds a fault with some elements open. */
function feedsWithout(car: Car, ask: Network, mode: string | undefined, { positive, negative }: FaultPoint): (open: readonly string[]) => boolean {
  const paths = metalPaths(car, ask);
  const here = paths.pictureOf(mode);
  return (open) => here === undefined || paths.liveWithout(here, open).same(positive, negative);
}

function stopsIn(car: Car, ask: Network, mode: string | undefined, { positive, negative }: FaultPoint, { current, currentOf }: FaultLoop): FaultCase['stops'] {
  const paths = metalPaths(car, ask);
  const here = paths.pictureOf(mode);
  const carriesWithout = once(() => (here === undefined ? undefined : paths.carriesWithout(here, [positive, negative])));
  // what carries all of the fault stops all of it; only beside parallel ways must it be looked up
  return (opener, id) => Math.abs(currentOf(opener)) >= (1 - CARRIES_SHARE) * current || carriesWithout()?.(opener, id) === false;
}

function once<T>(compute: () => T): () => T {
  let value: { readonly is: T } | undefined;
  return () => (value ??= { is: compute() }).is;
}

type FaultLoop = Pick<FaultCase, 'current' | 'voltage' | 'resistance' | 'inductance' | 'currentOf' | 'lengthMissing'>;

/** @returns undefined when next to nothing flows: the mode's contacts do not carry the fault after all */
function faultLoop(car: Car, point: FaultPoint, answer: RestSolved, runsAt: RunsAt, modules: readonly ModuleVoltage[]): FaultLoop | undefined {
  const current = Math.abs(answer.currentOf('bridge 1'));
  if (!(current > 1)) return undefined;
  // what the cells give, shared out over the current of the short: their electromotive force in the loop
  let power = 0;
  for (const { positive, voltage } of modules) power += voltage * currentOutOf(positive, answer, runsAt, point, current);
  const voltage = power / current;
  if (!(voltage > 0)) return undefined;
  let inductance = 0;
  const lengthMissing: string[] = [];
  for (const run of highVoltageRuns(car)) {
    const share = Math.abs(answer.currentOf(run.name)) / current;
    if (share < CARRIES_SHARE) continue;
    if (run.length === undefined) lengthMissing.push(run.name);
    else inductance += runInductance(run.length) * share * share;
  }
  return { current, voltage, resistance: voltage / current, inductance, currentOf: answer.currentOf, lengthMissing };
}

/** Current out of a module's positive terminal: into the runs there, and into the short when it lies on that terminal. */
function currentOutOf(node: string, answer: RestSolved, runsAt: RunsAt, point: FaultPoint, current: number): number {
  let out = node === point.positive ? current : node === point.negative ? -current : 0;
  for (const { run, sign } of runsAt.get(node) ?? []) out += sign * answer.currentOf(run);
  return out;
}
