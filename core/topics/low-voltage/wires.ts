/**
 * Every low-voltage run against its current, and against the fuse that has to save it.
 */
import type { Car, CarRun } from '../../car/car.ts';
import type { HeatingMemo } from '../../car/heating-memo.ts';
import type { Check } from '../../findings/finding.ts';
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
  const feedEdges = new Map(metal.feedEdges.map((edge) => [edge.id, edge]));
  const results: WireResult[] = [];
  const checks: Check[] = [];
  for (const run of car.runs.values()) {
    if (run.carries === 'high_voltage') continue;
    const can = ampacity(car, run, memo);
    const steady = steadyCurrent(modes, run.name);
    checks.push(overModes({
      code: 'low-voltage.run-current', about: [run.name], sense: 'at_most', quantity: 'current',
      ...known(steady?.current, can.outcome === 'current' ? can.current : undefined, [...(can.outcome === 'needs' ? can.needs : []), ...(steady ? [] : ['modes'])]),
      details: { mode: steady?.mode ?? '-', ...(can.outcome === 'current' ? { ambient: { value: can.ambient, quantity: 'temperature' } } : {}) },
    }, modes));
    const edge = feedEdges.get(run.name);
    const protection = edge ? protect(given, run, edge, exposureOf(edge), can) : { checks: [], protectedBy: [], farFault: undefined };
    checks.push(...protection.checks);
    results.push({
      run: run.name, steady: steady?.current, steadyMode: steady?.mode, ampacity: can.outcome === 'current' ? can.current : undefined,
      protectedBy: protection.protectedBy, isFed: edge !== undefined, farFault: protection.farFault,
    });
  }
  return { results, checks };
}

function steadyCurrent({ points }: ModePoints, run: string): { current: number; mode: string } | undefined {
  let found: { current: number; mode: string } | undefined;
  for (const { mode, lasts, solved } of points) {
    if (lasts !== undefined) continue;
    const current = currentThrough(solved, run);
    if (!found || current > found.current) found = { current, mode };
  }
  return found;
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
    ...known(worst.current, can.outcome === 'current' ? can.current : undefined, can.outcome === 'needs' ? can.needs : []),
    details: { fuse: protectedBy.join(' and '), ...(can.outcome === 'current' ? { ambient: { value: can.ambient, quantity: 'temperature' } } : {}) },
  }];
  let farFault: number | undefined;
  for (const exposure of exposed) {
    // what a battery drives has to open the fuse; a DC-DC holds its own current
    if (exposure.source.currentLimit !== undefined) continue;
    const fault = faultAtFarEnd(given, edge, exposure);
    farFault = farFault === undefined ? fault.current : Math.min(farFault, fault.current ?? farFault);
    checks.push(...faultChecks(run, exposure, fault, given.metal.sources.filter(({ source }) => source.currentLimit === undefined).length > 1));
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
  const needs = [...new Set([...feed.needs(nearEnd(feed, edge)), ...edge.needs, ...back.needs(REFERENCE_NODE)])];
  const out = Math.min(feed.hotResistance(edge.a) ?? Infinity, feed.hotResistance(edge.b) ?? Infinity) + edge.hotResistance;
  return { current: inside.voltage / (inside.resistance + out + home), needs };
}

function faultChecks(run: CarRun, { fuses, source }: Exposure, fault: FarFault, nameSource: boolean): readonly Check[] {
  const [fuse] = fuses;
  if (!fuse) return [];
  const variant = nameSource ? { variant: source.part } : {};
  const common = { about: [run.name], ...variant };
  const names = fuses.map(({ part }) => part).join(' and ');
  const rating = fuses.reduce((sum, { role }) => sum + role.rating, 0);
  const opens = { code: 'low-voltage.fault-opens-fuse', ...common, sense: 'at_least', quantity: 'current' } satisfies Check;
  const heats = { code: 'low-voltage.run-survives-fault', ...common, sense: 'at_most', quantity: 'heating_integral' } satisfies Check;
  const form = fuse.role.form;
  if (!form) return [{ ...opens, needs: [`parts.${fuse.part}.style`] }];
  const { conductor } = run;
  const { needs } = fault;
  const within = { value: ADIABATIC_TIME_LIMIT, quantity: 'time' } as const;
  const least = opensAbove(form, rating, ADIABATIC_TIME_LIMIT);
  const allowed = conductor && allowedHeating(conductor.area, conductor.material, inRange(conductor.temperatureRating), inRange(conductor.shortCircuitTemperature));
  return [
    { ...opens, ...known(fault.current, least, needs), details: { fuse: names, within } },
    { ...heats, ...known(fault.current === undefined ? undefined : letsThrough(form, rating, fault.current), allowed, needs), details: { fuse: names, fault: { value: fault.current ?? 0, quantity: 'current' } } },
  ];
}

/** Temperatures that the adiabatic formula answers for [K]. */
const inRange = (temperature: number): number => Math.max(200, Math.min(1000, temperature));
