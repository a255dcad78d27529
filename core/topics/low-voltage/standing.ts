/**
 * The car left standing: what it takes from its low-voltage battery, and for how long that goes well.
 */
import type { Car } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import { SHARE_TO_NO_START, timeOnDrain } from '../../physics/lead-acid.ts';
import { overModes } from './check-over-modes.ts';
import type { ModePoints } from './mode-points.ts';
import { AT_REST } from './mode-points.ts';

export interface Standing {
  readonly battery: string;
  /** every mode in which the battery gives current, `rest` first */
  readonly modes: readonly { readonly mode: string; /** [A] */ readonly drain: number; /** until 40 % of its capacity has gone [s] */ readonly time: number }[];
}

/** A car that stands this long still has to start [s]: two weeks; common practice, no source. */
export const STANDING_TIME = 14 * 86_400;
/** Drain at which a workshop starts to look for a fault [A]; common practice, no source. */
export const DRAIN_ALARM = 0.05;
/** Beyond this, what the battery loses by itself counts for more than the drain [s]. */
export const LONGEST_STANDING = 365 * 86_400;
/** Modes that stand for a parked car, besides the state in which nothing is asked of anything. */
const PARKED = new Set([AT_REST, 'off']);

export function studyStanding(car: Car, modes: ModePoints): { results: readonly Standing[]; checks: readonly Check[] } {
  const results: Standing[] = [];
  const checks: Check[] = [];
  for (const { name, names, roles: { lowVoltageBattery: battery } } of car.parts.values()) {
    if (!battery) continue;
    const drains = modes.points.flatMap(({ mode, solved }) => {
      const drain = -solved.currentOf(names.of(battery.element));
      return drain < 0 ? [] : [{ mode, drain, time: standingTime(battery.capacity, drain) }];
    });
    results.push({ battery: name, modes: drains.filter(({ drain }) => drain > 0) });
    const parked = drains.filter(({ mode }) => PARKED.has(mode)).sort((a, b) => b.drain - a.drain)[0];
    const details = { mode: parked?.mode ?? AT_REST, drain: { value: parked?.drain ?? 0, quantity: 'current' }, capacity: { value: battery.capacity, quantity: 'charge' } } as const;
    const isCharged = modes.rest !== undefined && parked === undefined;
    // charged while it stands: nothing runs it flat
    const time = isCharged ? LONGEST_STANDING : parked?.time;
    checks.push(
      overModes({ code: 'low-voltage.standing-time', about: [name], sense: 'at_least', quantity: 'time', ...(time === undefined ? {} : { value: time }), limit: STANDING_TIME, details }, modes),
      overModes({ code: 'low-voltage.standing-drain', about: [name], sense: 'at_most', quantity: 'current', ...(time === undefined ? {} : { value: parked?.drain ?? 0 }), limit: DRAIN_ALARM, details }, modes),
    );
  }
  return { results, checks };
}

function standingTime(capacity: number, drain: number): number {
  const outcome = timeOnDrain(capacity, drain, SHARE_TO_NO_START);
  return outcome.outcome === 'never' ? LONGEST_STANDING : Math.min(LONGEST_STANDING, outcome.time);
}
