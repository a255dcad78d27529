/**
 * One row of the code table: everything said about a kind of finding, once. Wording lives here and nowhere else.
 *
 * Wording uses `{value}`, `{limit}`, `{margin}`, `{about}` (first name), `{others}` (the other names, joined), `{variant}`
 * and any detail by its name, `{fault}`. Numbers print with their unit, rounded to the cautious side near the limit.
 * `checks/findings` proves that every placeholder is known and that docs/findings has a page for each code.
 */
import type { TopicName } from './finding.ts';

export interface CodeRow {
  /** `topic.what-must-be-true`, never reused for something else */
  readonly code: string;
  readonly topic: TopicName;
  /** what must be true, as a heading */
  readonly title: string;
  /** the comparison in plain words and symbols, with units */
  readonly formula: string;
  /** keys of the source list; `common-practice` where nothing is published */
  readonly sources: readonly string[];
  /** what happens to hands, metal or money when it is not true */
  readonly why: string;
  /** level when it is broken */
  readonly whenBroken: 'stop' | 'fix' | 'watch';
  /** a check that holds with less margin than this share is at `watch`; 0 where a limit is already cautious */
  readonly nearMargin: number;
  readonly wording: {
    readonly holds: string;
    readonly broken: string;
    /** what cannot be said, without the list of missing values, which is added */
    readonly unknown: string;
  };
  /** what to do when it is broken */
  readonly whatToDo: string;
}
