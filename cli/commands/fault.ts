/** halfshaft fault BUILD: what may be wrong, and what to measure next; a conversation in a terminal, or one answer for `--observe`. */
import { createInterface } from 'node:readline/promises';
import { analyse } from '../../core/analyse.ts';
import { driveModes } from '../../core/topics/modes/mode-graph.ts';
import { faultFinder } from '../../core/faults/fault-finder.ts';
import type { FaultFinder } from '../../core/faults/fault-finder.ts';
import type { Look, Observation } from '../../core/faults/observation.ts';
import { lookWords } from '../../core/faults/fault-words.ts';
import { readObservation } from '../../core/faults/read-observation.ts';
import { observationsOf, symptoms } from '../../core/faults/symptoms.ts';
import type { Symptom } from '../../core/faults/symptoms.ts';
import { words } from '../../catalogue/words.ts';
import { noSuch } from '../no-such.ts';
import { openBuild } from '../open-build.ts';
import { faultJson } from '../show/fault-json.ts';
import { causesText, faultHead, nextText, pathText, verdictText } from '../show/fault-text.ts';
import { textWidth } from '../show/text-width.ts';
import { WrongCall } from '../wrong-call.ts';

interface Options { readonly mode?: string; readonly symptom: readonly string[]; readonly observe: readonly string[]; readonly json?: boolean; readonly ask?: boolean }

export async function fault(path: string, options: Options): Promise<void> {
  const { build, car, ask } = analyse(openBuild(path).text, words, { only: [] });
  if (car.parts.size === 0) throw new WrongCall(`${path} has no parts yet, so there is nothing to find.`);
  const modes = [...car.modes.keys()];
  const mode = options.mode ?? driveModes(car)[0] ?? modes.at(-1);
  if (mode !== undefined && !car.modes.has(mode)) throw noSuch('mode', mode, modes, `There are ${modes.join(', ') || 'none'}.`);
  const finder = faultFinder(car, ask, mode);
  const observations = [...options.symptom.flatMap((text) => symptomIn(finder, car, text)), ...options.observe.map((text) => observationIn(finder, car, text))];
  if (options.json === true) {
    const ranking = finder.rank(observations);
    process.stdout.write(`${JSON.stringify(faultJson(build.name, finder, ranking), null, 2)}\n`);
    return;
  }
  const width = textWidth();
  process.stdout.write(faultHead(build.name, mode, finder.hypotheses.length, width));
  const show = (): { readonly isSettled: boolean; readonly look: Look | undefined; readonly at: string } => {
    const ranking = finder.rank(observations);
    const verdict = finder.verdict(ranking);
    const next = verdict.isSettled ? undefined : finder.next(ranking);
    process.stdout.write(causesText(ranking, width));
    process.stdout.write(verdict.isSettled || !next ? verdictText(verdict, next === undefined && !verdict.isSettled, width) : nextText(next, ranking, finder.states, width));
    return { isSettled: verdict.isSettled, look: next?.test.look, at: next !== undefined && next.test.state === finder.states.packOpen ? '@pack_open' : '' };
  };
  let shown = show();
  if (process.stdin.isTTY !== true || process.stdout.isTTY !== true) return;
  const lines = createInterface({ input: process.stdin, output: process.stdout });
  try {
    while (!shown.isSettled) {
      const answer = (await lines.question('What did you find? (the value; or another observation such as F1.b-chassis=12.1 V; back; path; end) ')).trim();
      if (answer === '' || answer === 'end') break;
      if (answer === 'path') { process.stdout.write(pathText(observations, width)); continue; }
      if (answer === 'back') observations.pop();
      else {
        const text = answer.includes('=') ? answer : shown.look === undefined ? answer : `${lookWords(shown.look)}=${answer}${shown.at}`;
        const read = readObservation(text, car, finder.states, finder.forecasts.predictionsIn);
        if (!read.ok) { process.stdout.write(`${read.problem}\n`); continue; }
        observations.push(read.observation);
      }
      shown = show();
    }
  } finally { lines.close(); }
  process.stdout.write(pathText(observations, width));
}

type Car = Parameters<typeof faultFinder>[0];

function observationIn(finder: FaultFinder, car: Car, text: string): Observation {
  const read = readObservation(text, car, finder.states, finder.forecasts.predictionsIn);
  if (!read.ok) throw new WrongCall(read.problem);
  return read.observation;
}

/** `no_click`, or `pump_always_on:P_drive`. */
function symptomIn(finder: FaultFinder, car: Car, text: string): readonly Observation[] {
  const [name = '', of] = text.split(':');
  if (!Object.hasOwn(symptoms, name)) throw noSuch('symptom', name, Object.keys(symptoms), `There are: ${Object.entries(symptoms).map(([key, meaning]) => `${key} (${meaning})`).join('; ')}.`);
  if (of !== undefined && !car.parts.has(of)) throw noSuch('part', of, [...car.parts.keys()], '');
  const { observations, why } = observationsOf(car, name as Symptom, finder.forecasts.predictionsIn(finder.states.asked), of);
  if (!observations) throw new WrongCall(`${name}: ${why}`);
  return observations;
}
