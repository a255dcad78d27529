/** The root between two ends of opposite sign, or why there is none to be found. */
export type Root = { readonly outcome: 'found'; readonly at: number; readonly iterations: number } | { readonly outcome: 'not_bracketed' };

/**
 * Root of a continuous function between two ends where it has opposite signs.
 *
 * Chandrupatla's method: inverse quadratic interpolation where three points promise that it lands inside, else halving. It always
 * keeps the bracket, so it cannot leave it or diverge; smooth functions take some ten values.
 *
 * @param tolerance  half-width of the interval the root is known to lie in, >= 0; rounding allows no less than about 1e-14 of its size
 * @returns `not_bracketed` when both ends have the same sign or a value is not finite
 * Source:  Chandrupatla 1997, Advances in Engineering Software 28, from memory
 * Checked: core/solve/roots.test.ts, core/solve/bracketed-root.test.ts
 */
export function rootBetween(f: (x: number) => number, low: number, high: number, tolerance: number): Root {
  // the root lies between a and b; c is the point before them
  let a = high;
  let b = low;
  let valueA = f(a);
  let valueB = f(b);
  if (valueB === 0) return { outcome: 'found', at: b, iterations: 0 };
  if (valueA === 0) return { outcome: 'found', at: a, iterations: 0 };
  if (!Number.isFinite(valueA) || !Number.isFinite(valueB) || valueA > 0 === valueB > 0) return { outcome: 'not_bracketed' };
  let share = 0.5;
  let iterations = 0;
  while (iterations < 200) {
    iterations++;
    const point = a + share * (b - a);
    const value = f(point);
    if (!Number.isFinite(value)) return { outcome: 'not_bracketed' };
    let [c, valueC] = [a, valueA];
    if (value > 0 !== valueA > 0) [c, valueC, b, valueB] = [b, valueB, a, valueA];
    [a, valueA] = [point, value];
    const best = Math.abs(valueA) < Math.abs(valueB) ? a : b;
    // half of the widest bracket that is let pass, as a share of the bracket there is
    const least = (0.5e-14 * Math.max(Math.abs(best), Number.MIN_VALUE) + tolerance) / Math.abs(b - a);
    if (value === 0 || !(least < 0.5)) return { outcome: 'found', at: value === 0 ? a : best, iterations };
    share = Math.min(1 - least, Math.max(least, interpolated(a, b, c, valueA, valueB, valueC)));
    if (a + share * (b - a) === a || a + share * (b - a) === b) return { outcome: 'found', at: best, iterations };
  }
  return { outcome: 'found', at: Math.abs(valueA) < Math.abs(valueB) ? a : b, iterations };
}

/** Where on the way from a to b the parabola through three values, read sideways, is zero; one half where it would not land inside. */
function interpolated(a: number, b: number, c: number, valueA: number, valueB: number, valueC: number): number {
  const xi = (a - b) / (c - b);
  const phi = (valueA - valueB) / (valueC - valueB);
  if (!(phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi)) return 0.5;
  return (valueA / (valueB - valueA)) * (valueC / (valueB - valueC)) + ((c - a) / (b - a)) * (valueA / (valueC - valueA)) * (valueB / (valueC - valueB));
}
