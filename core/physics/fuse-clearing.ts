/**
 * A fuse in a shorted direct-current loop: when it melts, and how far the current has risen by then.
 */
import { requireNotNegative, requirePositive } from './argument-rule.ts';
import { bracketedRoot } from '../solve/bracketed-root.ts';

export interface FaultLoop {
  /** open-circuit voltage [V] */
  readonly voltage: number;
  /** of the whole loop, the fuse itself too [ohm] */
  readonly resistance: number;
  /** [H], 0 allowed */
  readonly inductance: number;
}

export type Melting =
  | {
      readonly outcome: 'melts';
      /** [s] from the start of the fault */
      readonly time: number;
      /** current when it melts [A]: the highest that flows */
      readonly peak: number;
      /** what would flow without the fuse [A] */
      readonly prospective: number;
    }
  /** so slow that heat leaves the element and its short-time I²t does not hold: the true time is at least `atLeast` */
  | { readonly outcome: 'too_slow'; readonly atLeast: number; readonly prospective: number };

/**
 * Longest melting time for which a fuse's I²t counts as constant [s]; common practice, no source: makers state it for times up to
 * 10 ms, in which no heat leaves any element.
 */
export const CONSTANT_HEATING_LIMIT = 0.01;

/**
 * Time until a fault has put a fuse's pre-arcing I²t through it, from i(t) = (V/R)(1 - e^(-tR/L)).
 *
 * @param meltingEnergy  pre-arcing (melting) I²t of the fuse [A2.s]
 * @returns melting time and peak current, or `too_slow`
 * Range:   constant voltage, resistance and inductance; no heat leaves the element
 * Source:  [closed-form] the integral is solved for t in the bracket I²t/Ip² .. I²t/Ip² + 1.5 L/R
 * Checked: checks/reference/fuse-factors.fuse-maker-guides.check.ts; fuse-clearing.test.ts (numerical integration)
 */
export function fuseMelting(loop: FaultLoop, meltingEnergy: number): Melting {
  requirePositive({ voltage: loop.voltage, resistance: loop.resistance, meltingEnergy });
  requireNotNegative({ inductance: loop.inductance });
  const prospective = loop.voltage / loop.resistance;
  const squareTime = meltingEnergy / prospective ** 2;
  const timeConstant = loop.inductance / loop.resistance;
  const time = timeConstant === 0 ? squareTime : timeConstant * risingTime(squareTime / timeConstant);
  if (time > CONSTANT_HEATING_LIMIT) return { outcome: 'too_slow', atLeast: time, prospective };
  const peak = timeConstant === 0 ? prospective : -prospective * Math.expm1(-time / timeConstant);
  return { outcome: 'melts', time, peak, prospective };
}

/** I²t that a fault has put through the loop after a time [A2.s]. Source: [closed-form]. */
export function faultHeating(loop: FaultLoop, time: number): number {
  requirePositive({ voltage: loop.voltage, resistance: loop.resistance });
  requireNotNegative({ inductance: loop.inductance, time });
  const prospective = loop.voltage / loop.resistance;
  const timeConstant = loop.inductance / loop.resistance;
  return timeConstant === 0 ? prospective ** 2 * time : prospective ** 2 * timeConstant * risingShare(time / timeConstant);
}

export type LetThrough =
  | { readonly outcome: 'let_through'; readonly energy: number; readonly from: 'clearing' | 'prospective' }
  /** the clearing I²t of the fuse is not known */
  | { readonly outcome: 'needs_clearing_energy' };

/**
 * I²t that reaches the cable behind a fuse: its clearing I²t, or less when another device ends the fault sooner.
 *
 * @param clearingEnergy  total (operating) I²t of the fuse at the loop's voltage [A2.s]; undefined: not known
 * @param endsAfter       time after which something else ends the fault [s]; undefined: nothing does
 */
export function letThrough(loop: FaultLoop, clearingEnergy: number | undefined, endsAfter: number | undefined): LetThrough {
  const untilEnd = endsAfter === undefined ? undefined : faultHeating(loop, endsAfter);
  if (untilEnd !== undefined && (clearingEnergy === undefined || untilEnd < clearingEnergy)) return { outcome: 'let_through', energy: untilEnd, from: 'prospective' };
  if (clearingEnergy === undefined) return { outcome: 'needs_clearing_energy' };
  requirePositive({ clearingEnergy });
  return { outcome: 'let_through', energy: clearingEnergy, from: 'clearing' };
}

/**
 * Arcing time from melting to zero, when the current falls in a straight line from its peak: 3 (clearing - melting I²t) / peak².
 *
 * @returns [s]; an estimate: the real fall bends
 * Source:  [closed-form] triangle pulse
 */
export function arcingTime(meltingEnergy: number, clearingEnergy: number, peak: number): number {
  requirePositive({ meltingEnergy, clearingEnergy, peak });
  if (clearingEnergy < meltingEnergy) throw new RangeError(`clearing I²t ${clearingEnergy} must not be below the melting I²t ${meltingEnergy}`);
  return (3 * (clearingEnergy - meltingEnergy)) / peak ** 2;
}

/** x with risingShare(x) = target; the share lies between x - 1.5 and x. */
function risingTime(target: number): number {
  // 2, not 1.5: for a slow melt the share is x - 1.5 to the last bit, and rounding must not push the end below the target
  return bracketedRoot((x) => risingShare(x) - target, 0, target + 2);
}

/** Integral of (1 - e^(-s))² from 0 to x: x - 2(1 - e^(-x)) + (1 - e^(-2x))/2. */
function risingShare(x: number): number {
  if (x > 0.1) return x + 2 * Math.expm1(-x) - Math.expm1(-2 * x) / 2;
  // series: the sum over n >= 3 of (-1)^(n+1) (2^(n-1) - 2) x^n / n!
  let power = x * x;
  let factorial = 2;
  let sum = 0;
  for (let n = 3; n <= 14; n += 1) {
    power *= x;
    factorial *= n;
    sum += ((n % 2 === 1 ? 1 : -1) * (2 ** (n - 1) - 2) * power) / factorial;
  }
  return sum;
}
