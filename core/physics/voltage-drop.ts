/** Voltage lost in the wiring of a circuit, and the conductor that keeps it in bounds. */
import { requireNotNegative, requirePositive } from './argument-rule.ts';

/**
 * Voltage lost in a conductor.
 *
 * @param resistancePerLength  at its working temperature [ohm/m]
 * @param length               there and back [m]
 * @returns [V]
 */
export function voltageDrop(resistancePerLength: number, length: number, current: number): number {
  requireNotNegative({ resistancePerLength, length, current });
  return resistancePerLength * length * current;
}

/** Greatest share of the supply voltage to lose [1]: critical circuits 3 %, others 10 %. [abyc-e-11] */
export const dropLimits = { critical: 0.03, other: 0.1 } as const;

/**
 * Cross-section that keeps a voltage drop, by the circular-mil formula of boat wiring: CM = 10.75 I L / E.
 *
 * @param current  [A]
 * @param length   there and back [m]
 * @param drop     allowed [V]
 * @returns [m2]
 * Range:   copper at ordinary temperature (10.75 ohm.circular mil/ft is 17.87 nohm.m, copper at about 29 °C)
 * Source:  [abyc-e-11] formula from memory
 * Checked: checks/reference/voltage-drop.abyc-e-11.check.ts
 */
export function areaForDrop(current: number, length: number, drop: number): number {
  requireNotNegative({ current, length });
  requirePositive({ drop });
  return (10.75 * current * (length / FOOT) * CIRCULAR_MIL) / drop;
}

const FOOT = 0.3048;
/** Area of a circle of one thousandth of an inch [m2]. */
export const CIRCULAR_MIL = (Math.PI / 4) * 25.4e-6 ** 2;
