/**
 * Fuses of the high-voltage side: against continuous and repeated load, against the highest and the lowest fault at their
 * place, against the voltage and the L/R of the loop.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import { fuseAllowance } from './fuse-allowance.ts';
import { faultsThrough, type FuseFaults } from './fuse-faults.ts';
import { knownOf, type Known } from './fault-currents.ts';
import type { Protection } from './fuse-in-fault.ts';
import { fastOpening, pulseLimit } from './fuse-pulses.ts';
import { continuousCurrent, shortCurrents } from './mode-currents.ts';

/** A partial-range fuse that takes longer to melt arcs slowly [s]; common practice, no source. Beyond 10 ms its I²t gives the least that it takes. */
const MELTS_SOON = 0.1;
/** A fuse of which another is a branch has at least this many times its rating [1] (gG discrimination, maker guidance). */
const SELECTIVE_RATIO = 1.6;

export interface FuseResult {
  readonly part: string; readonly style: Protection['role']['style'];
  /** [A] */ readonly rating: number;
  /** air around it [K] */ readonly ambient: number;
  /** what it may carry for good there [A] */ readonly allowed: number;
  /** largest current that may last [A] */ readonly continuousCurrent: number | undefined;
  readonly mode: string | undefined;
  /** highest and lowest prospective fault current at its place [A] */ readonly highestFault: number | undefined; readonly lowestFault: number | undefined;
  /** longest L/R of the loops it has to open [s] */ readonly timeConstant: number | undefined;
  /** in the lowest fault [s]: until it melts; undefined when not known or above 10 ms */ readonly meltingTime: number | undefined;
  /** in the lowest fault [s]: until the current is zero */ readonly clearingTime: number | undefined;
}

export function studyFuses(car: Car, ask: Network, known: Known = knownOf(car, ask)): { readonly results: readonly FuseResult[]; readonly checks: readonly Check[] } {
  const results: FuseResult[] = [];
  const checks: Check[] = [];
  for (const fuse of known.protection) {
    const faults = faultsThrough(fuse, known.faults);
    const allowed = fuseAllowance(fuse);
    checks.push(...loadChecks(fuse, allowed, known), ...faultChecks(fuse, faults, known));
    const steady = continuousCurrent(known.modes, fuse.id);
    results.push({
      part: fuse.part, style: fuse.role.style, rating: fuse.role.rating, ambient: fuse.ambient, allowed: allowed.current,
      continuousCurrent: steady?.current, mode: steady?.mode, highestFault: faults?.highest, lowestFault: faults?.lowest,
      timeConstant: faults?.timeConstant, meltingTime: faults?.melting?.outcome === 'melts' ? faults.melting.time : undefined, clearingTime: faults?.clearingTime,
    });
  }
  checks.push(...selectivity(known));
  return { results, checks };
}

/** A branch fuse must have opened a fault before the fuse it hangs on is damaged. */
function selectivity({ protection, faults }: Known): readonly Check[] {
  const checks: Check[] = [];
  for (const main of protection) {
    for (const branch of protection) {
      if (!main.opensByHeat || !branch.opensByHeat || branch.role.rating * SELECTIVE_RATIO > main.role.rating) continue;
      const shared = faults.cases.some(({ openings }) => {
        const [mainHere, branchHere] = [main, branch].map((fuse) => openings.find((opening) => opening.fuse.id === fuse.id)?.through);
        return mainHere !== undefined && branchHere !== undefined && branchHere >= 0.99 * mainHere;
      });
      if (!shared) continue;
      const needs = [...(branch.role.clearingEnergy === undefined ? [`parts.${branch.part}.clearing_energy`] : []), ...(main.role.meltingEnergy === undefined ? [`parts.${main.part}.melting_energy`] : [])];
      checks.push(against('high-voltage.fuse-is-selective', [branch.part, main.part], branch.role.clearingEnergy, main.role.meltingEnergy, 'at_most', 'heating_integral', needs));
    }
  }
  return checks;
}

function loadChecks(fuse: Protection, allowed: ReturnType<typeof fuseAllowance>, { modes }: Known): readonly Check[] {
  const about = [fuse.part];
  const steady = continuousCurrent(modes, fuse.id);
  const common = { rating: { value: fuse.role.rating, quantity: 'current' }, ambient: { value: fuse.ambient, quantity: 'temperature' }, factor: { value: allowed.current / fuse.role.rating, quantity: 'ratio' } } as const;
  if (!steady) return [{ code: 'high-voltage.fuse-continuous-current', about, sense: 'at_most', quantity: 'current', needs: ['modes'], details: common }];
  const checks: Check[] = [{
    code: 'high-voltage.fuse-continuous-current', about, value: steady.current, limit: allowed.current, sense: 'at_most', quantity: 'current', details: { ...common, mode: steady.mode },
  }];
  for (const short of shortCurrents(modes, fuse.id)) {
    if (short.rms !== undefined) {
      checks.push({
        code: 'high-voltage.fuse-duty-current', about, variant: short.mode, value: short.rms, limit: allowed.varying, sense: 'at_most', quantity: 'current',
        details: { ...common, factor: { value: allowed.varying / fuse.role.rating, quantity: 'ratio' }, pulse: { value: short.current, quantity: 'current' }, lasts: { value: short.lasts, quantity: 'time' } },
      });
    }
    checks.push(...pulseChecks(fuse, short));
  }
  return checks;
}

function pulseChecks(fuse: Protection, short: { readonly mode: string; readonly current: number; readonly lasts: number }): readonly Check[] {
  if (!fuse.opensByHeat) return [];
  const about = [fuse.part];
  const details = { pulse: { value: short.current, quantity: 'current' }, lasts: { value: short.lasts, quantity: 'time' } } as const;
  const limit = pulseLimit(fuse, short.lasts);
  switch (limit.outcome) {
    case 'energy': return [{ code: 'high-voltage.fuse-pulse-energy', about, variant: short.mode, value: short.current ** 2 * short.lasts, limit: limit.energy, sense: 'at_most', quantity: 'heating_integral', details }];
    case 'current': return [{ code: 'high-voltage.fuse-pulse-current', about, variant: short.mode, value: short.current, limit: limit.current, sense: 'at_most', quantity: 'current', details }];
    case 'needs': return [{ code: 'high-voltage.fuse-pulse-energy', about, variant: short.mode, sense: 'at_most', quantity: 'heating_integral', needs: limit.needs, details }];
    case 'no_table': return [];
  }
}

function faultChecks(fuse: Protection, faults: FuseFaults | undefined, { packs, faults: all }: Known): readonly Check[] {
  const { role, part } = fuse;
  const about = [part];
  const at = (field: string): string => `parts.${part}.${field}`;
  const checks: Check[] = [];
  const pack = packs.packs[0];
  if (pack) checks.push(against('high-voltage.fuse-voltage-rating', about, role.voltageRating, pack.maximumVoltage, 'at_least', 'voltage', [...packs.missing, ...(role.voltageRating === undefined ? [at('voltage_rating')] : [])]));
  if (all.cases.length > 0) checks.push({ code: 'high-voltage.fuse-protects-something', about, value: faults?.highest ?? 0, limit: 1, sense: 'at_least', quantity: 'current' });
  if (!faults) return checks;
  // a fault that a smaller fuse may end first is no reproach to this one
  const unlessCovered = (check: Check): Check => (check.needs === undefined && faults.coverNeeds.length > 0 && check.value !== undefined && check.limit !== undefined
    && (check.sense === 'at_least' ? check.value < check.limit : check.value > check.limit) ? { ...check, needs: faults.coverNeeds } : check);
  const faultDetails = { lowest: { value: faults.lowest, quantity: 'current' }, at: faults.lowestAt } as const;
  checks.push(against('high-voltage.fuse-breaking-capacity', about, role.breakingCapacity, faults.highest, 'at_least', 'current', role.breakingCapacity === undefined ? [at('breaking_capacity')] : []));
  const loopNeeds = [...(role.timeConstantRating === undefined ? [at('time_constant_rating')] : []), ...faults.lengthMissing.map((run) => `runs.${run}.length`)];
  checks.push(against('high-voltage.fuse-time-constant', about, faults.timeConstant, role.timeConstantRating, 'at_most', 'time', loopNeeds, { at: faults.slowestAt }));
  if (role.style !== 'pyrotechnic') checks.push({ code: 'high-voltage.fuse-clears-overload', about, value: role.style === 'partial_range' ? 0 : 1, limit: 1, sense: 'is_true', details: { rating: { value: role.rating, quantity: 'current' } } });
  if (role.style === 'partial_range') {
    checks.push(unlessCovered(against('high-voltage.fuse-minimum-breaking', about, faults.lowest, role.minimumBreaking, 'at_least', 'current', role.minimumBreaking === undefined ? [at('minimum_breaking')] : [], faultDetails)));
    const time = faults.melting?.outcome === 'melts' ? faults.melting.time : faults.melting?.atLeast;
    checks.push(unlessCovered(against('high-voltage.fuse-melts', about, time, MELTS_SOON, 'at_most', 'time', time === undefined ? [at('melting_energy')] : [], faultDetails)));
  }
  if (role.style === 'full_range' || role.style === 'blade') {
    const fast = fastOpening(fuse);
    checks.push(unlessCovered(against('high-voltage.fuse-opens-lowest-fault', about, faults.lowest, fast.current, 'at_least', 'current', [], { ...faultDetails, within: { value: fast.within, quantity: 'time' } })));
  }
  return checks;
}

function against(code: string, about: readonly string[], value: number | undefined, limit: number | undefined, sense: 'at_most' | 'at_least', quantity: NonNullable<Check['quantity']>, needs: readonly string[], details?: Check['details']): Check {
  return {
    code, about, sense, quantity, ...(value === undefined ? {} : { value }), ...(limit === undefined ? {} : { limit }),
    ...(needs.length > 0 ? { needs } : {}), ...(details ? { details } : {}),
  };
}
