/**
 * Root of a continuous function between two points where its sign differs.
 *
 * Chandrupatla's method: inverse quadratic interpolation where three points promise that it lands inside, else halving. It always
 * keeps the bracket, so it cannot leave it or diverge; smooth functions take some ten values.
 *
 * @param valueAt    continuous on [low, high]
 * @param low, high  ends of the bracket; valueAt has opposite signs there (or is zero at one of them)
 * @returns the point; the bracket around it is no wider than about 1e-14 of its size
 * Errors:  throws when the ends have the same sign or a value is not finite
 * Source:  Chandrupatla 1997, Advances in Engineering Software 28, from memory
 * Checked: bracketed-root.test.ts
 */
export function bracketedRoot(valueAt: (point: number) => number, low: number, high: number): number {
  // the root lies between a and b; c is the point before them
  let a = high;
  let b = low;
  let valueA = finite(valueAt(a), a);
  let valueB = finite(valueAt(b), b);
  if (valueB === 0) return b;
  if (valueA === 0) return a;
  if (valueA > 0 === valueB > 0) throw new RangeError(`no sign change between ${low} and ${high} (${valueB}, ${valueA})`);
  let share = 0.5;
  for (let step = 0; step < 200; step += 1) {
    const point = a + share * (b - a);
    const value = finite(valueAt(point), point);
    let [c, valueC] = [a, valueA];
    if (value > 0 !== valueA > 0) [c, valueC, b, valueB] = [b, valueB, a, valueA];
    [a, valueA] = [point, value];
    const best = Math.abs(valueA) < Math.abs(valueB) ? a : b;
    // half of the widest bracket that is let pass, as a share of the bracket there is
    const least = (0.5e-14 * Math.max(Math.abs(best), Number.MIN_VALUE)) / Math.abs(b - a);
    if (value === 0 || !(least < 0.5)) return value === 0 ? a : best;
    share = Math.min(1 - least, Math.max(least, interpolated(a, b, c, valueA, valueB, valueC)));
    if (a + share * (b - a) === a || a + share * (b - a) === b) return best;
  }
  return Math.abs(valueA) < Math.abs(valueB) ? a : b;
}

/** Where on the way from a to b the parabola through three values, read sideways, is zero; one half where it would not land inside. */
function interpolated(a: number, b: number, c: number, valueA: number, valueB: number, valueC: number): number {
  const xi = (a - b) / (c - b);
  const phi = (valueA - valueB) / (valueC - valueB);
  if (!(phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi)) return 0.5;
  return (valueA / (valueB - valueA)) * (valueC / (valueB - valueC)) + ((c - a) / (b - a)) * (valueA / (valueC - valueA)) * (valueB / (valueC - valueB));
}

function finite(value: number, point: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`function value at ${point} is not finite`);
  return value;
}
