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

interface Places { readonly entries: Int32Array; readonly products: Int32Array }

/**
 * Factors of an unsymmetric sparse matrix, P A Q = L U, for many solutions with one pattern.
 *
 * The order of columns comes from `markowitzOrder` once; `factor` then works column by column (left-looking), each column
 * touching only what it reaches, with threshold partial pivoting; `refactor` repeats the arithmetic with pattern and pivots
 * kept, from a list of where each product goes, and falls back to `factor` when a pivot has become too small.
 * Source: J. R. Gilbert and T. Peierls, SIAM J. Sci. Stat. Comput. 9 (1988), the reach of a column.
 */
export class SparseLu {
  readonly #size: number;
  #order: EliminationOrder | undefined;
  #ready = false;
  // by column: U without its diagonal, the diagonal, L without its unit diagonal; `index` names elimination steps
  readonly #start: Int32Array;
  readonly #diagonalAt: Int32Array;
  /** 1 / pivot, by step */
  readonly #inverse: Float64Array;
  /** steps whose column of L is not empty */
  readonly #lowSteps: Int32Array;
  #lowCount = 0;
  #index = new Int32Array(256);
  #values = new Float64Array(256);
  readonly #pivotRow: Int32Array;
  readonly #stepOfRow: Int32Array;
  readonly #work: Float64Array;
  readonly #mark: Int32Array;
  readonly #stack: Int32Array;
  readonly #path: Int32Array;
  readonly #pathAt: Int32Array;
  /** for the pivots at hand: where each entry of the matrix goes, and each product in the order in which they are made */
  #places: Places | undefined;
  /** pivots to come back to, and whether others were taken since */
  #kept: { readonly start: Int32Array; readonly diagonalAt: Int32Array; readonly index: Int32Array; readonly pivotRow: Int32Array; readonly stepOfRow: Int32Array; readonly lowSteps: Int32Array; readonly lowCount: number; places: Places | undefined } | undefined;
  #isAway = false;

  /** @param order  from another factorisation of the same pattern; absent: found at the first `factor` */
  constructor(size: number, order?: EliminationOrder) {
    this.#size = size;
    this.#order = order;
    this.#start = new Int32Array(size + 1);
    this.#diagonalAt = new Int32Array(size);
    this.#inverse = new Float64Array(size);
    this.#lowSteps = new Int32Array(size);
    this.#pivotRow = new Int32Array(size).fill(-1);
    this.#stepOfRow = new Int32Array(size).fill(-1);
    this.#work = new Float64Array(size);
    this.#mark = new Int32Array(size).fill(-1);
    this.#stack = new Int32Array(size);
    this.#path = new Int32Array(size);
    this.#pathAt = new Int32Array(size);
  }

  get order(): EliminationOrder | undefined { return this.#order; }
  /** entries of L and U together */
  get fill(): number { return this.#start[this.#size]!; }

  /** Factors with fresh pivots. */
  factor(matrix: SparseMatrix): Factored {
    this.#order ??= markowitzOrder(matrix);
    const { columns, rows } = this.#order;
    const { columnStart, rowIndex, values } = matrix;
    const size = this.#size, work = this.#work, stepOfRow = this.#stepOfRow, stack = this.#stack, mark = this.#mark;
    stepOfRow.fill(-1);
    mark.fill(-1);
    this.#ready = false;
    this.#isAway = true;
    this.#places = undefined;
    let count = 0;
    for (let k = 0; k < size; k++) {
      const column = columns[k]!;
      this.#start[k] = count;
      const top = this.#reach(matrix, column, k);
      let scale = 0;
      for (let p = columnStart[column]!; p < columnStart[column + 1]!; p++) { work[rowIndex[p]!] = values[p]!; scale = Math.max(scale, Math.abs(values[p]!)); }
      this.#makeRoom(count + size - top + 1);
      const index = this.#index, v = this.#values;
      let largest = 0, largestRow = -1;
      for (let n = top; n < size; n++) {
        const row = stack[n]!;
        const step = stepOfRow[row]!;
        const x = work[row]!;
        if (step < 0) continue;
        index[count] = step;
        v[count++] = x;
        if (x === 0) continue;
        scale = Math.max(scale, Math.abs(x));
        // while factoring, L's indices are still rows
        for (let p = this.#diagonalAt[step]! + 1, end = this.#start[step + 1]!; p < end; p++) work[index[p]!]! -= v[p]! * x;
      }
      for (let n = top; n < size; n++) {
        const row = stack[n]!;
        if (stepOfRow[row]! < 0 && Math.abs(work[row]!) > largest) { largest = Math.abs(work[row]!); largestRow = row; }
      }
      if (largestRow < 0 || largest < NOTHING || largest < CANCELLED * scale) {
        for (let n = top; n < size; n++) work[stack[n]!] = 0;
        return { singularColumn: column, reused: false };
      }
      const wished = rows[k]!;
      const pivotRow = wished >= 0 && stepOfRow[wished]! < 0 && mark[wished] === k && Math.abs(work[wished]!) >= PIVOT_SHARE * largest ? wished : largestRow;
      const pivot = work[pivotRow]!;
      this.#diagonalAt[k] = count;
      index[count] = k;
      v[count++] = pivot;
      this.#inverse[k] = 1 / pivot;
      this.#pivotRow[k] = pivotRow;
      stepOfRow[pivotRow] = k;
      for (let n = top; n < size; n++) {
        const row = stack[n]!;
        if (stepOfRow[row]! < 0) { index[count] = row; v[count++] = work[row]! / pivot; }
        work[row] = 0;
      }
      this.#start[k + 1] = count;
    }
    this.#lowCount = 0;
    for (let k = 0; k < size; k++) {
      const first = this.#diagonalAt[k]! + 1, end = this.#start[k + 1]!;
      if (first < end) this.#lowSteps[this.#lowCount++] = k;
      for (let p = first; p < end; p++) this.#index[p] = stepOfRow[this.#index[p]!]!;
    }
    this.#ready = true;
    return { singularColumn: -1, reused: false };
  }

  /** Factors again after the values (never the pattern) changed; keeps pivots where it can. */
  refactor(matrix: SparseMatrix): Factored {
    if (!this.#ready) return this.factor(matrix);
    if (this.#places === undefined) {
      this.#places = this.#findPlaces(matrix);
      if (this.#kept !== undefined && !this.#isAway) this.#kept.places = this.#places;
    }
    const { entries, products } = this.#places;
    const v = this.#values, index = this.#index, start = this.#start, diagonalAt = this.#diagonalAt, values = matrix.values;
    v.fill(0, 0, start[this.#size]!);
    for (let p = 0; p < entries.length; p++) v[entries[p]!] = values[p]!;
    let product = 0;
    for (let k = 0; k < this.#size; k++) {
      const diagonal = diagonalAt[k]!;
      let scale = 0;
      for (let u = start[k]!; u < diagonal; u++) {
        const step = index[u]!;
        const x = v[u]!;
        const first = diagonalAt[step]! + 1, end = start[step + 1]!;
        if (x === 0) { product += end - first; continue; }
        if (x > scale) scale = x; else if (-x > scale) scale = -x;
        for (let p = first; p < end; p++) v[products[product++]!]! -= v[p]! * x;
      }
      const pivot = v[diagonal]!;
      const size = Math.abs(pivot);
      const most = size / REUSE_SHARE;
      if (size < NOTHING || size < CANCELLED * scale) return this.factor(matrix);
      const inverse = 1 / pivot;
      this.#inverse[k] = inverse;
      for (let p = diagonal + 1, end = start[k + 1]!; p < end; p++) {
        const x = v[p]!;
        if (x > most || x < -most) return this.factor(matrix);
        v[p] = x * inverse;
      }
    }
    return { singularColumn: -1, reused: true };
  }

  /** Keeps the pivots at hand, so that what follows does not depend on what is factored in between. */
  keepPivots(): void {
    if (!this.#ready) return;
    const count = this.fill;
    this.#kept = {
      start: this.#start.slice(), diagonalAt: this.#diagonalAt.slice(), index: this.#index.slice(0, count), pivotRow: this.#pivotRow.slice(),
      stepOfRow: this.#stepOfRow.slice(), lowSteps: this.#lowSteps.slice(), lowCount: this.#lowCount, places: this.#places,
    };
    this.#isAway = false;
  }

  /** Goes back to the pivots kept; `refactor` must follow. */
  takeKeptPivots(): void {
    const kept = this.#kept;
    if (kept === undefined || !this.#isAway) return;
    this.#makeRoom(kept.index.length);
    this.#start.set(kept.start);
    this.#diagonalAt.set(kept.diagonalAt);
    this.#index.set(kept.index);
    this.#pivotRow.set(kept.pivotRow);
    this.#stepOfRow.set(kept.stepOfRow);
    this.#lowSteps.set(kept.lowSteps);
    this.#lowCount = kept.lowCount;
    this.#places = kept.places;
    this.#isAway = false;
    this.#ready = true;
  }

  /** x = A^-1 right. `x` may be `right`. */
  solve(right: Float64Array, x: Float64Array): void {
    if (!this.#ready) throw new Error('solve needs a successful factor first');
    const size = this.#size, steps = this.#work, columns = this.#order!.columns;
    const v = this.#values, index = this.#index, start = this.#start, diagonalAt = this.#diagonalAt, pivotRow = this.#pivotRow, inverse = this.#inverse, lowSteps = this.#lowSteps;
    for (let k = 0; k < size; k++) steps[k] = right[pivotRow[k]!]!;
    for (let n = 0; n < this.#lowCount; n++) {
      const k = lowSteps[n]!;
      const y = steps[k]!;
      if (y === 0) continue;
      for (let p = diagonalAt[k]! + 1, end = start[k + 1]!; p < end; p++) steps[index[p]!]! -= v[p]! * y;
    }
    for (let k = size - 1; k >= 0; k--) {
      let z = steps[k]!;
      if (z !== 0) {
        z *= inverse[k]!;
        for (let p = start[k]!, diagonal = diagonalAt[k]!; p < diagonal; p++) steps[index[p]!]! -= v[p]! * z;
      }
      x[columns[k]!] = z;
    }
    steps.fill(0);
  }

  /** x = A^-T right. `x` may be `right`. */
  solveTransposed(right: Float64Array, x: Float64Array): void {
    if (!this.#ready) throw new Error('solveTransposed needs a successful factor first');
    const size = this.#size, steps = this.#work, columns = this.#order!.columns;
    const v = this.#values, index = this.#index, start = this.#start, diagonalAt = this.#diagonalAt;
    for (let k = 0; k < size; k++) {
      let sum = right[columns[k]!]!;
      for (let p = start[k]!, end = diagonalAt[k]!; p < end; p++) sum -= v[p]! * steps[index[p]!]!;
      steps[k] = sum / v[diagonalAt[k]!]!;
    }
    for (let k = size - 1; k >= 0; k--) {
      let sum = steps[k]!;
      for (let p = diagonalAt[k]! + 1, end = start[k + 1]!; p < end; p++) sum -= v[p]! * steps[index[p]!]!;
      steps[k] = sum;
    }
    for (let k = 0; k < size; k++) x[this.#pivotRow[k]!] = steps[k]!;
    steps.fill(0);
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

  #findPlaces(matrix: SparseMatrix): Places {
    const { columnStart, rowIndex } = matrix;
    const size = this.#size, index = this.#index, start = this.#start, diagonalAt = this.#diagonalAt, columns = this.#order!.columns;
    const entries = new Int32Array(rowIndex.length);
    let total = 0;
    for (let k = 0; k < size; k++) for (let u = start[k]!; u < diagonalAt[k]!; u++) total += start[index[u]! + 1]! - diagonalAt[index[u]!]! - 1;
    const products = new Int32Array(total);
    const at = new Int32Array(size);
    let product = 0;
    for (let k = 0; k < size; k++) {
      for (let p = start[k]!; p < start[k + 1]!; p++) at[index[p]!] = p;
      const column = columns[k]!;
      for (let p = columnStart[column]!; p < columnStart[column + 1]!; p++) entries[p] = at[this.#stepOfRow[rowIndex[p]!]!]!;
      for (let u = start[k]!; u < diagonalAt[k]!; u++) {
        const step = index[u]!;
        for (let p = diagonalAt[step]! + 1, end = start[step + 1]!; p < end; p++) products[product++] = at[index[p]!]!;
      }
    }
    return { entries, products };
  }

  /** Rows reached from a column of A through the columns of L, in an order in which they can be eliminated. */
  #reach(matrix: SparseMatrix, column: number, k: number): number {
    const { columnStart, rowIndex } = matrix;
    const mark = this.#mark, path = this.#path, pathAt = this.#pathAt, stack = this.#stack, stepOfRow = this.#stepOfRow, index = this.#index;
    let top = this.#size;
    for (let from = columnStart[column]!; from < columnStart[column + 1]!; from++) {
      if (mark[rowIndex[from]!] === k) continue;
      let depth = 0;
      path[0] = rowIndex[from]!;
      mark[path[0]!] = k;
      pathAt[0] = stepOfRow[path[0]!]! < 0 ? -1 : this.#diagonalAt[stepOfRow[path[0]!]!]! + 1;
      while (depth >= 0) {
        const row = path[depth]!;
        const step = stepOfRow[row]!;
        let down = false;
        if (step >= 0) {
          const end = this.#start[step + 1]!;
          for (let p = pathAt[depth]!; p < end; p++) {
            const next = index[p]!;
            if (mark[next] === k) continue;
            mark[next] = k;
            pathAt[depth] = p + 1;
            depth++;
            path[depth] = next;
            pathAt[depth] = stepOfRow[next]! < 0 ? -1 : this.#diagonalAt[stepOfRow[next]!]! + 1;
            down = true;
            break;
          }
        }
        if (!down) { stack[--top] = row; depth--; }
      }
    }
    return top;
  }

  #makeRoom(count: number): void {
    if (count <= this.#index.length) return;
    const index = new Int32Array(count * 2); index.set(this.#index); this.#index = index;
    const values = new Float64Array(count * 2); values.set(this.#values); this.#values = values;
  }
}
