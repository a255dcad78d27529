/**
 * Does something open before a high-voltage run is damaged: a fuse in series in every fault (or several that end it together), its
 * let-through against the conductor's short-circuit withstand, its rating against what the run may carry for good.
 */
import type { Network } from '../../car/ask.ts';
import type { Car, CarRun } from '../../car/car.ts';
import { highVoltageRuns } from '../../car/high-voltage-runs.ts';
import type { Check } from '../../findings/finding.ts';
import { allowedHeating } from '../../physics/adiabatic.ts';
import { overloadRule } from '../../physics/cable-overload.ts';
import { knownOf, type FaultCase, type Known } from './fault-currents.ts';
import { CARRIES_SHARE, fusesInSeries, letThroughTo, namesOf } from './fuse-in-fault.ts';
import { runCapacity, steadyRunTemperature } from '../../car/heating-memo.ts';
import { continuousCurrent } from './mode-currents.ts';
import { runHeating } from '../../car/run-heating.ts';

export interface RunShort {
  readonly run: string;
  /** highest prospective fault current through it [A] */ readonly faultCurrent: number;
  /** I²t it takes from its working temperature to its short-circuit temperature [A2.s] */ readonly withstand: number | undefined;
  /** most that a fault puts through it before a fuse has opened [A2.s] */ readonly letThrough: number | undefined;
  /** fuse that ends the worst fault; undefined when none does or it is not known */ readonly fuse: string | undefined;
}

/** Opening ratio I2/In of the overload rule: gG 1.6 (IEC 60269-1), blade 1.35 (ISO 8820-3). */
const openingRatios = { full_range: 1.6, blade: 1.35 } as const;
/** The adiabatic law answers up to 1000 K; a bare bar's limit stays below. */
const HOTTEST_END = 1000;

/** Faults in what the run feeds; those across the pack and between conductors have a finding of their own. */
const isBeyond = ({ where }: FaultCase): boolean => where === 'equipment' || where === 'lead';

export function studyRunProtection(car: Car, ask: Network, known: Known = knownOf(car, ask)): { readonly results: readonly RunShort[]; readonly checks: readonly Check[] } {
  const results: RunShort[] = [];
  const checks: Check[] = [];
  for (const run of highVoltageRuns(car)) {
    const cases = known.faults.cases.filter((fault) => Math.abs(fault.currentOf(run.name)) >= CARRIES_SHARE * fault.current);
    if (cases.length === 0) continue;
    results.push(shortCircuit(car, run, cases, known, checks));
    checks.push(...overload(car, run, cases, known));
  }
  return { results, checks };
}

function shortCircuit(car: Car, run: CarRun, cases: readonly FaultCase[], known: Known, checks: Check[]): RunShort {
  const about = [run.name];
  let faultCurrent = 0;
  let worst: { energy: number; fuse: string | undefined; isCleared: boolean; at: string; through: number } | undefined;
  let open: { at: string; through: number; hasPyrotechnic: boolean } | undefined;
  let fewest = Infinity;
  const needs = new Set<string>();
  for (const fault of cases) {
    const through = Math.abs(fault.currentOf(run.name));
    faultCurrent = Math.max(faultCurrent, through);
    const result = letThroughTo(fault, run.name);
    // several that end it together count as one
    if (isBeyond(fault)) fewest = Math.min(fewest, result.outcome === 'unprotected' ? 0 : Math.max(1, fusesInSeries(fault, run.name).length));
    if (result.outcome === 'needs') result.needs.forEach((path) => needs.add(path));
    if (result.outcome === 'unprotected' && isBeyond(fault) && (!open || through > open.through)) open = { at: fault.at, through, hasPyrotechnic: result.hasPyrotechnic };
    // the same fuses let the same through in several faults: the first, with the full pack, is named
    if (result.outcome === 'energy' && (!worst || result.energy > worst.energy * (1 + 1e-9))) worst = { energy: result.energy, fuse: result.fuse, isCleared: result.isCleared, at: fault.at, through };
  }
  if (Number.isFinite(fewest)) {
    checks.push({
      code: 'high-voltage.run-has-protection', about, value: fewest, limit: 1, sense: 'at_least', quantity: 'number',
      details: { fault: { value: open?.through ?? faultCurrent, quantity: 'current' }, at: open?.at ?? cases[0]!.at },
      ...(open?.hasPyrotechnic === true ? { levelWhenBroken: 'fix' as const } : {}),
    });
  }
  const withstand = withstandOf(car, run, known);
  // a run that nothing protects in any fault has its finding above; its withstand decides nothing
  if (worst || needs.size > 0) {
    const missing = [...needs, ...(withstand === undefined ? run.missing : [])];
    checks.push({
      code: 'high-voltage.run-short-circuit', about, sense: 'at_most', quantity: 'heating_integral',
      ...(worst ? { value: worst.energy } : {}), ...(withstand === undefined ? {} : { limit: withstand }), ...(missing.length > 0 ? { needs: missing } : {}),
      details: { fuse: worst?.fuse ?? 'no fuse', at: worst?.at ?? cases[0]!.at, fault: { value: worst?.through ?? faultCurrent, quantity: 'current' }, ending: worst?.isCleared === false ? 'counted for as long as it may take, 0.1 or 5 s, because it melts too slowly for its sheet to say' : 'let through until the current is zero' },
    });
  }
  return { run: run.name, faultCurrent, withstand, letThrough: needs.size > 0 ? undefined : worst?.energy, fuse: worst?.fuse };
}

/** From the working temperature; from the rating when that is not known, or is itself beyond what a short may leave (the run is overloaded: another finding). */
function withstandOf(car: Car, run: CarRun, known: Known): number | undefined {
  const { conductor } = run;
  if (!conductor || !(conductor.area > 0)) return undefined;
  const heating = runHeating(car, run);
  const current = continuousCurrent(known.modes, run.name)?.current;
  const end = Math.min(conductor.shortCircuitTemperature, HOTTEST_END);
  const working = heating.outcome === 'known' && current !== undefined ? steadyRunTemperature(run, heating.heating, current, known.heating) : undefined;
  return allowedHeating(conductor.area, conductor.material, working !== undefined && working < end ? working : Math.min(conductor.temperatureRating, end), end);
}

/** More fuses than this are counted, not named. */
const MOST_NAMED = 3;

interface OverloadFuse { /** as far as it counts for the run [A] */ readonly rating: number; readonly ratio: number; readonly fuse: string }

/** What ends a current on its way to one place: each fuse in series, for the share of its current that passes here; of fuses that end a fault only together, the sum of their ratings. */
function overloadFuses(run: CarRun, fault: FaultCase): readonly OverloadFuse[] {
  const through = Math.abs(fault.currentOf(run.name));
  const inSeries = fusesInSeries(fault, run.name);
  return (inSeries.length > 0 ? inSeries.map((one) => [one]) : [fault.cut()]).flatMap((way) => {
    const ratios = way.map(({ fuse: { role: { style } } }) => (style === 'full_range' || style === 'blade' ? openingRatios[style] : undefined));
    if (way.length === 0 || ratios.includes(undefined)) return [];
    const rating = way.reduce((sum, { fuse }) => sum + fuse.role.rating, 0) * (through / way.reduce((sum, one) => sum + one.through, 0));
    return rating > 0 ? [{ rating, ratio: Math.max(...ratios.map((ratio) => ratio ?? 0)), fuse: namesOf(way) }] : [];
  });
}

function smallest(list: readonly OverloadFuse[]): OverloadFuse | undefined {
  return list.reduce<OverloadFuse | undefined>((least, one) => (!least || one.rating < least.rating * (1 - 1e-9) ? one : least), undefined);
}

/**
 * An overload may go to every place beyond the run at once: the fuses of the branches let their sum through, and one that all of it
 * passes no more than its own rating. Where only partial-range fuses lie on the way, the fuse says so itself.
 */
function overload(car: Car, run: CarRun, cases: readonly FaultCase[], known: Known): readonly Check[] {
  if (!run.conductor) return [];
  const branches = new Map<string, OverloadFuse>();
  let inAll: Map<string, OverloadFuse> | undefined;
  for (const fault of cases) {
    // what hangs on a dead end carries no load, so no overload either
    if (fault.where !== 'equipment' || fault.end !== 'high') continue;
    const ways = overloadFuses(run, fault);
    const fuse = smallest(ways);
    if (!fuse) return [];
    const before = branches.get(fuse.fuse);
    if (!before || fuse.rating > before.rating) branches.set(fuse.fuse, fuse);
    const here = new Map(ways.map((way) => [way.fuse, way]));
    inAll = inAll === undefined ? here : new Map([...inAll].flatMap(([name, one]) => { const other = here.get(name); return other ? [[name, other.rating > one.rating ? other : one] as const] : []; }));
  }
  if (branches.size === 0) return [];
  const list = [...branches.values()];
  const sum: OverloadFuse = { rating: list.reduce((total, { rating }) => total + rating, 0), ratio: Math.max(...list.map(({ ratio }) => ratio)), fuse: list.length > MOST_NAMED ? `the fuses of ${list.length} branches together` : list.map(({ fuse }) => fuse).join(' and ') };
  const most = smallest([...(inAll ?? new Map<string, OverloadFuse>()).values(), sum])!;
  const heating = runHeating(car, run);
  if (heating.outcome === 'needs') return [{ code: 'high-voltage.run-overload', about: [run.name], sense: 'at_most', quantity: 'current', needs: heating.needs, details: { fuse: most.fuse } }];
  const capacity = runCapacity(run, heating.heating, known.heating);
  const load = continuousCurrent(known.modes, run.name)?.current ?? 0;
  const limit = capacity > 0 ? overloadRule(load, most.rating, capacity, most.ratio).highestRating : 0;
  return [{
    code: 'high-voltage.run-overload', about: [run.name], value: most.rating, limit, sense: 'at_most', quantity: 'current',
    details: { fuse: most.fuse, capacity: { value: capacity, quantity: 'current' } },
  }];
}
