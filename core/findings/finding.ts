/**
 * The outcome of a check. A check states what must be true, about what, the value against the limit, and what is missing.
 * Level, chance and wording are decided in one place (`judge.ts`, `code-table.ts`), never in a topic.
 */
import type { QuantityName } from '../quantity/quantity-table.ts';
import type { Place } from '../build/place.ts';

/** `stop`: do not go on; `fix`: must be put right before use; `watch`: holds, but only just or not surely; `unknown`: needs data; `holds`. */
export type Level = 'stop' | 'fix' | 'watch' | 'unknown' | 'holds';

/** Worst first. */
export const levelOrder: readonly Level[] = ['stop', 'fix', 'unknown', 'watch', 'holds'];

export type TopicName = 'file' | 'pack' | 'high-voltage' | 'low-voltage' | 'mass' | 'modes';

/** What a topic hands over for each check that it made. Numbers in SI. */
export interface Check {
  /** a code of the code table */
  readonly code: string;
  /** parts, runs, modes or sections it is about; the first gives the place */
  readonly about: readonly string[];
  /** tells two checks of one code about the same thing apart (a mode, a fault point) */
  readonly variant?: string | undefined;
  /** where in the file to look, as a path (`parts.F1.rating`); absent: the first of `about` */
  readonly path?: string;
  /** the very place, when the reader knows it better than a path does */
  readonly place?: Place;
  /** undefined with `needs` filled: the check could not be made */
  readonly value?: number | undefined;
  readonly limit?: number | undefined;
  /** which side of the limit is right; `is_true` checks carry value 1 or 0 and limit 1 */
  readonly sense: 'at_most' | 'at_least' | 'is_true';
  readonly quantity?: QuantityName;
  /** paths of the values that are missing */
  readonly needs?: readonly string[] | undefined;
  /** further numbers for the sentence [SI], by name, with their quantity; left out where only margins are wanted */
  readonly details?: Details | undefined;
  /** overrides the code's own level when it fails (a mild case of a grave code) */
  readonly levelWhenBroken?: 'stop' | 'fix' | 'watch' | undefined;
}

export type Details = Readonly<Record<string, { readonly value: number; readonly quantity: QuantityName } | string>>;

export interface SettledBy {
  /** path of the value to measure */
  readonly path: string;
  /** share of the doubt that this value explains, 0..1 */
  readonly share: number;
  /** half-width [SI] to which it must be known for the finding to be settled; undefined when it alone cannot settle it */
  readonly precision: number | undefined;
  readonly quantity: QuantityName;
}

export interface Finding {
  readonly code: string;
  readonly topic: TopicName;
  readonly about: readonly string[];
  readonly variant: string | undefined;
  readonly level: Level;
  /** one plain sentence with the numbers in it */
  readonly statement: string;
  /** what to do next; empty when it holds */
  readonly whatToDo: string;
  readonly value: number | undefined;
  readonly limit: number | undefined;
  readonly sense: Check['sense'];
  readonly quantity: QuantityName | undefined;
  /** signed distance to the limit as a share of the limit [1]; positive holds */
  readonly margin: number | undefined;
  /** chance that it holds, 0..1; undefined without sampling */
  readonly chance: number | undefined;
  readonly settledBy: readonly SettledBy[];
  readonly needs: readonly string[];
  /** keys in SOURCES.md */
  readonly sources: readonly string[];
  readonly path: string;
  readonly place: Place | undefined;
}
