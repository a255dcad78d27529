/** A judged reading, and the log, as the stable JSON contract of `docs/readings.md`. Numbers are SI. */
import type { ReadingLog } from '../../core/readings/log.ts';
import { standing } from '../../core/readings/log.ts';
import { cellsOf } from '../../core/readings/reading.ts';
import type { Reading } from '../../core/readings/reading.ts';
import type { Verdict } from '../../core/readings/verdict.ts';

export function verdictJson(reading: Reading, verdict: Verdict): object {
  return {
    version: 1, reading: cellsOf(reading), verdict: verdict.word, says: verdict.says, next: verdict.next, outside_by: verdict.outsideBy ?? null, reversed: verdict.isReversed,
    meanings: verdict.meanings.map(({ part, says, reads, fits }) => ({ part: part ?? null, says, reads: reads ?? null, fits })),
  };
}

export function logJson(name: string, { readings, problems }: ReadingLog, goesOn: string | undefined): object {
  const counting = new Set(standing(readings));
  return { version: 1, build: name, goes_on: goesOn ?? null, readings: readings.map((one) => ({ ...cellsOf(one), counts: counting.has(one), more: Object.fromEntries(one.more) })), problems };
}
