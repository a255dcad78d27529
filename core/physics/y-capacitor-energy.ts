/** Energy that the capacitors between high voltage and chassis could give to somebody who touches one pole. */
import { requireNotNegative } from './argument-rule.ts';

/** Greatest energy after a crash [J]: [iso-6469-4] clause 5.2, [un-r94] annex 11. A page that says 0.1 J contradicts its own figure. */
export const TOUCH_ENERGY_LIMIT = 0.2;

/**
 * Energy in the capacitance to chassis above what 60 V would hold: C (V² - 3600)/2.
 *
 * @param capacitance  all capacitors to chassis, both poles [F]
 * @param voltage      across them when one pole is touched: the whole pack voltage [V]
 * @returns [J]; 0 at and below 60 V
 * Source:  [un-r94] annex 11, formula from memory
 * Checked: checks/reference/y-capacitor.un-r94.check.ts
 */
export function touchEnergyAbove60(capacitance: number, voltage: number): number {
  requireNotNegative({ capacitance, voltage });
  return Math.max(0, (capacitance * (voltage ** 2 - 3600)) / 2);
}

/** All the energy in the capacitance to chassis [J]: C V²/2. Source: [iso-6469-4]. */
export function touchEnergy(capacitance: number, voltage: number): number {
  requireNotNegative({ capacitance, voltage });
  return (capacitance * voltage ** 2) / 2;
}
