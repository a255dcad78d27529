/** A judged reading, and the log, as the stable JSON contract of `docs/readings.md`. Numbers are SI. */
import type { ReadingLog } from '../../core/readings/log.ts';
import { standing } from '../../core/readings/log.ts';
import type { Proposal } from '../../core/readings/proposals.ts';
import { cellsOf } from '../../core/readings/reading.ts';
import type { Reading } from '../../core/readings/reading.ts';
import type { Verdict } from '../../core/readings/verdict.ts';

export function verdictJson(reading: Reading, verdict: Verdict): object {
  return {
    version: 1, reading: cellsOf(reading), verdict: verdict.word, says: verdict.says, next: verdict.next, outside_by: verdict.outsideBy ?? null, reversed: verdict.isReversed,
    meanings: verdict.meanings.map(({ part, says, reads, fits }) => ({ part: part ?? null, says, reads: reads ?? null, fits })),
  };
}

export function logJson(name: string, { readings, problems }: ReadingLog, next: { readonly power_up: string | undefined; readonly assembly: string | undefined; readonly repeat: readonly string[] }): object {
  const counting = new Set(standing(readings));
  return { version: 1, build: name, goes_on: next.power_up ?? null, assembly_goes_on: next.assembly ?? null, repeat: next.repeat, readings: readings.map((one) => ({ ...cellsOf(one), counts: counting.has(one), more: Object.fromEntries(one.more) })), problems };
}

export function proposalsJson(name: string, proposals: readonly Proposal[]): object {
  return { version: 1, build: name, proposals: proposals.map(({ path, text, instead, why, reading }, index) => ({ number: index + 1, path, text, instead: instead ?? null, why, reading })) };
}
