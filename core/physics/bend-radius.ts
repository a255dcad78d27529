import { requirePositive } from './argument-rule.ts';

export interface BendUse {
  readonly isScreened: boolean;
  /** it moves in use (to a swinging drive unit, a door) */
  readonly moves: boolean;
}

/**
 * Least radius, to the inside of the bend, that a cable of an outside diameter may be bent to; the maker's sheet rules over it.
 *
 * Times the outside diameter: single core fixed 4, screened fixed 6, moving 10.
 *
 * @param outsideDiameter  [m]
 * @returns [m]
 * Source:  [bs-638-4] flexing rubber cable 6 times; moving 10 times from an assembly handbook; 3-4 and 5-6 times for
 *          vehicle high-voltage cable from memory: common practice
 */
export function leastBendRadius(outsideDiameter: number, use: BendUse): number {
  requirePositive({ outsideDiameter });
  return (use.moves ? 10 : use.isScreened ? 6 : 4) * outsideDiameter;
}
