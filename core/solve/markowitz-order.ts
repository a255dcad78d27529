import type { SparseMatrix } from './sparse-matrix.ts';

/** In which order to eliminate: step k takes column `columns[k]` and, if its number is large enough, row `rows[k]`. */
export interface EliminationOrder { readonly columns: Int32Array; readonly rows: Int32Array }

/** An entry may be a pivot when it is at least this share of the largest in its column. */
export const PIVOT_SHARE = 0.1;
const COLUMNS_TRIED = 4;

/**
 * Order of elimination that keeps a sparse matrix sparse: at each step the entry, large enough to be a pivot,
 * with the smallest (row count - 1) * (column count - 1).
 *
 * @param matrix  with the values of a typical state; places holding 0 count as filled but cannot be pivots
 * @returns a full order even for a singular matrix (columns without a pivot come last)
 * Source:  H. M. Markowitz, Management Science 3 (1957), the product rule; threshold pivoting as commonly used
 */
export function markowitzOrder(matrix: SparseMatrix): EliminationOrder {
  const { size, columnStart, rowIndex, values } = matrix;
  const rowEntries: Map<number, number>[] = Array.from({ length: size }, () => new Map());
  const columnRows: Set<number>[] = Array.from({ length: size }, () => new Set());
  for (let c = 0; c < size; c++) {
    for (let p = columnStart[c]!; p < columnStart[c + 1]!; p++) {
      rowEntries[rowIndex[p]!]!.set(c, values[p]!);
      columnRows[c]!.add(rowIndex[p]!);
    }
  }
  const columns = new Int32Array(size);
  const rows = new Int32Array(size).fill(-1);
  const waiting = Array.from({ length: size }, (_, c) => c);
  const withoutPivot: number[] = [];
  let step = 0;
  while (waiting.length > 0) {
    const pivot = choosePivot(waiting, rowEntries, columnRows);
    if (pivot.row < 0) {
      withoutPivot.push(pivot.column);
    } else {
      columns[step] = pivot.column;
      rows[step++] = pivot.row;
      eliminate(pivot.row, pivot.column, rowEntries, columnRows);
    }
    const at = waiting.indexOf(pivot.column);
    waiting[at] = waiting[waiting.length - 1]!;
    waiting.pop();
    if (pivot.row < 0) for (const row of columnRows[pivot.column]!) rowEntries[row]!.delete(pivot.column);
  }
  for (const column of withoutPivot) columns[step++] = column;
  return { columns, rows };
}

function choosePivot(waiting: readonly number[], rowEntries: readonly Map<number, number>[], columnRows: readonly Set<number>[]): { row: number; column: number } {
  let best = { row: -1, column: waiting[0]! };
  let bestCost = Infinity;
  let bestSize = 0;
  let tried = 0;
  // columns of one entry are free; otherwise look at a few of the shortest
  let shortest = Infinity;
  for (const c of waiting) shortest = Math.min(shortest, columnRows[c]!.size);
  for (let length = shortest; tried < COLUMNS_TRIED && length <= shortest + 4; length++) {
    for (const c of waiting) {
      if (columnRows[c]!.size !== length) continue;
      if (length === 0) return { row: -1, column: c };
      let largest = 0;
      for (const r of columnRows[c]!) largest = Math.max(largest, Math.abs(rowEntries[r]!.get(c)!));
      if (largest === 0) { if (bestCost === Infinity && best.row < 0) best = { row: -1, column: c }; continue; }
      for (const r of columnRows[c]!) {
        const amount = Math.abs(rowEntries[r]!.get(c)!);
        if (amount < PIVOT_SHARE * largest) continue;
        const cost = (rowEntries[r]!.size - 1) * (length - 1);
        if (cost < bestCost || (cost === bestCost && amount > bestSize)) { best = { row: r, column: c }; bestCost = cost; bestSize = amount; }
      }
      if (bestCost === 0 || ++tried >= COLUMNS_TRIED) return best;
    }
  }
  return best;
}

function eliminate(pivotRow: number, pivotColumn: number, rowEntries: readonly Map<number, number>[], columnRows: readonly Set<number>[]): void {
  const pivotEntries = rowEntries[pivotRow]!;
  const pivot = pivotEntries.get(pivotColumn)!;
  for (const c of pivotEntries.keys()) columnRows[c]!.delete(pivotRow);
  pivotEntries.delete(pivotColumn);
  for (const r of columnRows[pivotColumn]!) {
    const entries = rowEntries[r]!;
    const factor = entries.get(pivotColumn)! / pivot;
    entries.delete(pivotColumn);
    for (const [c, value] of pivotEntries) {
      entries.set(c, (entries.get(c) ?? 0) - factor * value);
      columnRows[c]!.add(r);
    }
  }
  columnRows[pivotColumn]!.clear();
}
