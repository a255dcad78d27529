import { rootBetween } from './roots.ts';

/**
 * Root of a continuous function between two points where its sign is known to differ, as far as numbers go.
 *
 * @param valueAt    continuous on [low, high]
 * @param low, high  ends of the bracket; valueAt has opposite signs there (or is zero at one of them)
 * @returns the point; the bracket around it is no wider than about 1e-14 of its size
 * Errors:  throws when the ends have the same sign or a value is not finite: the caller has promised otherwise
 * Source:  as `rootBetween`
 * Checked: bracketed-root.test.ts
 */
export function bracketedRoot(valueAt: (point: number) => number, low: number, high: number): number {
  const root = rootBetween(valueAt, low, high, 0);
  if (root.outcome === 'found') return root.at;
  const [first, last] = [valueAt(low), valueAt(high)];
  if (Number.isFinite(first) && Number.isFinite(last) && first > 0 === last > 0) throw new RangeError(`no sign change between ${low} and ${high} (${first}, ${last})`);
  throw new RangeError(`a function value between ${low} and ${high} is not finite`);
}
