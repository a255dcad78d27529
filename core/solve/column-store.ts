/** Columns of an inverse, solved when they are first asked for and kept while there is room. */
import type { SparseLu } from './sparse-lu.ts';

/** What one row or path does to all unknowns, and to those that are looked at. */
export interface Column { readonly whole: Float64Array; readonly looked: Float64Array }

/** Columns whose memory is taken at once: each piece of memory costs more than what is written into it. */
const SLAB = 32;

export class ColumnStore {
  readonly #lu: SparseLu;
  readonly #size: number;
  readonly #places: Int32Array;
  readonly #most: number;
  readonly #lasting = new Map<number, Column>();
  readonly #passing = new Map<number, Column>();
  readonly #unit: Float64Array;
  #slab = new Float64Array(0);
  #slabUsed = 0;

  /** @param places  of the unknowns that are looked at @param most  columns kept beside the lasting ones */
  constructor(lu: SparseLu, size: number, places: Int32Array, most: number) {
    this.#lu = lu;
    this.#size = size;
    this.#places = places;
    this.#most = most;
    this.#unit = new Float64Array(size);
  }

  /** @param place  writes the right side into zeros */
  column(key: number, isLasting: boolean, place: (unit: Float64Array) => void): Column {
    const kept = isLasting ? this.#lasting : this.#passing;
    let column = kept.get(key);
    if (!isLasting && column) {
      // the longest unused goes first, so that what one step needs stays until it is done
      kept.delete(key);
      kept.set(key, column);
    }
    if (!column) {
      column = this.#room(isLasting);
      const { whole, looked } = column, unit = this.#unit, places = this.#places;
      unit.fill(0);
      place(unit);
      this.#lu.solve(unit, whole);
      for (let p = 0; p < places.length; p++) looked[p] = whole[places[p]!]!;
      kept.set(key, column);
    }
    return column;
  }

  /** Memory of a column that is not needed any more, or of a new one. */
  #room(isLasting: boolean): Column {
    const passing = this.#passing;
    if (!isLasting && passing.size >= this.#most) {
      const [oldest] = passing;
      passing.delete(oldest![0]);
      return oldest![1];
    }
    const size = this.#size, each = size + this.#places.length;
    if (this.#slab.length < each * (this.#slabUsed + 1)) { this.#slab = new Float64Array(each * SLAB); this.#slabUsed = 0; }
    const from = each * this.#slabUsed++;
    return { whole: this.#slab.subarray(from, from + size), looked: this.#slab.subarray(from + size, from + each) };
  }
}
