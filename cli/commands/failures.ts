/** halfshaft failures BUILD */
import { words } from '../../catalogue/words.ts';
import { analyse } from '../../core/analyse.ts';
import { severities } from '../../core/faults/effects/effect.ts';
import type { Severity } from '../../core/faults/effects/effect.ts';
import { filterFailures } from '../../core/faults/effects/filter-failures.ts';
import { failureChecks } from '../../core/faults/effects/failure-checks.ts';
import { singleFailures } from '../../core/faults/effects/single-failures.ts';
import { judge } from '../../core/findings/judge.ts';
import { printValue } from '../../core/quantity/print-value.ts';
import { noSuch } from '../no-such.ts';
import { openBuild } from '../open-build.ts';
import { failuresJson } from '../show/failures-json.ts';
import { failuresText } from '../show/failures-text.ts';
import { textWidth } from '../show/text-width.ts';
import type { ExitCode, Terminal } from '../terminal.ts';

interface Options { readonly json?: boolean; readonly mode?: string; readonly severity?: string; readonly told?: 'yes' | 'no'; readonly about?: string; readonly words?: string }

export function failures(path: string, { json, mode, severity, told, about, words: sought }: Options, terminal: Terminal): ExitCode {
  const { build, car, ask } = analyse(openBuild(path).text, words, { only: [] });
  if (mode !== undefined && !car.modes.has(mode)) throw noSuch('mode', mode, [...car.modes.keys()], `The build has ${[...car.modes.keys()].join(', ') || 'none'}.`);
  if (severity !== undefined && !(severities as readonly string[]).includes(severity)) throw noSuch('severity', severity, severities, `There are ${severities.join(', ')}.`);
  const table = singleFailures(car, ask);
  const findings = judge(failureChecks(car, table), { places: build.places, units: build.units });
  const names = [...new Set(table.failures.flatMap((one) => one.about))];
  if (about !== undefined && !names.includes(about)) throw noSuch('part or run', about, names, 'Nothing that is looked at is called so.');
  const shown = filterFailures(table.failures, {
    ...(severity === undefined ? {} : { severity: severity as Severity }), ...(mode === undefined ? {} : { mode }), ...(told === undefined ? {} : { isTold: told === 'yes' }),
    ...(about === undefined ? {} : { about }), ...(sought === undefined ? {} : { words: sought }),
  }, (si, quantity, options) => printValue(si, quantity, { system: build.units, ...options }));
  const chosen = [...(about === undefined ? [] : [`about ${about}`]), ...(told === undefined ? [] : [told === 'yes' ? 'that something tells of' : 'that nothing tells of']), ...(sought === undefined ? [] : [`with “${sought}”`])];
  const given = { build, table, findings, failures: shown, mode, severity, chosen };
  terminal.print(json === true ? `${JSON.stringify(failuresJson(given), null, 2)}\n` : failuresText(given, textWidth(terminal)));
  return findings.some(({ level }) => level === 'stop') ? 1 : 0;
}
