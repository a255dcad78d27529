/** Which single failures are wanted: by severity, mode, whether anything tells of them, part or run, and words. */
import type { Severity, SingleFailure } from './effect.ts';
import { happens, secondWords, tells } from './words.ts';
import type { Say } from './words.ts';

/** Absent: any. */
export interface FailureFilter {
  readonly severity?: Severity;
  readonly mode?: string;
  /** something tells the driver of it, or nothing does */
  readonly isTold?: boolean;
  /** part or run */
  readonly about?: string;
  /** must all stand in what is said of it, in any order and case */
  readonly words?: string;
}

/** @returns in the order given; with a mode, each with what it does in that mode only */
export function filterFailures(failures: readonly SingleFailure[], { severity, mode, isTold, about, words = '' }: FailureFilter, say: Say): readonly SingleFailure[] {
  const wanted = words.toLowerCase().split(/\s+/).filter((word) => word !== '');
  return failures
    .filter((one) => (severity === undefined || one.severity === severity) && (isTold === undefined || one.isNoticed === isTold) && (about === undefined || one.about.includes(about)))
    .map((one) => (mode === undefined ? one : { ...one, modes: one.modes.filter((at) => at.mode === mode) }))
    .filter(({ modes }) => mode === undefined || modes.length > 0)
    .filter((one) => { const text = wanted.length === 0 ? '' : wordsOf(one, say).toLowerCase(); return wanted.every((word) => text.includes(word)); });
}

function wordsOf(failure: SingleFailure, say: Say): string {
  const { tells: told, seenAt } = tells(failure);
  return [failure.id, failure.words, ...failure.about, ...happens(failure, say).map(({ text }) => text), ...told, ...seenAt, secondWords(failure.second)].join(' ');
}
