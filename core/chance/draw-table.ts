/**
 * Draws of every uncertain quantity, by Latin hypercube: each quantity's own distribution is cut into as many equal
 * shares as there are draws, and every share is used once. Any worker can make any draw from the seed alone.
 *
 * Source: McKay, Beckman, Conover 1979 (from memory). Checked: core/chance/draw-table.test.ts
 */
import type { Quantity } from '../quantity/quantity.ts';
import { drawFrom } from '../quantity/spread.ts';
import { latinHypercube } from '../solve/latin-hypercube.ts';

export interface DrawTable {
  readonly paths: readonly string[];
  /** value of quantity `index` in draw `draw` [SI] */
  readonly value: (index: number, draw: number) => number;
  /** the numbers of one draw */
  readonly valueOf: (draw: number) => (quantity: Quantity) => number;
  readonly count: number;
}

/**
 * @param quantities  uncertain ones, in a fixed order; exact ones are passed over
 * @param count       number of draws, >= 1
 * @param seed        any integer; the same seed gives the same table
 * @param first, end  the draws that will be asked for, when not all of them: a worker's share
 */
export function drawTable(quantities: readonly Quantity[], count: number, seed: number, first = 0, end = count): DrawTable {
  const uncertain = quantities.filter(({ shape, low, high }) => shape !== 'exact' && low < high);
  const columns = latinHypercube(count, uncertain.length, seed);
  columns.forEach((column, index) => {
    for (let draw = first; draw < end; draw++) column[draw] = drawFrom(uncertain[index] as Quantity, Math.min(column[draw] as number, LARGEST_PROBABILITY));
  });
  const indexOf = new Map(uncertain.map((quantity, index) => [quantity.path, index]));
  const value = (index: number, draw: number): number => (columns[index] as Float64Array)[draw] as number;
  return {
    paths: uncertain.map(({ path }) => path), value, count,
    valueOf: (draw) => (quantity) => {
      const index = indexOf.get(quantity.path);
      return index === undefined ? quantity.nominal : value(index, draw);
    },
  };
}

/** The largest number below 1: a draw is never certain. */
const LARGEST_PROBABILITY = 1 - Number.EPSILON / 2;
