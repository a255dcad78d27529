import { requirePositive } from './argument-rule.ts';

/**
 * Direct current of a single flat copper bar on edge in still air for a rise of 50 K above 40 °C, by the handbook formula.
 *
 * I = 7.73 A^0.5 p^0.39, A the cross-section in mm2 and p its perimeter in mm: 2 (width + thickness).
 *
 * @param width, thickness  [m], > 0
 * @returns current [A]
 * Range:   rise 50 K, air 40 °C only; the heat balance in `busbar-heating.ts` covers the rest
 * Source:  [cda-pub-22] section 10, case I
 * Checked: checks/reference/busbar.cda-pub-22.check.ts
 */
export function handbookBusbarCurrent(width: number, thickness: number): number {
  requirePositive({ width, thickness });
  return 7.73 * Math.sqrt(width * thickness * 1e6) * (2 * (width + thickness) * 1e3) ** 0.39;
}

/**
 * Direct current of a round copper rod under the same conditions: I = 8.63 A^0.5 p^0.36.
 *
 * @param diameter  [m], > 0
 * Source:  [cda-pub-22] section 10, case II
 */
export function handbookRodCurrent(diameter: number): number {
  requirePositive({ diameter });
  return 8.63 * Math.sqrt((Math.PI / 4) * diameter ** 2 * 1e6) * (Math.PI * diameter * 1e3) ** 0.36;
}
