import { normalProbability, normalQuantile } from './normal-distribution.ts';
import type { QuantityName } from './quantity-table.ts';
import type { Quantity } from './quantity.ts';

/**
 * One draw from what the builder knows about a quantity: the value below which it lies with probability `u`.
 * Grows with `u`; the same `u` always gives the same value.
 *
 * - normal: the limits are two standard deviations from the nominal; with unlike limits, two half normals that meet at
 *   the nominal, each with half of the probability;
 * - uniform: between the limits. The nominal plays no part;
 * - exact: the nominal.
 *
 * A quantity never changes sign in a draw: wide limits are cut at a thousandth of the nominal, and the probability beyond is
 * spread over the rest, so that a resistance of 1 mΩ ±200 % stays above zero. Zero stays free. Coordinates, angles, temperature
 * differences, gauge pressures and pressure differences may take either sign and are not cut.
 *
 * @param u  above 0 and below 1
 * @returns value [SI]
 * Errors:  throws if u is outside
 * Source:  JCGM 100:2008, 4.3.4 (coverage factor 2), 4.3.7 (rectangular), 4.3.8 (unlike limits)
 * Checked: spread.test.ts
 */
export function drawFrom(q: Quantity, u: number): number {
  if (!(u > 0 && u < 1)) throw new RangeError('a draw needs a probability above 0 and below 1');
  if (q.shape === 'exact' || q.low === q.high) return q.nominal;
  const bound = signIsFree.has(q.quantity) ? 0 : q.nominal / 1000;
  if (q.shape === 'uniform') {
    const from = bound > 0 ? Math.max(q.low, bound) : q.low;
    const to = bound < 0 ? Math.min(q.high, bound) : q.high;
    return from + u * (to - from);
  }
  const below = (q.nominal - q.low) / 2;
  const above = (q.high - q.nominal) / 2;
  let p = u;
  if (bound > 0 && farthest * below > q.nominal - bound) {
    const cut = normalProbability((bound - q.nominal) / below);
    p = cut + u * (1 - cut);
  } else if (bound < 0 && farthest * above > bound - q.nominal) {
    p = u * normalProbability((bound - q.nominal) / above);
  }
  if (p >= 1) p = 1 - Number.EPSILON / 2;
  const z = normalQuantile(p);
  const value = q.nominal + z * (z < 0 ? below : above);
  return bound > 0 ? Math.max(value, bound) : bound < 0 ? Math.min(value, bound) : value;
}

/**
 * Standard deviation of a quantity [SI], before any cut at zero. For unlike limits that of the two half normals about
 * their own mean, which is not the nominal.
 */
export function standardDeviation(q: Quantity): number {
  if (q.shape === 'exact') return 0;
  if (q.shape === 'uniform') return (q.high - q.low) / Math.sqrt(12);
  const below = (q.nominal - q.low) / 2;
  const above = (q.high - q.nominal) / 2;
  const mean = (above - below) / Math.sqrt(2 * Math.PI);
  return Math.sqrt(Math.max(0, (below * below + above * above) / 2 - mean * mean));
}

/** standard deviations beyond which a double has no probability left to cut */
const farthest = 8.5;

const signIsFree: ReadonlySet<QuantityName> = new Set<QuantityName>(['coordinate', 'angle', 'temperature_difference', 'pressure_gauge', 'pressure_difference']);
