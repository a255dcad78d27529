/** Single failures, chosen from. Worked out once a text, aside: it takes seconds. */
import type { Severity } from '../../../core/faults/effects/effect.ts';
import { severities, severityWords } from '../../../core/faults/effects/effect.ts';
import { filterFailures } from '../../../core/faults/effects/filter-failures.ts';
import { failuresWords, groupRows } from '../../../core/faults/effects/group-rows.ts';
import { singleFailures } from '../../../core/faults/effects/single-failures.ts';
import { modesWords } from '../../../core/faults/effects/words.ts';
import type { Say } from '../../../core/faults/effects/words.ts';
import { printValue } from '../../../core/quantity/print-value.ts';
import { printAs } from '../../../sheets/unit-choice.ts';
import type { KeptAnalysis } from '../../../study/kept-analysis.ts';
import type { Questions } from '../protocol.ts';

export function answerFailures({ text, units, wish: { severity, told, ...wish } }: Questions['failures']['asks'], kept: Pick<KeptAnalysis, 'of'>): Questions['failures']['answer'] {
  const { car, ask } = kept.of(text);
  const table = singleFailures(car, ask);
  const say: Say = (si, quantity, options) => printValue(si, quantity, { ...printAs(units, quantity), ...options });
  const any = filterFailures(table.failures, { ...wish, ...(told === undefined ? {} : { isTold: told }) }, say);
  const wanted = severity === undefined ? any : any.filter((one) => one.severity === (severity as Severity));
  return {
    modes: table.modes, names: [...new Set(table.failures.flatMap(({ about }) => about))].sort((a, b) => a.localeCompare(b, 'en', { numeric: true })),
    severities: severities.map((name) => ({ name, says: severityWords[name], count: any.filter((one) => one.severity === name).length })),
    total: table.failures.length, count: wanted.length,
    rows: groupRows(wanted, say).map((row) => ({
      severity: row.severity, failures: failuresWords(row), count: row.failures.length, path: row.failures.length === 1 ? row.failures[0]!.path : undefined,
      happens: row.happens.map(({ text: says, modes }) => `${says} (${modesWords(modes, table.modes)})`), tells: row.tells, seenAt: row.seenAt, second: row.second,
    })),
  };
}
