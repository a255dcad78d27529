/** I²t of the usual pulse shapes. */
import { requireFinite, requireNotNegative, requirePositive } from './argument-rule.ts';

export type Pulse =
  | { readonly shape: 'square'; readonly peak: number; readonly time: number }
  /** straight from `from` to `to` */
  | { readonly shape: 'ramp'; readonly from: number; readonly to: number; readonly time: number }
  | { readonly shape: 'triangle'; readonly peak: number; readonly time: number }
  | { readonly shape: 'half_sine'; readonly peak: number; readonly time: number }
  /** from 0 with zero slope to the peak, or back */
  | { readonly shape: 'parabola'; readonly peak: number; readonly time: number }
  /** peak e^(-t/timeConstant), to the end */
  | { readonly shape: 'decay'; readonly peak: number; readonly timeConstant: number };

/**
 * Heating integral I²t of one pulse.
 *
 * @returns [A2.s]: square ip²t; ramp (ip² + ip ib + ib²)t/3; triangle ip²t/3; half sine ip²t/2; parabola ip²t/5; decay ip²tau/2
 * Errors:  throws when a time is not > 0 or a current is not finite
 * Source:  [fuse-maker-guides] chart 1; the decay is the exact integral (the chart's half-time form is an approximation)
 * Checked: pulse-heating.test.ts (numerical integration)
 */
export function pulseHeating(pulse: Pulse): number {
  if (pulse.shape === 'ramp') {
    requireFinite({ from: pulse.from, to: pulse.to });
    requirePositive({ time: pulse.time });
    return ((pulse.from ** 2 + pulse.from * pulse.to + pulse.to ** 2) * pulse.time) / 3;
  }
  requireNotNegative({ peak: pulse.peak });
  if (pulse.shape === 'decay') {
    requirePositive({ timeConstant: pulse.timeConstant });
    return (pulse.peak ** 2 * pulse.timeConstant) / 2;
  }
  requirePositive({ time: pulse.time });
  return pulse.peak ** 2 * pulse.time * shareOfSquare[pulse.shape];
}

const shareOfSquare = { square: 1, triangle: 1 / 3, half_sine: 1 / 2, parabola: 1 / 5 } as const;
