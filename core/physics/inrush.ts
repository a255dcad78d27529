/**
 * What happens when a contactor closes on a capacitor that is not quite full: series resistance, inductance, capacitance.
 */
import { requireNotNegative, requirePositive } from './argument-rule.ts';

export interface InrushLoop {
  /** source minus capacitor voltage when the contact closes [V], either sign */
  readonly difference: number;
  /** of the whole loop [ohm], > 0 */
  readonly resistance: number;
  /** [H], >= 0 */
  readonly inductance: number;
  /** [F] */
  readonly capacitance: number;
}

export interface Inrush {
  /** highest current, sign dropped [A] */
  readonly peak: number;
  /** when it flows [s] after closing */
  readonly peakTime: number;
  /** integral of the current squared to the end [A2.s] */
  readonly heating: number;
  /** left in the loop as heat [J] */
  readonly energy: number;
  readonly damping: 'no_inductance' | 'over' | 'critical' | 'under';
}

/**
 * Peak current and I²t of the equalising current after a contact closes on a partly charged capacitor.
 *
 * I²t = C dV²/(2R) whatever the inductance, because half of C dV² is left in the resistance.
 *
 * Range:   constant values, the source holds its voltage; contact bounce not included
 * Errors:  throws when resistance or capacitance is not > 0 or inductance < 0
 * Source:  [closed-form] series RLC step response
 * Checked: inrush.test.ts (stepwise integration)
 */
export function inrush(loop: InrushLoop): Inrush {
  const { resistance, inductance, capacitance } = loop;
  requirePositive({ resistance, capacitance });
  requireNotNegative({ inductance, difference: Math.abs(loop.difference) });
  const difference = Math.abs(loop.difference);
  const energy = (capacitance * difference ** 2) / 2;
  const heating = energy / resistance;
  if (inductance === 0) return { peak: difference / resistance, peakTime: 0, heating, energy, damping: 'no_inductance' };
  const decay = resistance / (2 * inductance);
  const natural = 1 / Math.sqrt(inductance * capacitance);
  // 1 - (natural/decay)²: positive over-, negative underdamped
  const spread = (1 - natural / decay) * (1 + natural / decay);
  if (Math.abs(spread) < 1e-10) return { peak: difference / (inductance * decay * Math.E), peakTime: 1 / decay, heating, energy, damping: 'critical' };
  if (spread < 0) {
    const ringing = decay * Math.sqrt(-spread);
    const peakTime = Math.atan2(ringing, decay) / ringing;
    return { peak: (difference / inductance / ringing) * Math.exp(-decay * peakTime) * Math.sin(ringing * peakTime), peakTime, heating, energy, damping: 'under' };
  }
  const split = decay * Math.sqrt(spread);
  // slow root written without cancelling: natural²/(decay + split)
  const fast = decay + split;
  const slow = natural ** 2 / fast;
  const peakTime = Math.log(fast / slow) / (fast - slow);
  return { peak: (difference / (inductance * (fast - slow))) * (Math.exp(-slow * peakTime) - Math.exp(-fast * peakTime)), peakTime, heating, energy, damping: 'over' };
}
