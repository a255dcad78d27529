/**
 * How long the DC links stay dangerous after the contactors open: through their bleeders, and by active discharge.
 *
 * What is published: 60 V within 5 s of switch-off for machines ([iec-60204-1] 6.2.4, charges up to 60 µC exempt) and for student
 * race cars (Formula SAE EV.5.6); 60 V within 1 s at a plug that comes apart without tools, or finger-proof contacts
 * ([un-r100] 5.1.1.3). For road cars [iso-6469-3] leaves the time to the designer; 120 s for the bleeder alone is makers' practice.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import { dischargeTime, resistorForDischarge } from '../../physics/discharge-time.ts';
import type { Link } from './link-transitions.ts';
import { linkTransitions } from './link-transitions.ts';
import { metalPaths } from './metal-paths.ts';
import { fullPackAt } from './precharge-circuit.ts';

/** Upper end of voltage class A [V], [un-r100] clause 2. */
export const TOUCHABLE = 60;
/** [s] makers' practice for road cars (LV 123, from memory), no published limit. */
export const PASSIVE_LIMIT = 120;
/** [s] [iec-60204-1] 6.2.4, as a comparison: it is a rule for machines. */
export const ACTIVE_LIMIT = 5;
/** [s] [un-r100] 5.1.1.3. */
export const UNPLUGGED_LIMIT = 1;
/** Charge that needs no discharge [C], [iec-60204-1] 6.2.4. */
export const EXEMPT_CHARGE = 60e-6;

export interface DischargeResult {
  /** links that stay joined to each other when everything is off */
  readonly links: readonly string[];
  /** [F] */ readonly capacitance: number;
  /** full pack [V] */ readonly voltage: number;
  /** [J] */ readonly energy: number;
  /** what empties them by itself: the bleeders, without any only the leaks [ohm]; undefined: nothing */
  readonly resistance: number | undefined;
  /** to 60 V without any command [s]; undefined: never */
  readonly passiveTime: number | undefined;
  /** to 60 V by the quickest active discharge among them [s]; undefined: there is none */
  readonly activeTime: number | undefined;
  readonly activeBy: string | undefined;
  /** what the declared bleeders lose while the links are live [W] */
  readonly bleederPower: number;
  /** bleeder that would do it in `PASSIVE_LIMIT` [ohm] */
  readonly bleederForLimit: number | undefined;
  /** charge below which no rule asks for a discharge */
  readonly isExempt: boolean;
}

/** Discharge of every group of DC links, from a full pack to 60 V. */
export function studyDischarge(car: Car, ask: Network): { readonly results: readonly DischargeResult[]; readonly checks: readonly Check[] } {
  const checks: Check[] = [];
  const results: DischargeResult[] = [];
  const off = metalPaths(car, ask).pictureOf(undefined);
  const transitions = linkTransitions(car, ask);
  if (!off) return { results, checks };

  const groups = new Map<string, Link[]>();
  for (const link of transitions.links) {
    const [a, b] = [off.metal.of(link.positive), off.metal.of(link.negative)];
    // a link across the pack for good is no matter of discharge: `high-voltage.dead-when-off` stops it
    if (a === b || off.live.of(link.positive) === off.live.of(link.negative)) continue;
    const key = `${Math.min(a, b)} ${Math.max(a, b)}`;
    groups.set(key, [...(groups.get(key) ?? []), link]);
  }

  for (const links of groups.values()) {
    const voltage = highestVoltage(car, ask, transitions.liveModes, links);
    if (voltage === undefined || voltage <= TOUCHABLE) continue;
    const result = dischargeOf(ask, links, voltage);
    results.push(result);
    if (!result.isExempt) checks.push(...checksOf(car, links, result));
  }
  return { results, checks };
}

/** Full pack, in the first mode in which one of them is live. */
function highestVoltage(car: Car, ask: Network, liveModes: (link: Link) => readonly string[], links: readonly Link[]): number | undefined {
  for (const link of links) {
    const [mode] = liveModes(link);
    const voltage = mode === undefined ? undefined : fullPackAt(car, ask, mode, link);
    if (voltage !== undefined) return voltage;
  }
  return undefined;
}

function dischargeOf(ask: Network, links: readonly Link[], voltage: number): DischargeResult {
  const capacitance = links.reduce((sum, { role }) => sum + role.capacitance, 0);
  const conductance = links.reduce((sum, { role }) => sum + (role.bleeder === undefined ? 0 : 1 / role.bleeder), 0);
  const resistance = conductance > 0 ? 1 / conductance : leakBetween(ask, links[0]!);
  const active = links.flatMap(({ part, role }) => {
    const time = activeTime(role.activeDischarge, role.maximumVoltage, role.capacitance, capacitance, voltage);
    return time === undefined ? [] : [{ part, time }];
  }).reduce<{ part: string; time: number } | undefined>((best, one) => (best === undefined || one.time < best.time ? one : best), undefined);
  const needed = resistorForDischarge(capacitance, voltage, TOUCHABLE, PASSIVE_LIMIT);
  return {
    links: links.map(({ part }) => part), capacitance, voltage, energy: (capacitance * voltage ** 2) / 2, resistance,
    passiveTime: resistance === undefined ? undefined : dischargeTime(resistance, capacitance, voltage, TOUCHABLE),
    activeTime: active?.time, activeBy: active?.part,
    bleederPower: conductance * voltage ** 2, bleederForLimit: needed.outcome === 'resistor' ? needed.resistance : undefined,
    isExempt: capacitance * voltage <= EXEMPT_CHARGE,
  };
}

/** Between the two poles with everything off, through whatever leaks [ohm]. */
function leakBetween(ask: Network, { positive, negative }: Link): number | undefined {
  const seen = ask.thevenin({}, positive, negative);
  return seen.outcome === 'solved' && seen.resistance > 0 ? seen.resistance : undefined;
}

/**
 * The declared time holds for the part's own capacitor from its highest voltage; a resistor that does it takes longer for all
 * the capacitors on the same poles, and less from a lower voltage.
 */
function activeTime(declared: number | undefined, from: number | undefined, own: number, all: number, voltage: number): number | undefined {
  if (declared === undefined) return undefined;
  const reach = Math.log(voltage / TOUCHABLE);
  // without a stated highest voltage the declared time counts from this pack's
  const stated = from !== undefined && from > TOUCHABLE ? Math.log(from / TOUCHABLE) : reach;
  return declared * (all / own) * (reach / stated);
}

function checksOf(car: Car, links: readonly Link[], result: DischargeResult): readonly Check[] {
  const about = links.map(({ part }) => part);
  const voltage = { value: result.voltage, quantity: 'voltage' } as const;
  const capacitance = { value: result.capacitance, quantity: 'capacitance' } as const;
  const names = about.join(', ');
  const hasPath = result.bleederPower > 0 || result.activeTime !== undefined;
  const checks: Check[] = [{
    code: 'high-voltage.discharge-present', about, value: hasPath ? 1 : 0, limit: 1, sense: 'is_true',
    details: { names, voltage, capacitance, energy: { value: result.energy, quantity: 'energy' }, bleeder: { value: result.bleederForLimit ?? 0, quantity: 'resistance' } },
  }];
  // with no bleeder the leaks would have to do it: the time they take is true, but long
  if (result.passiveTime !== undefined) {
    checks.push({
      code: 'high-voltage.discharge-passive', about, value: result.passiveTime, limit: PASSIVE_LIMIT, sense: 'at_most', quantity: 'time',
      details: { names, voltage, capacitance, by: result.bleederPower > 0 ? 'their bleeders' : 'leaks alone, there is no bleeder', resistance: { value: result.resistance!, quantity: 'resistance' }, bleeder: { value: result.bleederForLimit ?? 0, quantity: 'resistance' } },
    });
  }
  if (result.activeTime !== undefined) {
    checks.push({ code: 'high-voltage.discharge-active', about: [result.activeBy!, ...about.filter((part) => part !== result.activeBy)], value: result.activeTime, limit: ACTIVE_LIMIT, sense: 'at_most', quantity: 'time', details: { voltage, capacitance } });
  }
  const plugged = about.filter((part) => (car.parts.get(part)?.roles.interlock ?? []).length > 0);
  const soonest = Math.min(result.activeTime ?? Infinity, result.passiveTime ?? Infinity);
  if (plugged.length > 0 && Number.isFinite(soonest)) {
    checks.push({ code: 'high-voltage.discharge-at-plug', about: plugged, value: soonest, limit: UNPLUGGED_LIMIT, sense: 'at_most', quantity: 'time', details: { names: plugged.join(', '), voltage } });
  }
  return checks;
}
