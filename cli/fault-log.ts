/** The conversations in readings.csv, for `halfshaft fault`: each thing said is on the disk before anything is made of it. */
import { faultCases, newCaseName } from '../core/readings/fault-cases.ts';
import type { FaultCase } from '../core/readings/fault-cases.ts';
import type { FaultCells } from '../core/readings/fault-marks.ts';
import type { LogProblem } from '../core/readings/log.ts';
import { onOneLine } from '../core/readings/reading.ts';
import { addReading, readReadings } from '../server/readings-on-disk.ts';
import { loggedIn, newLineId, orWrongCall } from './log-line.ts';
import { revisionOf } from './revision-of.ts';

export interface FaultLog {
  readonly cases: readonly FaultCase[];
  readonly problems: readonly LogProblem[];
  /** a name that no conversation has */
  readonly newName: (mode: string | undefined) => string;
  /** @returns id of the line. @throws WrongCall when it cannot be kept */
  readonly add: (cells: FaultCells) => Promise<string>;
}

/** @param text  of the build file; @param who  absent: who is logged in. @throws WrongCall when the log cannot be read */
export async function openFaultLog(folder: string, text: string, who: string | undefined): Promise<FaultLog> {
  const { log } = await orWrongCall(readReadings(folder));
  const cases = faultCases(log.readings);
  const revision = revisionOf(text);
  return {
    cases, problems: log.problems,
    newName: (mode) => newCaseName(mode, cases),
    add: async (cells) => {
      const id = newLineId();
      await orWrongCall(addReading(folder, { ...cells, reading: onOneLine(cells.reading), note: onOneLine(cells.note), id, when: new Date().toISOString(), who: onOneLine(who ?? loggedIn()), instrument: '', verdict: '', revision, restsOn: '', more: [] }));
      return id;
    },
  };
}
