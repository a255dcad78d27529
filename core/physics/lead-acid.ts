/** A resting 12 V lead-acid battery: charge from its voltage, and how long it lasts on a small drain. */
import { requireNotNegative, requirePositive } from './argument-rule.ts';
import { cellCharge, cellVoltage, type CellCharge, type CellVoltage, type VoltageCurve } from './cell-voltage.ts';

/** Flooded six-cell battery rested six hours or more: [state of charge, voltage V]. [lead-acid-table] */
export const floodedVoltageCurve: VoltageCurve = [[0, 11.6], [0.25, 12.0], [0.5, 12.2], [0.75, 12.4], [1, 12.6]];

/** Voltage of a rested flooded 12 V battery. Source: [lead-acid-table], a rule-of-thumb table; makers differ by 0.1 V. */
export function leadAcidVoltage(stateOfCharge: number): CellVoltage {
  return cellVoltage(floodedVoltageCurve, stateOfCharge);
}

/** Charge of a rested flooded 12 V battery from its voltage. Source: as `leadAcidVoltage`; 80 mV is worth about 10 %. */
export function leadAcidCharge(voltage: number): CellCharge {
  return cellCharge(floodedVoltageCurve, voltage);
}

/** Share of the capacity that may leave a starter battery before it fails to start [1]. [lead-acid-table] maker bulletin, at 25 °C. */
export const SHARE_TO_NO_START = 0.4;

/**
 * Time that a battery carries a small constant drain before a share of its capacity has gone.
 *
 * @param capacity       [C]
 * @param drain          [A]
 * @param share          of the capacity [1], 0..1
 * @returns [s], or `never` without a drain
 * Range:   drains far below the 20 h rate; no self-discharge
 * Source:  [lead-acid-table] 0.4 Ah / (24 I) days to no-start
 * Checked: checks/reference/lead-acid.check.ts
 */
export function timeOnDrain(capacity: number, drain: number, share: number = SHARE_TO_NO_START): { readonly outcome: 'time'; readonly time: number } | { readonly outcome: 'never' } {
  requirePositive({ capacity });
  requireNotNegative({ drain });
  if (!(share > 0 && share <= 1)) throw new RangeError(`share must be above 0 and at most 1, got ${share}`);
  return drain === 0 ? { outcome: 'never' } : { outcome: 'time', time: (share * capacity) / drain };
}

/**
 * Capacity that a reserve-capacity label stands for.
 *
 * @param reserve  time at 25 A down to 10.5 V [s]
 * @param rate     `25 A`: what the definition gives; `20 h`: service rule of 0.6 Ah per minute, 1.44 times as much
 * @returns [C]
 * Source:  definition (BCI); the 0.6 rule from a maker's bulletin. The two conventions disagree by 1.44: state which
 */
export function capacityFromReserve(reserve: number, rate: '25 A' | '20 h'): number {
  requirePositive({ reserve });
  return rate === '25 A' ? 25 * reserve : 0.6 * 60 * reserve;
}
