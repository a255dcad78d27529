import { markowitzOrder, PIVOT_SHARE } from './markowitz-order.ts';
import type { EliminationOrder } from './markowitz-order.ts';
import { residualOf } from './sparse-matrix.ts';
import type { SparseMatrix } from './sparse-matrix.ts';

/** `singularColumn` is -1 when the factors are good, else the first column for which no pivot was left. */
export interface Factored { readonly singularColumn: number; readonly reused: boolean }

/** A reused pivot must be at least this share of the largest entry under it, or all is factored anew. */
const REUSE_SHARE = 0.01;
/** A pivot below this is nothing, whatever stands beside it. */
const NOTHING = 1e-200;
/** A pivot this much smaller than what it was computed from is rounding error only. */
const CANCELLED = 1e-14;

/**
 * Factors of an unsymmetric sparse matrix, P A Q = L U, for many solutions with one pattern.
 *
 * The order of columns comes from `markowitzOrder` once; `factor` then works column by column (left-looking), each column
 * touching only what it reaches, with threshold partial pivoting; `refactor` repeats the arithmetic with pattern and pivots
 * kept, and falls back to `factor` when a pivot has become too small.
 * Source: J. R. Gilbert and T. Peierls, SIAM J. Sci. Stat. Comput. 9 (1988), the reach of a column.
 */
export class SparseLu {
  readonly #size: number;
  #order: EliminationOrder | undefined;
  #ready = false;
  // L without its unit diagonal and U without its diagonal, by column; L's rows are rows of A, U's are elimination steps
  readonly #lowStart: Int32Array;
  #lowRow = new Int32Array(64);
  #low = new Float64Array(64);
  readonly #upStart: Int32Array;
  #upStep = new Int32Array(64);
  #up = new Float64Array(64);
  readonly #diagonal: Float64Array;
  readonly #pivotRow: Int32Array;
  readonly #stepOfRow: Int32Array;
  readonly #work: Float64Array;
  readonly #scratch: Float64Array;
  readonly #mark: Int32Array;
  readonly #stack: Int32Array;
  readonly #path: Int32Array;
  readonly #pathAt: Int32Array;

  /** @param order  from another factorisation of the same pattern; absent: found at the first `factor` */
  constructor(size: number, order?: EliminationOrder) {
    this.#size = size;
    this.#order = order;
    this.#lowStart = new Int32Array(size + 1);
    this.#upStart = new Int32Array(size + 1);
    this.#diagonal = new Float64Array(size);
    this.#pivotRow = new Int32Array(size).fill(-1);
    this.#stepOfRow = new Int32Array(size).fill(-1);
    this.#work = new Float64Array(size);
    this.#scratch = new Float64Array(size);
    this.#mark = new Int32Array(size).fill(-1);
    this.#stack = new Int32Array(size);
    this.#path = new Int32Array(size);
    this.#pathAt = new Int32Array(size);
  }

  get order(): EliminationOrder | undefined { return this.#order; }
  /** entries of L and U together */
  get fill(): number { return this.#lowStart[this.#size]! + this.#upStart[this.#size]! + this.#size; }

  /** Factors with fresh pivots. */
  factor(matrix: SparseMatrix): Factored {
    this.#order ??= markowitzOrder(matrix);
    const { columns, rows } = this.#order;
    const { columnStart, rowIndex, values } = matrix;
    const work = this.#work, stepOfRow = this.#stepOfRow, stack = this.#stack;
    stepOfRow.fill(-1);
    this.#mark.fill(-1);
    this.#ready = false;
    let lowCount = 0, upCount = 0;
    for (let k = 0; k < this.#size; k++) {
      const column = columns[k]!;
      this.#lowStart[k] = lowCount;
      this.#upStart[k] = upCount;
      const top = this.#reach(matrix, column, k);
      let scale = 0;
      for (let p = columnStart[column]!; p < columnStart[column + 1]!; p++) { work[rowIndex[p]!] = values[p]!; scale = Math.max(scale, Math.abs(values[p]!)); }
      this.#makeRoom(lowCount + this.#size - top, upCount + this.#size - top);
      const lowRow = this.#lowRow, low = this.#low;
      let largest = 0, largestRow = -1;
      for (let n = top; n < this.#size; n++) {
        const row = stack[n]!;
        const step = stepOfRow[row]!;
        const x = work[row]!;
        if (step < 0) {
          if (Math.abs(x) > largest) { largest = Math.abs(x); largestRow = row; }
          continue;
        }
        this.#upStep[upCount] = step;
        this.#up[upCount++] = x;
        if (x === 0) continue;
        scale = Math.max(scale, Math.abs(x));
        for (let p = this.#lowStart[step]!, end = this.#lowStart[step + 1]!; p < end; p++) work[lowRow[p]!]! -= low[p]! * x;
      }
      if (largestRow < 0 || largest < NOTHING || largest < CANCELLED * scale) {
        for (let n = top; n < this.#size; n++) work[stack[n]!] = 0;
        return { singularColumn: column, reused: false };
      }
      const wished = rows[k]!;
      const pivotRow = wished >= 0 && stepOfRow[wished]! < 0 && this.#mark[wished] === k && Math.abs(work[wished]!) >= PIVOT_SHARE * largest ? wished : largestRow;
      const pivot = work[pivotRow]!;
      this.#diagonal[k] = pivot;
      this.#pivotRow[k] = pivotRow;
      stepOfRow[pivotRow] = k;
      for (let n = top; n < this.#size; n++) {
        const row = stack[n]!;
        if (stepOfRow[row]! < 0) { lowRow[lowCount] = row; low[lowCount++] = work[row]! / pivot; }
        work[row] = 0;
      }
      this.#lowStart[k + 1] = lowCount;
      this.#upStart[k + 1] = upCount;
    }
    this.#ready = true;
    return { singularColumn: -1, reused: false };
  }

  /** Factors again after the values (never the pattern) changed; keeps pivots where it can. */
  refactor(matrix: SparseMatrix): Factored {
    if (!this.#ready) return this.factor(matrix);
    const columns = this.#order!.columns;
    const { columnStart, rowIndex, values } = matrix;
    const work = this.#work, lowStart = this.#lowStart, lowRow = this.#lowRow, low = this.#low;
    const upStart = this.#upStart, upStep = this.#upStep, up = this.#up, pivotRow = this.#pivotRow;
    for (let k = 0; k < this.#size; k++) {
      const column = columns[k]!;
      for (let p = columnStart[column]!, end = columnStart[column + 1]!; p < end; p++) work[rowIndex[p]!] = values[p]!;
      let scale = 0;
      for (let u = upStart[k]!, end = upStart[k + 1]!; u < end; u++) {
        const step = upStep[u]!;
        const row = pivotRow[step]!;
        const x = work[row]!;
        work[row] = 0;
        up[u] = x;
        if (x === 0) continue;
        if (x > scale) scale = x; else if (-x > scale) scale = -x;
        for (let p = lowStart[step]!, stop = lowStart[step + 1]!; p < stop; p++) work[lowRow[p]!]! -= low[p]! * x;
      }
      const row = pivotRow[k]!;
      const pivot = work[row]!;
      work[row] = 0;
      const size = Math.abs(pivot);
      const most = size / REUSE_SHARE;
      let small = size < NOTHING || size < CANCELLED * scale;
      for (let p = lowStart[k]!, end = lowStart[k + 1]!; p < end; p++) {
        const x = work[lowRow[p]!]!;
        work[lowRow[p]!] = 0;
        if (x > most || x < -most) small = true;
        low[p] = x / pivot;
      }
      if (small) return this.factor(matrix);
      this.#diagonal[k] = pivot;
    }
    return { singularColumn: -1, reused: true };
  }

  /** x = A^-1 right. `x` may be `right`. */
  solve(right: Float64Array, x: Float64Array): void {
    if (!this.#ready) throw new Error('solve needs a successful factor first');
    const size = this.#size, work = this.#work, steps = this.#scratch, columns = this.#order!.columns;
    const lowStart = this.#lowStart, lowRow = this.#lowRow, low = this.#low, pivotRow = this.#pivotRow;
    work.set(right);
    for (let k = 0; k < size; k++) {
      const y = work[pivotRow[k]!]!;
      steps[k] = y;
      if (y === 0) continue;
      for (let p = lowStart[k]!, end = lowStart[k + 1]!; p < end; p++) work[lowRow[p]!]! -= low[p]! * y;
    }
    const upStart = this.#upStart, upStep = this.#upStep, up = this.#up, diagonal = this.#diagonal;
    for (let k = size - 1; k >= 0; k--) {
      let z = steps[k]!;
      if (z !== 0) {
        z /= diagonal[k]!;
        for (let p = upStart[k]!, end = upStart[k + 1]!; p < end; p++) steps[upStep[p]!]! -= up[p]! * z;
      }
      x[columns[k]!] = z;
    }
    work.fill(0);
  }

  /** x = A^-T right. `x` may be `right`. */
  solveTransposed(right: Float64Array, x: Float64Array): void {
    if (!this.#ready) throw new Error('solveTransposed needs a successful factor first');
    const size = this.#size, steps = this.#scratch, columns = this.#order!.columns;
    for (let k = 0; k < size; k++) {
      let sum = right[columns[k]!]!;
      for (let p = this.#upStart[k]!, end = this.#upStart[k + 1]!; p < end; p++) sum -= this.#up[p]! * steps[this.#upStep[p]!]!;
      steps[k] = sum / this.#diagonal[k]!;
    }
    for (let k = size - 1; k >= 0; k--) {
      let sum = steps[k]!;
      for (let p = this.#lowStart[k]!, end = this.#lowStart[k + 1]!; p < end; p++) sum -= this.#low[p]! * steps[this.#stepOfRow[this.#lowRow[p]!]!]!;
      steps[k] = sum;
    }
    for (let k = 0; k < size; k++) x[this.#pivotRow[k]!] = steps[k]!;
  }

  /** One step of iterative refinement: x += A^-1 (right - A x). @returns the largest residual before the step */
  refine(matrix: SparseMatrix, right: Float64Array, x: Float64Array): number {
    const residual = new Float64Array(this.#size);
    residualOf(matrix, x, right, residual);
    let largest = 0;
    for (const r of residual) largest = Math.max(largest, Math.abs(r));
    if (largest > 0) {
      this.solve(residual, residual);
      for (let n = 0; n < this.#size; n++) x[n]! += residual[n]!;
    }
    return largest;
  }

  /** Rows reached from a column of A through the columns of L, in an order in which they can be eliminated. */
  #reach(matrix: SparseMatrix, column: number, k: number): number {
    const { columnStart, rowIndex } = matrix;
    const mark = this.#mark, path = this.#path, pathAt = this.#pathAt, stack = this.#stack, stepOfRow = this.#stepOfRow;
    let top = this.#size;
    for (let start = columnStart[column]!; start < columnStart[column + 1]!; start++) {
      if (mark[rowIndex[start]!] === k) continue;
      let depth = 0;
      path[0] = rowIndex[start]!;
      mark[path[0]!] = k;
      pathAt[0] = stepOfRow[path[0]!]! < 0 ? -1 : this.#lowStart[stepOfRow[path[0]!]!]!;
      while (depth >= 0) {
        const row = path[depth]!;
        const step = stepOfRow[row]!;
        let down = false;
        if (step >= 0) {
          const end = this.#lowStart[step + 1]!;
          for (let p = pathAt[depth]!; p < end; p++) {
            const next = this.#lowRow[p]!;
            if (mark[next] === k) continue;
            mark[next] = k;
            pathAt[depth] = p + 1;
            depth++;
            path[depth] = next;
            pathAt[depth] = stepOfRow[next]! < 0 ? -1 : this.#lowStart[stepOfRow[next]!]!;
            down = true;
            break;
          }
        }
        if (!down) { stack[--top] = row; depth--; }
      }
    }
    return top;
  }

  #makeRoom(lowCount: number, upCount: number): void {
    if (lowCount > this.#lowRow.length) {
      const room = lowCount * 2;
      const rows = new Int32Array(room); rows.set(this.#lowRow); this.#lowRow = rows;
      const numbers = new Float64Array(room); numbers.set(this.#low); this.#low = numbers;
    }
    if (upCount > this.#upStep.length) {
      const room = upCount * 2;
      const steps = new Int32Array(room); steps.set(this.#upStep); this.#upStep = steps;
      const numbers = new Float64Array(room); numbers.set(this.#up); this.#up = numbers;
    }
  }
}
