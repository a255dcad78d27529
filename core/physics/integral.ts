/**
 * Integral of a smooth function by adaptive Simpson's rule with Richardson's correction.
 *
 * @param valueAt    smooth on [low, high]
 * @param tolerance  relative to the integral of the absolute value
 * @returns the integral; with a bend inside the interval the halving stops at depth 40
 * Errors:  throws when a value is not finite
 * Checked: integral.test.ts
 */
export function integral(valueAt: (point: number) => number, low: number, high: number, tolerance = 1e-10): number {
  if (low === high) return 0;
  const at = (point: number): number => {
    const value = valueAt(point);
    if (!Number.isFinite(value)) throw new RangeError(`function value at ${point} is not finite`);
    return value;
  };
  const refine = (a: number, b: number, fa: number, fm: number, fb: number, whole: number, allowed: number, depth: number): number => {
    const middle = (a + b) / 2;
    const fl = at((a + middle) / 2);
    const fr = at((middle + b) / 2);
    const left = ((middle - a) / 6) * (fa + 4 * fl + fm);
    const right = ((b - middle) / 6) * (fm + 4 * fr + fb);
    const change = left + right - whole;
    if (depth <= 0 || Math.abs(change) <= 15 * allowed) return left + right + change / 15;
    return refine(a, middle, fa, fl, fm, left, allowed / 2, depth - 1) + refine(middle, b, fm, fr, fb, right, allowed / 2, depth - 1);
  };
  // sixteen panels first, so that a narrow feature is not missed and the scale of the answer is known
  const panels = 16;
  const width = (high - low) / panels;
  const points = Array.from({ length: 2 * panels + 1 }, (_, index) => at(low + (index * width) / 2));
  const scale = points.reduce((sum, value) => sum + Math.abs(value), 0) * Math.abs(width / 2);
  let total = 0;
  for (let panel = 0; panel < panels; panel += 1) {
    const [fa, fm, fb] = [points[2 * panel]!, points[2 * panel + 1]!, points[2 * panel + 2]!];
    total += refine(low + panel * width, low + (panel + 1) * width, fa, fm, fb, (width / 6) * (fa + 4 * fm + fb), (tolerance * scale) / panels, 40);
  }
  return total;
}
