import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SparseLu } from './sparse-lu.ts';
import { residualOf, sparseMatrix } from './sparse-matrix.ts';

type Entries = [number, number, number][];

/** dense Gaussian elimination with partial pivoting: the plain method the sparse one is held against */
function denseSolve(size: number, entries: Entries, right: readonly number[]): number[] {
  const m = Array.from({ length: size }, (_, r) => [...new Array<number>(size).fill(0), right[r]!]);
  for (const [r, c, v] of entries) m[r]![c]! += v;
  for (let k = 0; k < size; k++) {
    let p = k;
    for (let r = k + 1; r < size; r++) if (Math.abs(m[r]![k]!) > Math.abs(m[p]![k]!)) p = r;
    [m[k], m[p]] = [m[p]!, m[k]!];
    for (let r = k + 1; r < size; r++) {
      const f = m[r]![k]! / m[k]![k]!;
      for (let c = k; c <= size; c++) m[r]![c]! -= f * m[k]![c]!;
    }
  }
  const x = new Array<number>(size).fill(0);
  for (let k = size - 1; k >= 0; k--) {
    let s = m[k]![size]!;
    for (let c = k + 1; c < size; c++) s -= m[k]![c]! * x[c]!;
    x[k] = s / m[k]![k]!;
  }
  return x;
}

function solve(size: number, entries: Entries, right: readonly number[]): number[] {
  const lu = new SparseLu(size);
  expect(lu.factor(sparseMatrix(size, entries)).singularColumn).toBe(-1);
  const x = new Float64Array(size);
  lu.solve(Float64Array.from(right), x);
  return [...x];
}

/** a random matrix with a permuted heavy diagonal: never singular, never in a kind order */
const randomSystem = fc.integer({ min: 1, max: 40 }).chain((size) => fc.record({
  size: fc.constant(size),
  shift: fc.integer({ min: 0, max: size - 1 }),
  entries: fc.array(fc.tuple(fc.integer({ min: 0, max: size - 1 }), fc.integer({ min: 0, max: size - 1 }), fc.double({ min: -1, max: 1, noNaN: true })), { maxLength: size * 3 }),
  right: fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: size, maxLength: size }),
})).map(({ size, shift, entries, right }) => ({
  size, right, entries: [...entries, ...Array.from({ length: size }, (_, c): [number, number, number] => [(c + shift) % size, c, 3 * size])] as Entries,
}));

describe('sparse LU', () => {
  it('solves the empty system', () => { expect(solve(0, [], [])).toEqual([]); });
  it('solves one unknown', () => { expect(solve(1, [[0, 0, 4]], [2])).toEqual([0.5]); });
  it('pivots when the diagonal is zero', () => { expect(solve(2, [[0, 1, 2], [1, 0, 4]], [6, 8])).toEqual([2, 3]); });
  it('names the column that has no pivot left', () => {
    expect(new SparseLu(3).factor(sparseMatrix(3, [[0, 0, 1], [1, 1, 1], [0, 2, 0]])).singularColumn).toBe(2);
    const twin = new SparseLu(2).factor(sparseMatrix(2, [[0, 0, 1], [0, 1, 2], [1, 0, 2], [1, 1, 4]]));
    expect(twin.singularColumn).toBeGreaterThanOrEqual(0);
  });
  it('refuses to solve before a factorisation', () => { expect(() => new SparseLu(1).solve(new Float64Array(1), new Float64Array(1))).toThrow(/factor first/); });
  it('gives the parabola of the uniform second-difference matrix', () => {
    const n = 200;
    const entries: Entries = [];
    for (let k = 0; k < n; k++) { entries.push([k, k, 2]); if (k > 0) entries.push([k, k - 1, -1], [k - 1, k, -1]); }
    const x = solve(n, entries, new Array<number>(n).fill(1));
    // closed form: x_k = (k + 1)(n - k) / 2
    x.forEach((value, k) => { expect(value / ((k + 1) * (n - k) / 2)).toBeCloseTo(1, 10); });
  });
  it('keeps the fill of a chain at the size of the chain', () => {
    const n = 300;
    const entries: Entries = [];
    for (let k = 0; k < n; k++) { entries.push([k, k, 2]); if (k > 0) entries.push([k, k - 1, -1], [k - 1, k, -1]); }
    const lu = new SparseLu(n);
    lu.factor(sparseMatrix(n, entries));
    expect(lu.fill).toBeLessThanOrEqual(3 * n);
  });
  it('agrees with dense elimination on random systems', () => {
    fc.assert(fc.property(randomSystem, ({ size, entries, right }) => {
      const sparse = solve(size, entries, right);
      denseSolve(size, entries, right).forEach((x, n) => { expect(Math.abs(sparse[n]! - x)).toBeLessThan(1e-10 * (1 + Math.abs(x))); });
    }), { seed: 11 });
  });
  it('solves the transposed system', () => {
    fc.assert(fc.property(randomSystem, ({ size, entries, right }) => {
      const lu = new SparseLu(size);
      lu.factor(sparseMatrix(size, entries));
      const x = new Float64Array(size);
      lu.solveTransposed(Float64Array.from(right), x);
      denseSolve(size, entries.map(([r, c, v]) => [c, r, v]), right).forEach((value, n) => { expect(Math.abs(x[n]! - value)).toBeLessThan(1e-10 * (1 + Math.abs(value))); });
    }), { seed: 12 });
  });
  it('factors again with other values and gives the same as from scratch', () => {
    fc.assert(fc.property(randomSystem, fc.array(fc.double({ min: 0.5, max: 2, noNaN: true }), { minLength: 170, maxLength: 170 }), ({ size, entries, right }, factors) => {
      const lu = new SparseLu(size);
      const matrix = sparseMatrix(size, entries);
      lu.factor(matrix);
      for (let p = 0; p < matrix.values.length; p++) matrix.values[p]! *= factors[p % factors.length]!;
      expect(lu.refactor(matrix).singularColumn).toBe(-1);
      const x = new Float64Array(size), residual = new Float64Array(size);
      const b = Float64Array.from(right);
      lu.solve(b, x);
      lu.refine(matrix, b, x);
      residualOf(matrix, x, b, residual);
      for (const r of residual) expect(Math.abs(r)).toBeLessThan(1e-10);
    }), { seed: 13 });
  });
  it('takes new pivots when a kept one has become zero', () => {
    const matrix = sparseMatrix(2, [[0, 0, 1], [0, 1, 0], [1, 0, 0], [1, 1, 1]]);
    const lu = new SparseLu(2);
    lu.factor(matrix);
    matrix.values.set([0, 2, 4, 0]); // column by column: now [[0, 4], [2, 0]]
    expect(lu.refactor(matrix)).toEqual({ singularColumn: -1, reused: false });
    const x = new Float64Array(2);
    lu.solve(Float64Array.from([4, 6]), x);
    expect([...x]).toEqual([3, 1]);
  });
  it('goes back to kept pivots, and then gives to the last bit what it gave with them', () => {
    fc.assert(fc.property(randomSystem, fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 170, maxLength: 170 }), ({ size, entries, right }, other) => {
      const lu = new SparseLu(size);
      const matrix = sparseMatrix(size, entries), values = matrix.values.slice();
      lu.factor(matrix);
      lu.keepPivots();
      const solved = (): number[] => { lu.refactor(matrix); const x = new Float64Array(size); lu.solve(Float64Array.from(right), x); return [...x]; };
      const before = solved();
      // other values take other pivots, or none
      for (let p = 0; p < matrix.values.length; p++) matrix.values[p] = other[p % other.length]!;
      lu.refactor(matrix);
      matrix.values.set(values);
      lu.takeKeptPivots();
      expect(solved()).toEqual(before);
    }), { seed: 14 });
  });
});
