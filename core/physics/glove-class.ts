/** Insulating gloves: which class is made for a direct voltage. */
import { requireNotNegative } from './argument-rule.ts';

export interface GloveClass {
  readonly name: '00' | '0' | '1' | '2' | '3' | '4';
  /** highest direct voltage of use [V] */
  readonly directVoltage: number;
  /** highest alternating voltage of use, rms [V] */
  readonly alternatingVoltage: number;
}

/** IEC 60903 / ASTM D120. Lowest first. */
export const gloveClasses: readonly GloveClass[] = [
  { name: '00', directVoltage: 750, alternatingVoltage: 500 },
  { name: '0', directVoltage: 1500, alternatingVoltage: 1000 },
  { name: '1', directVoltage: 11_250, alternatingVoltage: 7500 },
  { name: '2', directVoltage: 25_500, alternatingVoltage: 17_000 },
  { name: '3', directVoltage: 39_750, alternatingVoltage: 26_500 },
  { name: '4', directVoltage: 54_000, alternatingVoltage: 36_000 },
];

/**
 * Lowest class made for a direct voltage; undefined above the highest class.
 * @param voltage  [V], >= 0
 * Source: IEC 60903, ASTM D120. Checked: checks/reference/glove-classes.iec-60903.check.ts
 */
export function gloveClassFor(voltage: number): GloveClass | undefined {
  requireNotNegative({ voltage });
  return gloveClasses.find(({ directVoltage }) => voltage <= directVoltage);
}
