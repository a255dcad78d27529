import type { SparseMatrix } from './sparse-matrix.ts';

/** In which order to eliminate: step k takes column `columns[k]` and, if its number is large enough, row `rows[k]`. */
export interface EliminationOrder { readonly columns: Int32Array; readonly rows: Int32Array }

/** An entry may be a pivot when it is at least this share of the largest in its column. */
export const PIVOT_SHARE = 0.1;
const COLUMNS_TRIED = 4;
const LENGTHS_TRIED = 5;

/**
 * Order of elimination that keeps a sparse matrix sparse: at each step the entry, large enough to be a pivot,
 * with the smallest (row count - 1) * (column count - 1), looked for in a few of the shortest columns.
 *
 * @param matrix  with the values of a typical state; places holding 0 count as filled but cannot be pivots
 * @returns a full order even for a singular matrix (columns without a pivot come last)
 * Source:  H. M. Markowitz, Management Science 3 (1957), the product rule; threshold pivoting as commonly used
 */
export function markowitzOrder(matrix: SparseMatrix): EliminationOrder {
  const { size } = matrix;
  const active = new ActiveMatrix(matrix);
  const columns = new Int32Array(size), rows = new Int32Array(size).fill(-1);
  const withoutPivot: number[] = [];
  let step = 0;
  for (let taken = 0; taken < size; taken++) {
    const { row, column } = active.choosePivot();
    if (row < 0) {
      withoutPivot.push(column);
      active.dropColumn(column);
    } else {
      columns[step] = column;
      rows[step++] = row;
      active.eliminate(row, column);
    }
  }
  for (const column of withoutPivot) columns[step++] = column;
  return { columns, rows };
}

/** What is left to eliminate: entries linked along their rows and columns, columns linked by how many entries they have. */
class ActiveMatrix {
  readonly #size: number;
  #row: Int32Array; #column: Int32Array; #value: Float64Array;
  #rowNext: Int32Array; #rowBefore: Int32Array; #columnNext: Int32Array; #columnBefore: Int32Array;
  #count = 0;
  readonly #rowFirst: Int32Array; readonly #rowCount: Int32Array;
  readonly #columnFirst: Int32Array; readonly #columnCount: Int32Array;
  /** columns by their number of entries */
  readonly #lengthFirst: Int32Array; readonly #lengthNext: Int32Array; readonly #lengthBefore: Int32Array;
  /** entry of the row at hand in each column */
  readonly #entryIn: Int32Array;

  constructor({ size, columnStart, rowIndex, values }: SparseMatrix) {
    this.#size = size;
    const room = 3 * rowIndex.length + 64;
    const make = (length: number): Int32Array => new Int32Array(length).fill(-1);
    this.#row = make(room); this.#column = make(room); this.#value = new Float64Array(room);
    this.#rowNext = make(room); this.#rowBefore = make(room); this.#columnNext = make(room); this.#columnBefore = make(room);
    this.#rowFirst = make(size); this.#rowCount = new Int32Array(size);
    this.#columnFirst = make(size); this.#columnCount = new Int32Array(size);
    this.#lengthFirst = make(size + 1); this.#lengthNext = make(size); this.#lengthBefore = make(size);
    this.#entryIn = make(size);
    for (let c = size - 1; c >= 0; c--) {
      for (let p = columnStart[c + 1]! - 1; p >= columnStart[c]!; p--) this.#insert(rowIndex[p]!, c, values[p]!);
      this.#file(c);
    }
  }

  /** @returns row -1 when the column has nothing left to pivot on */
  choosePivot(): { row: number; column: number } {
    let row = -1, column = -1, hopeless = -1, cost = Infinity, bestSize = 0, tried = 0, lengths = 0;
    for (let length = 0; length <= this.#size && tried < COLUMNS_TRIED && lengths < LENGTHS_TRIED; length++) {
      if (lengths > 0) lengths++;
      for (let c = this.#lengthFirst[length]!; c >= 0; c = this.#lengthNext[c]!) {
        if (lengths === 0) lengths = 1;
        if (length === 0) return { row: -1, column: c };
        let largest = 0;
        for (let e = this.#columnFirst[c]!; e >= 0; e = this.#columnNext[e]!) { const amount = Math.abs(this.#value[e]!); if (amount > largest) largest = amount; }
        if (largest === 0) { if (hopeless < 0) hopeless = c; continue; }
        for (let e = this.#columnFirst[c]!; e >= 0; e = this.#columnNext[e]!) {
          const amount = Math.abs(this.#value[e]!);
          if (amount < PIVOT_SHARE * largest) continue;
          const own = (this.#rowCount[this.#row[e]!]! - 1) * (length - 1);
          if (own < cost || (own === cost && amount > bestSize)) { row = this.#row[e]!; column = c; cost = own; bestSize = amount; }
        }
        if (cost === 0 || ++tried >= COLUMNS_TRIED) return { row, column };
      }
    }
    if (row >= 0) return { row, column };
    return hopeless >= 0 ? { row: -1, column: hopeless } : this.#anyColumn();
  }

  eliminate(pivotRow: number, pivotColumn: number): void {
    const entryIn = this.#entryIn;
    let pivot = 0;
    for (let e = this.#rowFirst[pivotRow]!; e >= 0; e = this.#rowNext[e]!) {
      if (this.#column[e] === pivotColumn) pivot = this.#value[e]!;
      this.#unfile(this.#column[e]!);
      this.#unlinkFromColumn(e);
    }
    for (let own = this.#columnFirst[pivotColumn]!; own >= 0; own = this.#columnNext[own]!) {
      const row = this.#row[own]!;
      const factor = this.#value[own]! / pivot;
      this.#unlinkFromRow(own);
      for (let e = this.#rowFirst[row]!; e >= 0; e = this.#rowNext[e]!) entryIn[this.#column[e]!] = e;
      for (let e = this.#rowFirst[pivotRow]!; e >= 0; e = this.#rowNext[e]!) {
        const column = this.#column[e]!;
        if (column === pivotColumn) continue;
        const known = entryIn[column]!;
        if (known >= 0) this.#value[known]! -= factor * this.#value[e]!; else this.#insert(row, column, -factor * this.#value[e]!);
      }
      for (let e = this.#rowFirst[row]!; e >= 0; e = this.#rowNext[e]!) entryIn[this.#column[e]!] = -1;
    }
    for (let e = this.#rowFirst[pivotRow]!; e >= 0; e = this.#rowNext[e]!) if (this.#column[e] !== pivotColumn) this.#file(this.#column[e]!);
  }

  dropColumn(column: number): void {
    this.#unfile(column);
    for (let e = this.#columnFirst[column]!; e >= 0; e = this.#columnNext[e]!) this.#unlinkFromRow(e);
  }

  #anyColumn(): { row: number; column: number } {
    for (let length = 0; length <= this.#size; length++) if (this.#lengthFirst[length]! >= 0) return { row: -1, column: this.#lengthFirst[length]! };
    throw new Error('no column is left to choose from');
  }

  #insert(row: number, column: number, value: number): void {
    if (this.#count === this.#row.length) this.#grow();
    const e = this.#count++;
    this.#row[e] = row; this.#column[e] = column; this.#value[e] = value;
    const nextInRow = this.#rowFirst[row]!, nextInColumn = this.#columnFirst[column]!;
    this.#rowNext[e] = nextInRow; this.#rowBefore[e] = -1; this.#rowFirst[row] = e;
    if (nextInRow >= 0) this.#rowBefore[nextInRow] = e;
    this.#columnNext[e] = nextInColumn; this.#columnBefore[e] = -1; this.#columnFirst[column] = e;
    if (nextInColumn >= 0) this.#columnBefore[nextInColumn] = e;
    this.#rowCount[row]!++;
    this.#columnCount[column]!++;
  }

  #unlinkFromRow(e: number): void {
    const before = this.#rowBefore[e]!, next = this.#rowNext[e]!, row = this.#row[e]!;
    if (before >= 0) this.#rowNext[before] = next; else this.#rowFirst[row] = next;
    if (next >= 0) this.#rowBefore[next] = before;
    this.#rowCount[row]!--;
  }

  #unlinkFromColumn(e: number): void {
    const before = this.#columnBefore[e]!, next = this.#columnNext[e]!, column = this.#column[e]!;
    if (before >= 0) this.#columnNext[before] = next; else this.#columnFirst[column] = next;
    if (next >= 0) this.#columnBefore[next] = before;
    this.#columnCount[column]!--;
  }

  #file(column: number): void {
    const length = this.#columnCount[column]!, next = this.#lengthFirst[length]!;
    this.#lengthNext[column] = next; this.#lengthBefore[column] = -1; this.#lengthFirst[length] = column;
    if (next >= 0) this.#lengthBefore[next] = column;
  }

  /** The column must still have the number of entries it was filed under. */
  #unfile(column: number): void {
    const before = this.#lengthBefore[column]!, next = this.#lengthNext[column]!;
    if (before >= 0) this.#lengthNext[before] = next; else this.#lengthFirst[this.#columnCount[column]!] = next;
    if (next >= 0) this.#lengthBefore[next] = before;
  }

  #grow(): void {
    const wider = (old: Int32Array): Int32Array => { const made = new Int32Array(2 * old.length); made.set(old); return made; };
    this.#row = wider(this.#row); this.#column = wider(this.#column);
    this.#rowNext = wider(this.#rowNext); this.#rowBefore = wider(this.#rowBefore);
    this.#columnNext = wider(this.#columnNext); this.#columnBefore = wider(this.#columnBefore);
    const values = new Float64Array(2 * this.#value.length); values.set(this.#value); this.#value = values;
  }
}
