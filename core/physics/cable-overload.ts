/** Does a fuse protect a cable against overload: Ib <= In <= Iz and I2 <= 1.45 Iz. */
import { requireNotNegative, requirePositive } from './argument-rule.ts';

export interface OverloadRule {
  /** the fuse's rating is at least the current the circuit needs */
  readonly carriesLoad: boolean;
  /** the fuse's rating is at most what the cable may carry */
  readonly withinCable: boolean;
  /** the current that surely opens the fuse is at most 1.45 times what the cable may carry */
  readonly opensInTime: boolean;
  /** highest fuse rating that meets the rule [A] */
  readonly highestRating: number;
}

/**
 * Cable overload rule.
 *
 * @param load            current the circuit needs for good, Ib [A]
 * @param rating          of the fuse, In [A]
 * @param capacity        current the cable may carry for good where it lies, Iz [A]
 * @param openingRatio    I2/In: current that opens the fuse in the conventional time over its rating; gG from 16 A: 1.6,
 *                        regular blade 1.35. A partial-range (aR) fuse has none and may not be judged by this rule
 * @returns which parts hold
 * Source:  [iec-60364-4-43] clause 433.1; the forms In <= Iz/1.1 (gG) and Iz/1.31 (below 16 A) from memory
 * Checked: cable-overload.test.ts
 */
export function overloadRule(load: number, rating: number, capacity: number, openingRatio: number): OverloadRule {
  requireNotNegative({ load });
  requirePositive({ rating, capacity, openingRatio });
  return {
    carriesLoad: load <= rating,
    withinCable: rating <= capacity,
    opensInTime: openingRatio * rating <= 1.45 * capacity,
    highestRating: Math.min(capacity, (1.45 * capacity) / openingRatio),
  };
}
