/**
 * Every low-voltage run against its current, and against the fuse that has to save it.
 */
import type { Car, CarRun } from '../../car/car.ts';
import type { HeatingMemo } from '../../car/heating-memo.ts';
import { remembered } from '../../car/remembered.ts';
import type { Check, Details } from '../../findings/finding.ts';
import type { Conductor } from '../../part/run-kind.ts';
import { ADIABATIC_TIME_LIMIT, allowedHeating } from '../../physics/adiabatic.ts';
import { REFERENCE_NODE } from '../../solve/element.ts';
import { ampacity } from './ampacity.ts';
import type { Ampacity } from './ampacity.ts';
import { letsThrough, opensAbove } from './blade-gates.ts';
import { known, overModes } from './check-over-modes.ts';
import { currentThrough } from './current-through.ts';
import { exposures } from './exposure.ts';
import type { Exposure } from './exposure.ts';
import type { Metal, MetalEdge, SourceWays } from './metal.ts';
import type { ModePoints } from './mode-points.ts';
import type { ShortSource } from './short-of-source.ts';

/**
 * Unfused wire from a battery [m]: up to 7 inches without further conditions; up to 72 inches when it is connected straight to
 * the post and runs in a sheath or conduit. [abyc-e-11] clause on overcurrent protection, from memory.
 */
export const UNFUSED = 0.178;
export const UNFUSED_IN_SHEATH = 1.829;

export interface WireResult {
  readonly run: string;
  /** largest steady current [A] and its mode */
  readonly steady: number | undefined; readonly steadyMode: string | undefined;
  /** [A]; undefined when the conductor is not described */
  readonly ampacity: number | undefined;
  /** parts whose fuse protects it, or the DC-DC that limits itself; empty: nothing does, or it is not fed */
  readonly protectedBy: readonly string[];
  /** fed from a battery or a DC-DC */
  readonly isFed: boolean;
  /** least current of a dead short at its far end [A], where a battery drives it */
  readonly farFault: number | undefined;
}

interface Known { readonly car: Car; readonly modes: ModePoints; readonly metal: Metal; readonly shorts: ReadonlyMap<string, ShortSource> }

export function studyWires(given: Known): { results: readonly WireResult[]; checks: readonly Check[] } {
  const { car, modes, metal } = given;
  const exposureOf = exposures(metal);
  const memo: HeatingMemo = new Map();
  const results: WireResult[] = [];
  const checks: Check[] = [];
  for (const run of car.runs.values()) {
    if (run.carries === 'high_voltage') continue;
    const can = ampacity(car, run, memo);
    const steady = steadyCurrent(modes, run.name);
    const about = [run.name];
    checks.push(overModes({
      code: 'low-voltage.run-current', about, sense: 'at_most', quantity: 'current',
      value: steady?.current, limit: can.outcome === 'current' ? can.current : undefined,
      needs: can.outcome === 'current' && steady ? undefined : [...(can.outcome === 'needs' ? can.needs : []), ...(steady ? [] : ['modes'])],
      details: car.isForMargins ? undefined : { mode: steady?.mode ?? '-', ...ambientOf(can) },
    }, modes));
    const edge = metal.feedEdgeOf(run.name);
    const protection = edge ? protect(given, run, edge, exposureOf(edge), can) : { checks: [], protectedBy: [], farFault: undefined };
    checks.push(...protection.checks);
    results.push({
      run: run.name, steady: steady?.current, steadyMode: steady?.mode, ampacity: can.outcome === 'current' ? can.current : undefined,
      protectedBy: protection.protectedBy, isFed: edge !== undefined, farFault: protection.farFault,
    });
  }
  return { results, checks };
}

const ambientOf = (can: Ampacity): Details => (can.outcome === 'current' ? { ambient: { value: can.ambient, quantity: 'temperature' } } : {});

function steadyCurrent({ points }: ModePoints, run: string): { current: number; mode: string } | undefined {
  let mode: string | undefined;
  let most = 0;
  for (const point of points) {
    if (point.lasts !== undefined) continue;
    const current = currentThrough(point.solved, run);
    if (mode === undefined || current > most) { most = current; mode = point.mode; }
  }
  return mode === undefined ? undefined : { current: most, mode };
}

interface Protection { readonly checks: readonly Check[]; readonly protectedBy: readonly string[]; readonly farFault: number | undefined }

function protect(given: Known, run: CarRun, edge: MetalEdge, exposed: readonly Exposure[], can: Ampacity): Protection {
  let worst: Exposure | undefined;
  for (const exposure of exposed) if (!worst || exposure.current > worst.current) worst = exposure;
  if (!worst) return { checks: [], protectedBy: [], farFault: undefined };
  if (worst.current === Infinity) return { checks: [unfusedCheck(given, run, edge, exposed)], protectedBy: [], farFault: undefined };
  const isLimited = worst.source.currentLimit !== undefined && worst.current >= worst.source.currentLimit;
  const protectedBy = isLimited || worst.fuses.length === 0 ? [worst.source.part] : worst.fuses.map(({ part }) => part);
  const checks: Check[] = [{
    code: 'low-voltage.run-overload', about: [run.name], sense: 'at_most', quantity: 'current',
    value: worst.current, limit: can.outcome === 'current' ? can.current : undefined, needs: can.outcome === 'needs' && can.needs.length > 0 ? can.needs : undefined,
    details: given.car.isForMargins ? undefined : { fuse: protectedBy.join(' and '), ...ambientOf(can) },
  }];
  let farFault: number | undefined;
  for (const exposure of exposed) {
    // what a battery drives has to open the fuse; a DC-DC holds its own current
    if (exposure.source.currentLimit !== undefined) continue;
    const fault = faultAtFarEnd(given, edge, exposure);
    farFault = farFault === undefined ? fault.current : Math.min(farFault, fault.current ?? farFault);
    addFaultChecks(given, run, exposure, fault, checks);
  }
  return { checks, protectedBy, farFault };
}

/** Length of wire from the battery's post to the far end of this run, fuses passed by. */
function unfusedCheck({ metal }: Known, run: CarRun, edge: MetalEdge, exposed: readonly Exposure[]): Check {
  const from = exposed.find(({ current }) => current === Infinity)!.source;
  const feed = metal.sources.find(({ source }) => source === from)!.feed;
  const way = [...feed.edges(nearEnd(feed, edge)), edge];
  const runs = way.flatMap((passed) => (passed.run ? [passed.run] : []));
  const missing = runs.filter((passed) => passed.length === undefined).map(({ name }) => `runs.${name}.length`);
  const length = runs.reduce((sum, passed) => sum + (passed.length ?? 0), 0);
  return {
    code: 'low-voltage.run-protected', about: [run.name], sense: 'at_most', quantity: 'length', ...known(length, UNFUSED, missing),
    details: { source: from.part, in_sheath: { value: UNFUSED_IN_SHEATH, quantity: 'length' } }, levelWhenBroken: length > UNFUSED_IN_SHEATH ? 'stop' : 'watch',
  };
}

/** The end of an edge that is nearer to the source. */
function nearEnd(feed: SourceWays['feed'], edge: MetalEdge): string {
  return (feed.resistance(edge.a) ?? Infinity) <= (feed.resistance(edge.b) ?? Infinity) ? edge.a : edge.b;
}

interface FarFault { /** [A]; undefined: `needs` says why */ readonly current: number | undefined; readonly needs: readonly string[] }

/** Hot copper, the battery alone, back through the chassis: the least current that a dead short can have. */
function faultAtFarEnd({ metal, shorts }: Known, edge: MetalEdge, { source }: Exposure): FarFault {
  const { feed, back } = metal.sources.find((ways) => ways.source === source)!;
  const inside = shorts.get(source.positive);
  if (!inside) return { current: undefined, needs: [`parts.${source.part}.internal_resistance`] };
  const home = back.hotResistance(REFERENCE_NODE);
  // a battery that is not joined to the chassis drives nothing into it; its own check says so
  if (home === undefined) return { current: undefined, needs: [`runs from ${source.negative} to the chassis`] };
  const lacking = [feed.needs(nearEnd(feed, edge)), edge.needs, back.needs(REFERENCE_NODE)];
  const needs = lacking.every(({ length }) => length === 0) ? nothing : [...new Set(lacking.flat())];
  const out = Math.min(feed.hotResistance(edge.a) ?? Infinity, feed.hotResistance(edge.b) ?? Infinity) + edge.hotResistance;
  return { current: inside.voltage / (inside.resistance + out + home), needs };
}

const nothing: readonly string[] = [];

function addFaultChecks({ car, metal }: Known, run: CarRun, { fuses, source }: Exposure, fault: FarFault, checks: Check[]): void {
  const [fuse] = fuses;
  if (!fuse) return;
  // with one battery there is nothing to tell apart
  const variant = metal.sources.filter((ways) => ways.source.currentLimit === undefined).length > 1 ? source.part : undefined;
  const about = [run.name];
  const form = fuse.role.form;
  if (!form) {
    checks.push({ code: 'low-voltage.fault-opens-fuse', about, variant, sense: 'at_least', quantity: 'current', needs: [`parts.${fuse.part}.style`] });
    return;
  }
  let rating = 0;
  for (const { role } of fuses) rating += role.rating;
  const { conductor } = run;
  const needs = fault.needs.length > 0 ? fault.needs : undefined;
  const allowed = conductor && withstandOf(conductor);
  const names = car.isForMargins ? '' : fuses.map(({ part }) => part).join(' and ');
  checks.push({
    code: 'low-voltage.fault-opens-fuse', about, variant, sense: 'at_least', quantity: 'current', value: fault.current, limit: opensAbove(form, rating, ADIABATIC_TIME_LIMIT), needs,
    details: car.isForMargins ? undefined : { fuse: names, within: { value: ADIABATIC_TIME_LIMIT, quantity: 'time' } },
  }, {
    code: 'low-voltage.run-survives-fault', about, variant, sense: 'at_most', quantity: 'heating_integral',
    value: fault.current === undefined ? undefined : letsThrough(form, rating, fault.current), limit: allowed, needs,
    details: car.isForMargins ? undefined : { fuse: names, fault: { value: fault.current ?? 0, quantity: 'current' } },
  });
}

/** I²t from its rating to its short-circuit temperature [A2.s]; one answer for all runs of a stock. */
const withstandOf = remembered(({ area, material, temperatureRating, shortCircuitTemperature }: Conductor) => allowedHeating(area, material, inRange(temperatureRating), inRange(shortCircuitTemperature)));

/** Temperatures that the adiabatic formula answers for [K]. */
const inRange = (temperature: number): number => Math.max(200, Math.min(1000, temperature));
