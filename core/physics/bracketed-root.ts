/**
 * Root of a continuous function between two points where its sign differs.
 *
 * Bisection guarded regula falsi (Illinois rule): always keeps the bracket, so it cannot leave it or diverge.
 *
 * @param valueAt    continuous on [low, high]
 * @param low, high  ends of the bracket; valueAt has opposite signs there (or is zero at one of them)
 * @returns the point; the bracket around it is no wider than about 1e-14 of its size
 * Errors:  throws when the ends have the same sign or a value is not finite
 * Checked: bracketed-root.test.ts
 */
export function bracketedRoot(valueAt: (point: number) => number, low: number, high: number): number {
  let a = low;
  let b = high;
  let valueA = finite(valueAt(a), a);
  let valueB = finite(valueAt(b), b);
  if (valueA === 0) return a;
  if (valueB === 0) return b;
  if (valueA > 0 === valueB > 0) throw new RangeError(`no sign change between ${low} and ${high} (${valueA}, ${valueB})`);
  for (let step = 0; step < 200; step += 1) {
    const width = Math.abs(b - a);
    if (width <= 1e-14 * Math.max(Math.abs(a), Math.abs(b)) || width === 0) break;
    // every third step halves the bracket, whatever the secant says
    let point = step % 3 === 2 ? (a + b) / 2 : b - (valueB * (b - a)) / (valueB - valueA);
    if (!(point > Math.min(a, b) && point < Math.max(a, b))) point = (a + b) / 2;
    if (point === a || point === b) break;
    const value = finite(valueAt(point), point);
    if (value === 0) return point;
    if (value > 0 === valueB > 0) valueA /= 2;
    else {
      a = b;
      valueA = valueB;
    }
    b = point;
    valueB = value;
  }
  return Math.abs(valueA) < Math.abs(valueB) ? a : b;
}

function finite(value: number, point: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`function value at ${point} is not finite`);
  return value;
}
