/** halfshaft power-up BUILD */
import { analyse } from '../../core/analyse.ts';
import { causeFinder } from '../../core/power-up/causes.ts';
import { openStops } from '../../core/findings/open-stops.ts';
import { heldSteps } from '../../core/power-up/held-steps.ts';
import { powerUp as stepsOf } from '../../core/power-up/steps.ts';
import { words } from '../../catalogue/words.ts';
import { noSuch } from '../no-such.ts';
import { openBuild } from '../open-build.ts';
import { powerUpJson } from '../show/power-up-json.ts';
import { powerUpText } from '../show/power-up-text.ts';
import { textWidth } from '../show/text-width.ts';
import type { Terminal } from '../terminal.ts';
import { seedOption, wholeNumber } from '../whole-number.ts';
import { WrongCall } from '../wrong-call.ts';

interface Options { readonly from?: string; readonly json?: boolean; readonly draws: string; readonly seed: string }

export function powerUp(path: string, options: Options, terminal: Terminal): void {
  const draws = { count: wholeNumber(options.draws, '--draws', 2, 1000), seed: seedOption(options.seed) };
  const { build, car, ask, prepared, findings } = analyse(openBuild(path).text, words);
  const steps = heldSteps(car, stepsOf(car, ask, prepared, draws).steps, findings);
  if (steps.length === 0) throw new WrongCall(`${path} has no parts yet, so there is nothing to power up.`);
  const ids = steps.map(({ id }) => id);
  const { from = ids[0]! } = options;
  const first = ids.indexOf(from);
  if (first < 0) throw noSuch('step', from, ids, `halfshaft power-up ${path} lists all.`);
  const finder = causeFinder(car, ask);
  const shown = steps.slice(first).map((step, index) => ({ step, number: first + index + 1, causes: finder.causesOf(step) }));
  if (options.json === true) terminal.print(`${JSON.stringify(powerUpJson(build.name, shown, draws, openStops(findings)), null, 2)}\n`);
  else terminal.print(powerUpText(build, shown, { total: steps.length, width: textWidth(terminal) }));
}
