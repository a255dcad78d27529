/** What flows through an element, as far as it means anything. */
import type { RestSolved } from '../../solve/rest-result.ts';

/** Less flows only in the solver's rounding and through good insulation [A]; our choice. */
const NOTHING = 1e-6;

/** Size of the current through an element of the network [A]; 0 below 1 µA. */
export function currentThrough(solved: RestSolved, element: string): number {
  const current = Math.abs(solved.currentOf(element));
  return current < NOTHING ? 0 : current;
}
