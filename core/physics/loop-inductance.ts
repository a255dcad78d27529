/** Inductance of the loop that a pair of conductors, out and back, encloses. */
import { requireNotNegative, requirePositive } from './argument-rule.ts';

/**
 * Inductance of one metre of each conductor of a loop whose way is not known [H/m]; common practice, no source.
 * By `pairInductance` it is what 10 mm thick conductors have when out and back run half a metre apart, so it errs high
 * for cables that lie together (0.2 .. 0.4 µH/m).
 */
export const USUAL_INDUCTANCE_PER_LENGTH = 1e-6;

/**
 * The same where little inductance is the cautious side, for the highest current of a rush [H/m]; common practice, no source:
 * cables that lie side by side.
 */
export const LOW_INDUCTANCE_PER_LENGTH = 0.25e-6;

/**
 * Inductance of a run as part of its loop.
 *
 * @param length  of this one conductor [m], >= 0
 * @param side    `high` for the L/R of a fault, `low` for the peak of a rush
 * @returns [H]
 */
export function runInductance(length: number, side: 'high' | 'low' = 'high'): number {
  requireNotNegative({ length });
  return (side === 'high' ? USUAL_INDUCTANCE_PER_LENGTH : LOW_INDUCTANCE_PER_LENGTH) * length;
}

/**
 * Inductance of a long pair of parallel round conductors, out and back, per metre of the pair.
 *
 * L' = (mu0/pi) (ln(d/r) + 1/4), d between axes, r radius: direct current spread evenly over the metal.
 *
 * @param spacing  between the axes [m], at least the diameter
 * @param radius   of the metal [m]
 * @returns [H/m] of the pair: each conductor has half of it
 * Source:  [closed-form] magnetic energy of two parallel wires, textbook
 * Checked: loop-inductance.test.ts
 */
export function pairInductance(spacing: number, radius: number): number {
  requirePositive({ spacing, radius });
  if (spacing < 2 * radius) throw new RangeError(`spacing ${spacing} m must be at least the diameter ${2 * radius} m`);
  return 4e-7 * (Math.log(spacing / radius) + 0.25);
}
