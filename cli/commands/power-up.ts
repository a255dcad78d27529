/** halfshaft power-up BUILD */
import { analyse } from '../../core/analyse.ts';
import { causeFinder } from '../../core/power-up/causes.ts';
import { powerUp as stepsOf } from '../../core/power-up/steps.ts';
import { nearest } from '../../core/quantity/nearest-spelling.ts';
import { words } from '../../catalogue/words.ts';
import { openBuild } from '../open-build.ts';
import { powerUpJson } from '../show/power-up-json.ts';
import { powerUpText } from '../show/power-up-text.ts';
import { wholeNumber } from '../whole-number.ts';
import { WrongCall } from '../wrong-call.ts';

interface Options { readonly from?: string; readonly json?: boolean; readonly draws: string; readonly seed: string }

export function powerUp(path: string, options: Options): void {
  const draws = { count: wholeNumber(options.draws, '--draws', 2, 1000), seed: wholeNumber(options.seed, '--seed', -2_147_483_648, 2_147_483_647) };
  const { build, car, ask, prepared } = analyse(openBuild(path).text, words, { only: [] });
  const { steps } = stepsOf(car, ask, prepared, draws);
  if (steps.length === 0) throw new WrongCall(`${path} has no parts yet, so there is nothing to power up.`);
  const first = options.from === undefined ? 0 : steps.findIndex(({ id }) => id === options.from);
  if (first < 0) {
    const close = nearest(options.from!, steps.map(({ id }) => id));
    throw new WrongCall(`There is no step ${options.from}${close === undefined ? '.' : `; did you mean ${close}?`} halfshaft power-up ${path} lists all.`);
  }
  const finder = causeFinder(car, ask);
  const shown = steps.slice(first).map((step) => ({ step, number: steps.indexOf(step) + 1, causes: finder.causesOf(step) }));
  if (options.json === true) process.stdout.write(`${JSON.stringify(powerUpJson(build.name, shown, draws), null, 2)}\n`);
  else process.stdout.write(powerUpText(build, shown, { total: steps.length, width: Math.min(110, Math.max(40, process.stdout.columns ?? 100)) }));
}
