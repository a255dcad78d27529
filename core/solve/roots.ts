/** The root between two ends of opposite sign, or why there is none to be found. */
export type Root = { readonly outcome: 'found'; readonly at: number; readonly iterations: number } | { readonly outcome: 'not_bracketed' };

/**
 * Root of a continuous function between two ends where it has opposite signs.
 *
 * @param tolerance  half-width of the interval the root is known to lie in, >= 0
 * @returns `not_bracketed` when both ends have the same sign or a value is not finite
 * Source:  R. P. Brent, Algorithms for Minimization without Derivatives (1973), chapter 4, the zero finder (from memory)
 * Checked: core/solve/roots.test.ts
 */
export function rootBetween(f: (x: number) => number, low: number, high: number, tolerance: number): Root {
  let a = low, b = high, fa = f(a), fb = f(b);
  if (fa === 0) return { outcome: 'found', at: a, iterations: 0 };
  if (fb === 0) return { outcome: 'found', at: b, iterations: 0 };
  if (!Number.isFinite(fa) || !Number.isFinite(fb) || fa > 0 === fb > 0) return { outcome: 'not_bracketed' };
  let c = a, fc = fa, last = b - a, before = last;
  for (let iterations = 1; iterations <= 300; iterations++) {
    if (fb > 0 === fc > 0) { c = a; fc = fa; last = before = b - a; }
    if (Math.abs(fc) < Math.abs(fb)) { a = b; b = c; c = a; fa = fb; fb = fc; fc = fa; }
    const close = 2 * Number.EPSILON * Math.abs(b) + tolerance;
    const half = (c - b) / 2;
    if (Math.abs(half) <= close || fb === 0) return { outcome: 'found', at: b, iterations };
    if (Math.abs(before) >= close && Math.abs(fa) > Math.abs(fb)) {
      const s = fb / fa;
      let p: number, q: number;
      if (a === c) { p = 2 * half * s; q = 1 - s; }
      else {
        const r = fb / fc, t = fa / fc;
        p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q; else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(close * q), Math.abs(before * q))) { before = last; last = p / q; }
      else { last = half; before = half; }
    } else { last = half; before = half; }
    a = b;
    fa = fb;
    b += Math.abs(last) > close ? last : close * Math.sign(half);
    fb = f(b);
    if (!Number.isFinite(fb)) return { outcome: 'not_bracketed' };
  }
  return { outcome: 'found', at: b, iterations: 300 };
}
