/**
 * A square sparse matrix, stored column by column, whose pattern is laid out once and whose values change often.
 *
 * Invariants: `columnStart` has size + 1 entries; the entries of column c are at columnStart[c] .. columnStart[c + 1] - 1;
 * rows are ascending inside a column and occur once; an entry may hold the value 0 (a place kept for later).
 */
export interface SparseMatrix {
  readonly size: number;
  readonly columnStart: Int32Array;
  readonly rowIndex: Int32Array;
  readonly values: Float64Array;
}

/** Collects the places of a matrix; the same place asked for twice is the same place. */
export class PatternBuilder {
  readonly #size: number;
  readonly #handleOf = new Map<number, number>();

  constructor(size: number) {
    if (!Number.isInteger(size) || size < 0) throw new Error(`a matrix size must be a whole number >= 0, got ${size}`);
    this.#size = size;
  }

  /** Asks for a place; returns its handle, which `build` turns into an index of `values`. */
  place(row: number, column: number): number {
    if (row < 0 || column < 0 || row >= this.#size || column >= this.#size) throw new Error(`place (${row}, ${column}) lies outside a matrix of size ${this.#size}`);
    const key = column * this.#size + row;
    const known = this.#handleOf.get(key);
    if (known !== undefined) return known;
    const handle = this.#handleOf.size;
    this.#handleOf.set(key, handle);
    return handle;
  }

  /** @returns the matrix, all zero, and for each handle its index in `values` */
  build(): { readonly matrix: SparseMatrix; readonly indexOf: Int32Array } {
    const size = this.#size;
    const keys = Float64Array.from(this.#handleOf.keys()).sort();
    const columnStart = new Int32Array(size + 1);
    const rowIndex = new Int32Array(keys.length);
    const indexOf = new Int32Array(keys.length);
    keys.forEach((key, index) => {
      const column = Math.floor(key / size);
      rowIndex[index] = key - column * size;
      columnStart[column + 1]!++;
      indexOf[this.#handleOf.get(key)!] = index;
    });
    for (let c = 0; c < size; c++) columnStart[c + 1]! += columnStart[c]!;
    return { matrix: { size, columnStart, rowIndex, values: new Float64Array(keys.length) }, indexOf };
  }
}

/** A matrix from its entries; entries at the same place are summed. */
export function sparseMatrix(size: number, entries: readonly (readonly [row: number, column: number, value: number])[]): SparseMatrix {
  const builder = new PatternBuilder(size);
  const handles = entries.map(([row, column]) => builder.place(row, column));
  const { matrix, indexOf } = builder.build();
  entries.forEach(([, , value], n) => { matrix.values[indexOf[handles[n]!]!]! += value; });
  return matrix;
}

/** residual = right - matrix * x, written into `residual`. */
export function residualOf(matrix: SparseMatrix, x: Float64Array, right: Float64Array, residual: Float64Array): void {
  const { size, columnStart, rowIndex, values } = matrix;
  residual.set(right);
  for (let c = 0; c < size; c++) {
    const xc = x[c]!;
    if (xc === 0) continue;
    for (let p = columnStart[c]!, end = columnStart[c + 1]!; p < end; p++) residual[rowIndex[p]!]! -= values[p]! * xc;
  }
}
