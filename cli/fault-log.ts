/** The conversations in readings.csv, for `halfshaft fault`: each thing said is on the disk before anything is made of it. */
import { createHash, randomUUID } from 'node:crypto';
import { userInfo } from 'node:os';
import { faultCases, newCaseName } from '../core/readings/fault-cases.ts';
import type { FaultCase, FaultCells } from '../core/readings/fault-cases.ts';
import type { LogProblem } from '../core/readings/log.ts';
import { onOneLine } from '../core/readings/reading.ts';
import { addReading, readReadings } from '../server/readings-on-disk.ts';
import { Refusal } from '../server/refusal.ts';
import { WrongCall } from './wrong-call.ts';

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
  const revision = createHash('sha256').update(text).digest('hex').slice(0, 8);
  return {
    cases, problems: log.problems,
    newName: (mode) => newCaseName(mode, cases),
    add: async (cells) => {
      const id = randomUUID().slice(0, 8);
      await orWrongCall(addReading(folder, { ...cells, reading: onOneLine(cells.reading), note: onOneLine(cells.note), id, when: new Date().toISOString(), who: onOneLine(who ?? loggedIn()), instrument: '', verdict: '', revision, restsOn: '', more: [] }));
      return id;
    },
  };
}

async function orWrongCall<T>(asked: Promise<T>): Promise<T> {
  try {
    return await asked;
  } catch (error) {
    if (error instanceof Refusal) throw new WrongCall(error.message);
    throw error;
  }
}

/** Some systems know nobody. */
function loggedIn(): string {
  try { return userInfo().username; } catch { return ''; }
}
