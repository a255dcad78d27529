/** halfshaft failures BUILD */
import { words } from '../../catalogue/words.ts';
import { analyse } from '../../core/analyse.ts';
import { severities } from '../../core/faults/effects/effect.ts';
import type { Severity } from '../../core/faults/effects/effect.ts';
import { failureChecks } from '../../core/faults/effects/failure-checks.ts';
import { singleFailures } from '../../core/faults/effects/single-failures.ts';
import { judge } from '../../core/findings/judge.ts';
import { noSuch } from '../no-such.ts';
import { openBuild } from '../open-build.ts';
import { failuresJson } from '../show/failures-json.ts';
import { failuresText } from '../show/failures-text.ts';
import { textWidth } from '../show/text-width.ts';

interface Options { readonly json?: boolean; readonly mode?: string; readonly severity?: string }

export function failures(path: string, { json, mode, severity }: Options): void {
  const { build, car, ask } = analyse(openBuild(path).text, words, { only: [] });
  if (mode !== undefined && !car.modes.has(mode)) throw noSuch('mode', mode, [...car.modes.keys()], `The build has ${[...car.modes.keys()].join(', ') || 'none'}.`);
  if (severity !== undefined && !(severities as readonly string[]).includes(severity)) throw noSuch('severity', severity, severities, `There are ${severities.join(', ')}.`);
  const table = singleFailures(car, ask);
  const findings = judge(failureChecks(car, table), { places: build.places, units: build.units });
  const shown = table.failures
    .filter((one) => severity === undefined || one.severity === (severity as Severity))
    .map((one) => (mode === undefined ? one : { ...one, modes: one.modes.filter((at) => at.mode === mode) }))
    .filter(({ modes }) => mode === undefined || modes.length > 0);
  const given = { build, table, findings, failures: shown, mode, severity };
  process.stdout.write(json === true ? `${JSON.stringify(failuresJson(given), null, 2)}\n` : failuresText(given, textWidth()));
  process.exitCode = findings.some(({ level }) => level === 'stop') ? 1 : 0;
}
