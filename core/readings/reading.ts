/**
 * One line of the builder's log: what a meter showed, or what was seen, at a step or between two points; who, when, with what, and how it
 * was judged then. The log is only ever added to: a correction is a new line that names the one that it replaces.
 */
import type { QuantityName } from '../quantity/quantity-table.ts';

export const procedures = ['assembly', 'power-up', 'fault', 'free'] as const;
export type Procedure = (typeof procedures)[number];

export const verdictWords = ['agrees', 'outside', 'cannot be told'] as const;
export type VerdictWord = (typeof verdictWords)[number];

/** What was seen or heard, or done, without a meter: `yes` or `no`. */
export const OBSERVATION = 'observation';
export type ReadQuantity = QuantityName | typeof OBSERVATION;

export interface Reading {
  /** letters and digits, its own in the whole log; made by whoever adds the line */
  readonly id: string;
  /** date and time as ISO 8601, with its offset or Z */
  readonly when: string;
  readonly who: string;
  readonly procedure: Procedure;
  /** id of the step; '' for a free reading */
  readonly step: string;
  /** the mode and what else was so, in words */
  readonly state: string;
  /** where the probes were, positive first; the run, for a current */
  readonly points: readonly string[];
  readonly quantity: ReadQuantity;
  /** as the builder wrote it, with its unit: `12.4 V`, `> 1 GΩ`, `yes` */
  readonly reading: string;
  readonly instrument: string;
  /** as it was judged when it was entered; '' when it was not */
  readonly verdict: VerdictWord | '';
  /** first characters of the hash of the build file then */
  readonly revision: string;
  /** fingerprint of what the step rested on then (`rests-on.ts`) */
  readonly restsOn: string;
  /** id of the line that this one corrects; '' for none */
  readonly replaces: string;
  readonly note: string;
  /** columns that this program does not know, in the order of the file */
  readonly more: readonly (readonly [column: string, text: string])[];
}

/** Name of each column in the file, in the order in which a new file has them. The note stands last: what a crash cuts there is only words. */
export const columns = ['id', 'when', 'who', 'procedure', 'step', 'state', 'points', 'quantity', 'reading', 'instrument', 'verdict', 'revision', 'rests_on', 'replaces', 'note'] as const;
export type Column = (typeof columns)[number];

/** The text of each column but the unknown ones. */
export function cellsOf(reading: Reading): Readonly<Record<Column, string>> {
  const { restsOn, points, more: _, ...same } = reading;
  return { ...same, points: points.join(' '), rests_on: restsOn };
}

/** Text that fits a line: breaks and other control characters become spaces, so that one record is one line and a crash cuts one at the most. */
export function onOneLine(text: string): string {
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\ufeff]+/g, ' ').replace(/ {2,}/g, ' ').trim();
}
