/** Small dense systems: some dozens of unknowns at the most. */

/** A pivot this much smaller than its row was is rounding only. */
const NOTHING = 1e-13;

/** Rows of `count` coefficients and a right side each, by elimination with row exchange. @returns undefined: no single solution */
export function eliminate(dense: Float64Array, count: number): Float64Array | undefined {
  const width = count + 1;
  const order = new Int32Array(count), scale = new Float64Array(count), solution = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    order[i] = i * width;
    let most = 0;
    for (let j = 0; j < count; j++) { const size = Math.abs(dense[i * width + j]!); if (size > most) most = size; }
    if (!(most > 0 && most < Infinity)) return undefined;
    scale[i] = most;
  }
  for (let c = 0; c < count; c++) {
    let best = c, most = -1;
    for (let r = c; r < count; r++) { const size = Math.abs(dense[order[r]! + c]!) / scale[order[r]! / width]!; if (size > most) { most = size; best = r; } }
    if (!(most > NOTHING)) return undefined;
    const pivot = order[best]!;
    order[best] = order[c]!;
    order[c] = pivot;
    for (let r = c + 1; r < count; r++) {
      const row = order[r]!;
      const share = dense[row + c]! / dense[pivot + c]!;
      if (share !== 0) for (let j = c + 1; j <= count; j++) dense[row + j]! -= share * dense[pivot + j]!;
    }
  }
  for (let c = count - 1; c >= 0; c--) {
    const row = order[c]!;
    let sum = dense[row + count]!;
    for (let j = c + 1; j < count; j++) sum -= dense[row + j]! * solution[j]!;
    solution[c] = sum / dense[row + c]!;
  }
  return solution;
}
