/**
 * Hypotheses that no observation on offer can tell apart.
 */
import { endOf } from './forecast.ts';
import type { Forecast } from './forecast.ts';

/** Means this many standard deviations apart are told apart by one reading. */
const APART = 4;
/** Chances this far apart are told apart by asking. */
const CHANCE_APART = 0.5;

/** Whether some forecast tells one hypothesis from another. What one of them does not predict tells nothing. */
export function isTold(forecasts: readonly Forecast[], one: number, other: number): boolean {
  return forecasts.some((forecast) => {
    if (forecast.is === 'yes_no') return Math.abs(forecast.chances[one]! - forecast.chances[other]!) > CHANCE_APART;
    const [a, b] = [forecast.means[one]!, forecast.means[other]!];
    // what may be anywhere between two ends is told apart from what lies outside them
    return Math.max(a - endOf(forecast, other), b - endOf(forecast, one)) > APART * Math.max(forecast.spread(a), forecast.spread(b));
  });
}

/**
 * @param hypotheses  in order of their chance: each joins the first group whose first member nothing tells it from
 * @returns groups in the order of their first members
 */
export function groupsOf(forecasts: readonly Forecast[], hypotheses: readonly number[]): readonly (readonly number[])[] {
  const groups: number[][] = [];
  for (const hypothesis of hypotheses) {
    const group = groups.find(([first]) => !isTold(forecasts, first!, hypothesis));
    if (group) group.push(hypothesis);
    else groups.push([hypothesis]);
  }
  return groups;
}
