import { requirePositive } from './argument-rule.ts';

/** Metal share of the circle around a flexible conductor: 0.65 .. 0.78 in the notes, from a secondary source. */
export const FLEXIBLE_FILL = { low: 0.65, usual: 0.72, high: 0.78 } as const;

/**
 * Diameter of the circle around a stranded conductor, from its metal cross-section.
 *
 * @param area  metal cross-section [m2], > 0
 * @param fill  metal area / area of the circle [1], 0..1; class 5 and 6: 0.65 .. 0.78
 * @returns [m]
 * Source:  geometry; the fill factor is a secondary note, common practice
 */
export function conductorDiameter(area: number, fill: number = FLEXIBLE_FILL.usual): number {
  requirePositive({ area, fill });
  if (fill > 1) throw new RangeError(`fill must be at most 1, got ${fill}`);
  return Math.sqrt((4 * area) / (Math.PI * fill));
}
