/** What one pulse may be for a fuse to outlive many, and what current surely opens it soon. */
import { ADIABATIC_TIME_LIMIT } from '../../physics/adiabatic.ts';
import { conventionalCurrents, generalFuseGates, surelyOpens } from '../../physics/fuse-gates.ts';
import { pulseLife } from '../../physics/fuse-repetitive.ts';
import { fuseAllowance } from './fuse-allowance.ts';
import type { Protection } from './fuse-in-fault.ts';

/** Largest share of the melting current that a repeated overload may reach [1]: factor B2 printed on a fuse for 1000 V DC. */
const REPEATED_OVERLOAD = 0.6;
/** A full-range fuse carries this multiple of its rating for the conventional time of an hour and more (IEC 60269-1 table 2, from memory). */
const CONVENTIONAL_CARRY = 1.25;
/** Short enough for no heat to leave any fuse's element, so that its melting I²t surely holds [s]; makers state I²t for a few ms. */
const SURELY_ADIABATIC = 0.01;
/** On the current: melting I²t is a nominal value (current ± 9 %, IEC 60269-1 from memory), and after melting comes the arc. Our choice. */
const SURE_OF_NOMINAL = 1.2;
/** Pulses up to here are judged by their I²t [s]: as heat leaves the element meanwhile, it bears more than that. */
const SHORT_PULSE = 0.1;
/** Multiple of the rating that opens a blade fuse of any body within a second (ISO 8820-3: 600 %). */
const BLADE_FAST = 6;

export type PulseLimit =
  /** I²t of one pulse [A2.s] */
  | { readonly outcome: 'energy'; readonly energy: number }
  /** current of one pulse [A] */
  | { readonly outcome: 'current'; readonly current: number }
  | { readonly outcome: 'needs'; readonly needs: readonly string[] }
  /** no published table covers a pulse this long for this style: the maker's curve must be read */
  | { readonly outcome: 'no_table' };

/**
 * Limit of one pulse of a repeated load.
 *
 * Up to 0.1 s: the share of the melting I²t published for 100 000 pulses (22 %). Longer, full range: 60 % of the current
 * that the gate table says it carries (10 s); from there in a straight line over the logarithm of time to 60 % of the conventional
 * carrying current at the conventional time. Never less than what it may carry for good.
 * Longer, other styles: no table.
 *
 * @param lasts  [s]
 */
export function pulseLimit(fuse: Protection, lasts: number): PulseLimit {
  const { rating, style, meltingEnergy } = fuse.role;
  if (lasts <= SHORT_PULSE) {
    const share = pulseLife[pulseLife.length - 1]![1];
    return meltingEnergy === undefined ? { outcome: 'needs', needs: [`parts.${fuse.part}.melting_energy`] } : { outcome: 'energy', energy: share * meltingEnergy };
  }
  if (style !== 'full_range') return { outcome: 'no_table' };
  // the next smaller size of the table carries less, so its gate is on the cautious side
  const gate = generalFuseGates.filter((row) => row.rating <= rating).at(-1);
  const forEver = fuseAllowance(fuse).current;
  if (!gate) return lasts > 10 ? { outcome: 'current', current: Math.max(forEver, REPEATED_OVERLOAD * CONVENTIONAL_CARRY * rating) } : { outcome: 'no_table' };
  const tenSeconds = Math.max(forEver, REPEATED_OVERLOAD * gate.carries10s);
  const conventional = conventionalCurrents(rating);
  if (lasts <= 10 || !conventional) return { outcome: 'current', current: tenSeconds };
  const long = Math.min(tenSeconds, Math.max(forEver, REPEATED_OVERLOAD * conventional.carries));
  const way = Math.min(1, Math.log(lasts / 10) / Math.log(conventional.time / 10));
  return { outcome: 'current', current: tenSeconds + (long - tenSeconds) * way };
}

/**
 * Current that surely opens a full-range or blade fuse quickly, arc included.
 *
 * Full range: the gate of the next larger size (opens within 5 s), above 400 A the multiple of the 400 A row; or what puts its
 * declared melting I²t through it within 10 ms, × 1.2, when that is less (vehicle fuses are faster than the gates). Blade: 6 times the rating (within 1 s).
 *
 * @returns [A] and the time [s]
 * Source: [iec-60269-1] table 3, [iso-8820-3], both from memory
 */
export function fastOpening({ role }: Pick<Protection, 'role'>): { readonly current: number; readonly within: number } {
  if (role.style === 'blade') return { current: BLADE_FAST * role.rating, within: 1 };
  const { within5s } = surelyOpens(role.rating);
  const melts = role.meltingEnergy === undefined ? Infinity : SURE_OF_NOMINAL * Math.sqrt(role.meltingEnergy / SURELY_ADIABATIC);
  return melts < within5s ? { current: melts, within: SURELY_ADIABATIC } : { current: within5s, within: ADIABATIC_TIME_LIMIT };
}
