/** Insulation of the high-voltage side against the chassis, from voltmeter readings. */
import { requireNotNegative, requirePositive } from './argument-rule.ts';

export interface IsolationReadings {
  /** pack voltage, Vb [V] */
  readonly pack: number;
  /** negative pole to chassis, V1, sign dropped [V] */
  readonly negative: number;
  /** positive pole to chassis, V2, sign dropped [V] */
  readonly positive: number;
  /** known resistor added from the pole with the higher reading to chassis, Ro [ohm] */
  readonly added: number;
  /** the same pole to chassis again, with the resistor in place, V1' or V2' [V] */
  readonly withAdded: number;
}

export type Isolation =
  | { readonly outcome: 'resistance'; readonly resistance: number; readonly perVolt: number; readonly addedAcross: 'negative' | 'positive' }
  /** no chassis voltage at all: insulation beyond what the meter can tell */
  | { readonly outcome: 'too_high_to_read' }
  /** readings that no resistances could give: the added resistor did not lower the voltage, or a pole reads above the pack */
  | { readonly outcome: 'inconsistent'; readonly reading: 'withAdded' | 'negative' | 'positive' };

/**
 * Isolation resistance from three voltmeter readings: Ri = Ro Vb (1/V1' - 1/V1).
 *
 * The resistor goes across the pole that reads more; the answer is the smaller of the two leaks.
 *
 * @returns resistance [ohm] and per volt of pack voltage [ohm/V]
 * Range:   voltmeter of 10 Mohm or more; its own resistance counts as a leak
 * Errors:  throws on readings that are negative or not finite
 * Source:  [un-r100] annex 4B, 1.2.3
 * Checked: checks/reference/isolation.un-r100.check.ts
 */
export function isolationFromReadings(readings: IsolationReadings): Isolation {
  const { pack, negative, positive, added, withAdded } = readings;
  requirePositive({ pack, added });
  requireNotNegative({ negative, positive, withAdded });
  const addedAcross = negative >= positive ? 'negative' : 'positive';
  const before = Math.max(negative, positive);
  if (before === 0) return { outcome: 'too_high_to_read' };
  // a meter may be 2 % out against itself
  if (before > pack * 1.02) return { outcome: 'inconsistent', reading: addedAcross };
  if (withAdded > before || withAdded === 0) return { outcome: 'inconsistent', reading: 'withAdded' };
  const resistance = added * pack * (1 / withAdded - 1 / before);
  return { outcome: 'resistance', resistance, perVolt: resistance / pack, addedAcross };
}

/**
 * The same from the United States form, which does not use the pack voltage: Ri = Ro (1 + V2/V1)((V1 - V1')/V1').
 *
 * @returns resistance [ohm]; equal to the UN form when V1 + V2 = Vb
 * Errors:  throws unless all readings are > 0
 * Source:  [fmvss-305] S7.6, from memory, checked algebraically
 */
export function isolationUnitedStatesForm(readings: Omit<IsolationReadings, 'pack'>): number {
  const { negative, positive, added, withAdded } = readings;
  requirePositive({ negative, positive, added, withAdded });
  const higher = Math.max(negative, positive);
  const lower = Math.min(negative, positive);
  return added * (1 + lower / higher) * ((higher - withAdded) / withAdded);
}

/**
 * One resistance for leaks that all go to the chassis side by side.
 *
 * @param resistances  [ohm], each > 0, at least one
 * Source:  [closed-form]
 */
export function parallelResistance(resistances: readonly number[]): number {
  if (resistances.length === 0) throw new RangeError('parallelResistance needs at least one resistance');
  resistances.forEach((resistance, index) => requirePositive({ [`resistance ${index}`]: resistance }));
  return 1 / resistances.reduce((sum, resistance) => sum + 1 / resistance, 0);
}

/** Least isolation per volt of working voltage [ohm/V]. [un-r100] clause 5.1.3: direct current 100, alternating or joined without double insulation 500. */
export const isolationLimits = { direct: 100, alternating: 500 } as const;
