/** What a fuse may carry for good, where it sits. */
import { requirePositive } from './argument-rule.ts';

/** Constants of a fuse's maker for the ambient factor [K]; 130 °C and 30 °C are the cautious end of the published range. */
export interface FuseThermal {
  /** a: ambient at which the fuse may carry nothing; published range 130..150 °C */
  readonly limit: number;
  /** ambient at which the rated current holds; published 25..30 °C (blade fuses 20 °C) */
  readonly reference: number;
}
export const cautiousFuseThermal: FuseThermal = { limit: 403.15, reference: 303.15 };

export type FuseCurrent =
  | { readonly outcome: 'current'; readonly current: number; readonly factors: { readonly ambient: number; readonly air: number; readonly connection: number; readonly load: number } }
  /** the air around it is at or above the temperature at which it may carry nothing */
  | { readonly outcome: 'too_hot'; readonly limit: number };

export interface FuseSeat {
  /** [A] */
  readonly rating: number;
  /** air around it [K] */
  readonly ambient: number;
  /** speed of forced air over it [m/s]; absent: still */
  readonly airSpeed?: number;
  /** factor for connections thinner than in the maker's test [1], 0..1; absent: 1 */
  readonly connectionFactor?: number;
  /** factor for a load that varies [1], 0..1; absent: 1. A maker's sheet printed 0.6; 0.75..0.8 is a common load factor */
  readonly loadFactor?: number;
  /** forced-air factor reached at 5 m/s [1]; published 1.25 */
  readonly fullAirFactor?: number;
}

/**
 * Current that a fuse may carry for good: rating times ambient, forced-air, connection and load factors.
 *
 * @returns allowed current [A] with each factor, or `too_hot`
 * Range:   the factor above 1 in cold air is kept at 1 unless nothing else limits: this tool never takes credit for cold
 * Errors:  throws on a rating not > 0 or factors outside 0..1
 * Source:  [fuse-maker-guides] semiconductor fuse guide, appendix a: I = In A1 Bv C1 A2
 * Checked: checks/reference/fuse-factors.fuse-maker-guides.check.ts
 */
export function fuseContinuousCurrent(seat: FuseSeat, thermal: FuseThermal = cautiousFuseThermal): FuseCurrent {
  requirePositive({ rating: seat.rating, ambient: seat.ambient });
  const connection = shareOf('connectionFactor', seat.connectionFactor ?? 1);
  const load = shareOf('loadFactor', seat.loadFactor ?? 1);
  const byAmbient = fuseAmbientFactor(seat.ambient, thermal);
  if (byAmbient === 0) return { outcome: 'too_hot', limit: thermal.limit };
  const ambient = Math.min(1, byAmbient);
  const air = forcedAirFactor(seat.airSpeed ?? 0, seat.fullAirFactor ?? 1.25);
  return { outcome: 'current', current: seat.rating * ambient * air * connection * load, factors: { ambient, air, connection, load } };
}

/**
 * Ambient factor of a fuse: sqrt((a - ambient) / (a - reference)); 0 at and above a.
 *
 * Source:  [fuse-maker-guides] appendix a (the root sign was lost in the page text and is restored)
 */
export function fuseAmbientFactor(ambient: number, thermal: FuseThermal = cautiousFuseThermal): number {
  requirePositive({ ambient });
  if (!(thermal.limit > thermal.reference)) throw new RangeError('the limit temperature of a fuse must be above its reference');
  if (ambient >= thermal.limit) return 0;
  return Math.sqrt((thermal.limit - ambient) / (thermal.limit - thermal.reference));
}

/**
 * Forced-air factor: 1 in still air, rising in a straight line to `full` at 5 m/s, constant above.
 *
 * @param airSpeed  [m/s], >= 0
 * Source:  [fuse-maker-guides] appendix a (B1 = 1.25)
 */
export function forcedAirFactor(airSpeed: number, full = 1.25): number {
  if (!(Number.isFinite(airSpeed) && airSpeed >= 0)) throw new RangeError(`airSpeed must be finite and >= 0, got ${airSpeed}`);
  return 1 + (full - 1) * Math.min(1, airSpeed / 5);
}

/**
 * General-purpose (gG) ambient factor: 0.5 % less per kelvin above 40 °C.
 *
 * @returns factor [1], 0..1
 * Source:  [fuse-maker-guides] application guidance of a gG maker
 */
export function generalFuseAmbientFactor(ambient: number): number {
  requirePositive({ ambient });
  return Math.min(1, Math.max(0, 1 - 0.005 * (ambient - 313.15)));
}

function shareOf(name: string, value: number): number {
  if (!(value > 0 && value <= 1)) throw new RangeError(`${name} must be above 0 and at most 1, got ${value}`);
  return value;
}
