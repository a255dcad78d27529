/** What cables that touch lose against one cable alone. */

export type Grouping =
  | { readonly outcome: 'factor'; readonly factor: number }
  | { readonly outcome: 'outside_table'; readonly largest: number };

/**
 * Share of its free-air current that each of several equally loaded touching cables may carry.
 *
 * One cable 1; two touching (one circuit out and back) 0.88: the lower end of the ratio of BS 7671 table 4F2A to the
 * free-air model, 0.88 .. 0.90. More cables multiply by the factor for bunched circuits of BS 7671 table 4C1
 * (IEC 60364-5-52 table B.52.17, first row): 0.80, 0.70, 0.65, 0.60, 0.57, 0.54, 0.52, 0.50 for 2 .. 9 circuits: from memory.
 * An odd cable counts as a circuit of its own. To use it: a cable in the group is as hot as one alone at current / factor.
 *
 * @param touching  loaded cables that touch, 1 or more
 * @returns the factor, or `outside_table` above 18 cables
 * Errors:  throws when it is not a whole number >= 1
 * Source:  [bs-7671] tables 4F2A (ratio computed here) and 4C1 (from memory)
 * Checked: checks/reference/cable-rating.bs-7671-4f2a.check.ts (two cables)
 */
export function groupingFactor(touching: number): Grouping {
  if (!(Number.isInteger(touching) && touching >= 1)) throw new RangeError(`touching cables must be a whole number >= 1, got ${touching}`);
  if (touching === 1) return { outcome: 'factor', factor: 1 };
  const bunched = bunchedCircuits[Math.ceil(touching / 2) - 1];
  if (bunched === undefined) return { outcome: 'outside_table', largest: 2 * bunchedCircuits.length };
  return { outcome: 'factor', factor: TOUCHING_PAIR * bunched };
}

/** Two touching cables against one alone [1]. */
export const TOUCHING_PAIR = 0.88;

const bunchedCircuits: readonly number[] = [1, 0.8, 0.7, 0.65, 0.6, 0.57, 0.54, 0.52, 0.5];
