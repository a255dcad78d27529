/** Single failures, worst first, those that do the same together; findings before them. */
import { severities, severityWords } from '../../core/faults/effects/effect.ts';
import { failuresWords, groupRows } from '../../core/faults/effects/group-rows.ts';
import type { FailureRow } from '../../core/faults/effects/group-rows.ts';
import { modesWords } from '../../core/faults/effects/words.ts';
import type { Say } from '../../core/faults/effects/words.ts';
import { printValue } from '../../core/quantity/print-value.ts';
import type { ShownFailures } from './failures-json.ts';
import { bold, faint, levelMark } from './paint.ts';
import { wrapped } from './wrapped.ts';

const INDENT = ' '.repeat(4);

export function failuresText({ build, table, findings, failures, mode, severity, chosen }: ShownFailures, width: number): string {
  const say: Say = (si, quantity, options) => printValue(si, quantity, { system: build.units, ...options });
  const lines: string[] = [
    bold(`${build.name}: ${failures.length} single failures${mode === undefined ? '' : ` in mode ${mode}`}${severity === undefined ? '' : `, ${severityWords[severity as keyof typeof severityWords]}`}${chosen.map((words) => `, ${words}`).join('')}`),
    ...wrapped('One thing wrong at a time, computed from the build file; each mode solved with each failure. It finds what the file draws and nothing else: qualified help, an inspection and tests on the vehicle decide.', width),
    ...table.untold.flatMap((text) => wrapped(text, width)).map(faint),
  ];
  const open = findings.filter(({ level }) => level !== 'holds');
  const isWhole = severity === undefined && mode === undefined && chosen.length === 0;
  if (open.length > 0 && isWhole) lines.push('', bold('Findings'));
  if (isWhole) for (const { level, statement, whatToDo, code } of open) lines.push(`${levelMark(level)} ${faint(code)}`, ...wrapped(`${statement}${level === 'unknown' ? '' : ` ${whatToDo}`}`, width - INDENT.length).map((line) => INDENT + line));
  const rows = groupRows(failures, say);
  for (const name of severities) {
    const own = rows.filter((row) => row.severity === name);
    if (own.length === 0) continue;
    lines.push('', bold(`${severityWords[name]} (${own.reduce((sum, row) => sum + row.failures.length, 0)})`));
    for (const row of own) lines.push(...rowLines(row, table.modes, width));
  }
  if (rows.length === 0) lines.push('', 'No failure is of that kind.');
  return `${lines.join('\n')}\n`;
}

function rowLines(row: FailureRow, modes: readonly string[], width: number): string[] {
  const put = (label: string, text: string): string[] => (text === '' ? [] : wrapped(`${label}${text}`, width - INDENT.length).map((line) => INDENT + line));
  return [
    ...failuresWords(row).flatMap((text) => wrapped(text, width)),
    ...row.happens.flatMap(({ text, modes: at }) => put('', `${text} (${modesWords(at, modes)})`)),
    ...put('Tells: ', row.tells.join('; ') || (row.severity === 'nothing' ? '' : 'nothing')),
    ...put('Shows at ', row.seenAt.length === 0 ? '' : `${row.seenAt.join(', ')}, and no condition fails`),
    ...put('One more: ', row.second),
  ];
}
