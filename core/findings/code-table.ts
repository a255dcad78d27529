/**
 * All codes, by code. A subject's rows stand in `codes/<subject>.ts`.
 */
import type { CodeRow } from './code-row.ts';
import { fileCodes } from './codes/file.ts';
import { highVoltageCodes } from './codes/high-voltage.ts';
import { lowVoltageCodes } from './codes/low-voltage.ts';
import { massCodes } from './codes/mass.ts';
import { modesCodes } from './codes/modes.ts';
import { packCodes } from './codes/pack.ts';
import { singleFailureCodes } from './codes/single-failures.ts';

export const codeTable: ReadonlyMap<string, CodeRow> = tableOf([...fileCodes, ...packCodes, ...highVoltageCodes, ...lowVoltageCodes, ...massCodes, ...modesCodes, ...singleFailureCodes]);

function tableOf(rows: readonly CodeRow[]): ReadonlyMap<string, CodeRow> {
  const table = new Map<string, CodeRow>();
  for (const row of rows) {
    if (table.has(row.code)) throw new Error(`code ${row.code} stands twice in the code table`);
    table.set(row.code, row);
  }
  return table;
}
