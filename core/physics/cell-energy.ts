/** Energy of a cell between two states of charge: the area under its open-circuit voltage. */
import { requirePositive } from './argument-rule.ts';
import type { VoltageCurve } from './cell-voltage.ts';
import { cellVoltage } from './cell-voltage.ts';

export type CellEnergy =
  | { readonly outcome: 'energy'; /** [J] */ readonly energy: number }
  | { readonly outcome: 'outside'; readonly lowest: number; readonly highest: number };

/**
 * Energy that a cell gives when discharged without loss: capacity times the integral of the open-circuit voltage over charge.
 *
 * @param curve     rows [state of charge, voltage V, …]
 * @param capacity  [C], > 0, of the whole curve from 0 to 1
 * @param from      lower state of charge [1]
 * @param to        upper state of charge [1], >= from
 * @returns energy [J], or `outside` when a state of charge is beyond the curve
 * Range:   without losses; at a current, less comes out by I²R
 * Errors:  throws when capacity is not > 0 or `to` < `from`
 * Source:  [closed-form] dE = U dq; exact on a curve that is straight between its points
 * Checked: cell-energy.test.ts
 */
export function cellEnergy(curve: VoltageCurve, capacity: number, from: number, to: number): CellEnergy {
  requirePositive({ capacity });
  if (to < from) throw new RangeError(`to must be >= from, got ${to} < ${from}`);
  const [start, end] = [cellVoltage(curve, from), cellVoltage(curve, to)];
  if (start.outcome === 'outside') return start;
  if (end.outcome === 'outside') return end;
  let area = 0;
  let [charge, voltage] = [from, start.voltage];
  for (const row of curve) {
    if (!(row[0]! > from && row[0]! < to)) continue;
    area += ((voltage + row[1]!) / 2) * (row[0]! - charge);
    [charge, voltage] = [row[0]!, row[1]!];
  }
  area += ((voltage + end.voltage) / 2) * (to - charge);
  return { outcome: 'energy', energy: capacity * area };
}
