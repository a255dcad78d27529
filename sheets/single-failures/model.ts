/**
 * What every single failure does: a table by severity, failures that do the same in one row, and the findings of the table. Worked out only
 * when the sheet is asked for.
 */
import type { Analysis } from '../../core/analyse.ts';
import { severities, severityWords } from '../../core/faults/effects/effect.ts';
import { failureChecks } from '../../core/faults/effects/failure-checks.ts';
import { failuresWords, groupRows } from '../../core/faults/effects/group-rows.ts';
import type { FailureRow } from '../../core/faults/effects/group-rows.ts';
import { capital } from '../../core/faults/fault-words.ts';
import { singleFailures } from '../../core/faults/effects/single-failures.ts';
import { modesWords } from '../../core/faults/effects/words.ts';
import type { Say } from '../../core/faults/effects/words.ts';
import { codeTable } from '../../core/findings/code-table.ts';
import type { Finding } from '../../core/findings/finding.ts';
import { judge } from '../../core/findings/judge.ts';
import type { Choices, SheetModel } from '../sheet.ts';
import { numbersOf } from '../shown.ts';
import type { Section } from '../table/flow.tsx';
import type { EntryRow, Row } from '../table/table.ts';

export interface SingleFailuresModel {
  /** instead of everything else */
  readonly none: string | undefined;
  /** sentences at the head */
  readonly words: readonly string[];
  readonly sections: readonly Section[];
}

export const singleFailuresModel: SheetModel<SingleFailuresModel> = {
  name: 'single-failures',
  model: ({ build, car, ask, units: system }: Analysis, { units }: Choices): SingleFailuresModel => {
    const { say: print } = numbersOf(build, units);
    const say: Say = (si, quantity, options) => print(si, quantity, options);
    if (car.parts.size === 0 || car.modes.size === 0) return { none: `There ${car.parts.size === 0 ? 'are no parts' : 'are no modes'} in the file yet: nothing can fail in them.`, words: [], sections: [] };
    const table = singleFailures(car, ask);
    const rows = groupRows(table.failures, say);
    const count = (severity: string): number => table.failures.filter((one) => one.severity === severity).length;
    const findings = judge(failureChecks(car, table), { places: build.places, units: system });
    return {
      none: undefined,
      words: [
        `${table.failures.length} single failures, each in ${table.modes.length} modes: ${severities.map((severity) => `${count(severity)} ${severityWords[severity]}`).join('; ')}.`,
        'One thing wrong at a time, computed from the build file. It finds what the file draws and nothing else; an inspection and tests on the vehicle decide.',
        ...table.untold,
      ],
      sections: [
        {
          title: 'What one failure must not do', note: 'Judged for this table only; the checks of the other sheets do not count them.',
          table: {
            columns: [{ head: '', width: 24 }, { head: 'Finding', width: 168 }, { head: 'What to do', width: 168 }],
            rows: findings.length === 0 ? [{ heading: 'The file has nothing yet that these rules speak of.' }] : findingRows(findings),
          },
        },
        ...severities.filter((severity) => severity !== 'nothing' && count(severity) > 0).map((severity): Section => ({
          title: capital(severityWords[severity]),
          table: {
            columns: [{ head: 'Failure', width: 92 }, { head: 'What happens (mode)', width: 118 }, { head: 'What tells the driver', width: 68 }, { head: 'One more failure', width: 64 }],
            rows: rows.filter((row) => row.severity === severity).map((row) => failureRow(row, table.modes)),
          },
        })),
        { title: 'Nothing happens', table: { columns: [{ head: 'Failure', width: 1 }], rows: nothingRows(rows) } },
      ],
    };
  },
};

/** Open ones one by one; those that hold, a row a rule. */
function findingRows(findings: readonly Finding[]): readonly Row[] {
  const held = new Map<string, Finding[]>();
  for (const one of findings) if (one.level === 'holds') held.set(one.code, [...(held.get(one.code) ?? []), one]);
  return [
    ...findings.filter(({ level }) => level !== 'holds').map(({ level, statement, whatToDo, path, needs }): Row => ({ path, label: path, cells: [{ level }, statement, level === 'unknown' ? `Draw the wire that tells, and ask for its voltage in ${needs.join(', ')}.` : whatToDo] })),
    ...[...held].map(([code, list]): Row => ({ cells: [{ level: 'holds' }, list.length === 1 ? list[0]!.statement : `${codeTable.get(code)?.title ?? code}: ${list.map(({ about }) => about[0]).join(', ')}.`, undefined] })),
  ];
}


function failureRow(row: FailureRow, modes: readonly string[]): EntryRow {
  const [first] = row.failures;
  return {
    ...(row.failures.length === 1 && first ? { path: first.path, label: first.words } : {}),
    cells: [
      failuresWords(row),
      row.happens.length > 0 ? row.happens.map(({ text, modes: at }) => `${text} (${modesWords(at, modes)})`) : 'no change by itself',
      [...row.tells, ...(row.tells.length === 0 ? ['nothing'] : []), ...(row.seenAt.length > 0 ? [{ text: `shows at ${row.seenAt.join(', ')}, and no condition fails`, tone: 'muted' as const }] : [])],
      row.second === '' ? undefined : row.second,
    ],
  };
}

function nothingRows(rows: readonly FailureRow[]): readonly Row[] {
  const own = rows.filter(({ severity }) => severity === 'nothing');
  return own.length === 0 ? [{ heading: 'Every failure does something.' }] : [{ cells: [own.flatMap((row) => [...failuresWords(row)])] }];
}
