/** What one pulse may be for a fuse to outlive many, and what current surely opens it soon. */
import { ADIABATIC_TIME_LIMIT } from '../../physics/adiabatic.ts';
import { CONSTANT_HEATING_LIMIT } from '../../physics/fuse-clearing.ts';
import { generalFuseGates } from '../../physics/fuse-gates.ts';
import { pulseLife } from '../../physics/fuse-repetitive.ts';
import type { Protection } from './fuse-in-fault.ts';

/** Largest share of the melting current that a repeated overload may reach [1]: factor B2 printed on a fuse for 1000 V DC. */
const REPEATED_OVERLOAD = 0.6;
/** A full-range fuse carries this multiple of its rating for the conventional time of an hour and more (IEC 60269-1 table 2, from memory). */
const CONVENTIONAL_CARRY = 1.25;
/** Short enough for no heat to leave any fuse's element, so that its melting I²t surely holds [s]; makers state I²t for a few ms. */
const SURELY_ADIABATIC = 0.01;
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
 * that the gate table says it carries (10 s), and beyond 10 s 60 % of the conventional carrying current.
 * Longer, other styles: no table.
 *
 * @param lasts  [s]
 */
export function pulseLimit(fuse: Protection, lasts: number): PulseLimit {
  const { rating, style, meltingEnergy } = fuse.role;
  if (lasts <= CONSTANT_HEATING_LIMIT) {
    const share = pulseLife[pulseLife.length - 1]![1];
    return meltingEnergy === undefined ? { outcome: 'needs', needs: [`parts.${fuse.part}.melting_energy`] } : { outcome: 'energy', energy: share * meltingEnergy };
  }
  if (style !== 'full_range') return { outcome: 'no_table' };
  if (lasts > 10) return { outcome: 'current', current: REPEATED_OVERLOAD * CONVENTIONAL_CARRY * rating };
  // the next smaller size of the table carries less, so its gate is on the cautious side
  const gate = generalFuseGates.filter((row) => row.rating <= rating).at(-1);
  if (!gate) return { outcome: 'no_table' };
  return { outcome: 'current', current: REPEATED_OVERLOAD * gate.carries10s };
}

/**
 * Current that surely opens a full-range or blade fuse quickly.
 *
 * Full range: the gate of the next larger size (opens within 5 s), above 400 A the multiple of the 400 A row; or what puts its
 * declared melting I²t through it within 10 ms, when that is less (vehicle fuses are faster than the gates). Blade: 6 times the rating (within 1 s).
 *
 * @returns [A] and the time [s]
 * Source: [iec-60269-1] table 3, [iso-8820-3], both from memory
 */
export function fastOpening({ role }: Pick<Protection, 'role'>): { readonly current: number; readonly within: number } {
  if (role.style === 'blade') return { current: BLADE_FAST * role.rating, within: 1 };
  const largest = generalFuseGates[generalFuseGates.length - 1]!;
  const gate = generalFuseGates.find((row) => row.rating >= role.rating);
  const opens5s = gate ? gate.opens5s : (largest.opens5s / largest.rating) * role.rating;
  const melts = role.meltingEnergy === undefined ? Infinity : Math.sqrt(role.meltingEnergy / SURELY_ADIABATIC);
  return melts < opens5s ? { current: melts, within: SURELY_ADIABATIC } : { current: opens5s, within: ADIABATIC_TIME_LIMIT };
}
