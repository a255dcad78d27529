/** Two strings of cells joined in parallel at different voltages: the current between them, and how it dies away. */
import { requirePositive, requireNotNegative } from './argument-rule.ts';

export interface StringPair {
  /** open-circuit voltage of the fuller string minus the emptier [V], >= 0 */
  readonly difference: number;
  /** both strings and the leads between them [ohm] */
  readonly resistance: number;
  /** capacity of each string [C] */
  readonly capacity: readonly [number, number];
  /** rise of each string's open-circuit voltage per unit of charge [V] (cells in series times the cell's slope) */
  readonly slope: readonly [number, number];
}

export interface Equalising {
  /** at the moment of joining [A] */
  readonly current: number;
  /** of the decay [s] */
  readonly timeConstant: number;
  /** moved in all [C] */
  readonly charge: number;
  /** lost as heat in all [J] */
  readonly heat: number;
  /** [A2.s] */
  readonly heating: number;
}

/**
 * Equalising current between two strings joined in parallel.
 *
 * Each string is taken as a source whose voltage falls with the charge it gives: a capacitor of capacity/slope farads.
 *
 * Range:   small differences, within which the slope holds and the resistance is the short-time one; diffusion makes
 *          the tail slower than computed
 * Errors:  throws when resistance, a capacity or a slope is not > 0
 * Source:  [closed-form] two capacitors through a resistor; first current dV/(R1 + R2 + leads)
 * Checked: parallel-strings.test.ts, checks/reference/cells.open-data.check.ts (first current)
 */
export function equalisingCurrent(pair: StringPair): Equalising {
  const [capacity1, capacity2] = pair.capacity;
  const [slope1, slope2] = pair.slope;
  requirePositive({ resistance: pair.resistance, capacity1, capacity2, slope1, slope2 });
  requireNotNegative({ difference: pair.difference });
  const series = 1 / (slope1 / capacity1 + slope2 / capacity2);
  const current = pair.difference / pair.resistance;
  const heat = (series * pair.difference ** 2) / 2;
  return { current, timeConstant: pair.resistance * series, charge: series * pair.difference, heat, heating: heat / pair.resistance };
}
