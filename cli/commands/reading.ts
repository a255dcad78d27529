/** halfshaft reading BUILD */
import { createHash, randomUUID } from 'node:crypto';
import { userInfo } from 'node:os';
import { dirname } from 'node:path';
import { analyse } from '../../core/analyse.ts';
import type { Analysis } from '../../core/analyse.ts';
import { powerUp } from '../../core/power-up/steps.ts';
import type { PowerUpStep } from '../../core/power-up/step.ts';
import { readState } from '../../core/car/read-state.ts';
import { printValue } from '../../core/quantity/print-value.ts';
import { quantityOfText, readEntered } from '../../core/readings/entered.ts';
import { isolationRead } from '../../core/readings/isolation-readings.ts';
import { freeStep, judging } from '../../core/readings/judging.ts';
import { holdBefore, progressOf } from '../../core/readings/progress.ts';
import { OBSERVATION, onOneLine } from '../../core/readings/reading.ts';
import type { Reading } from '../../core/readings/reading.ts';
import { pointsOfStep, restsOn } from '../../core/readings/rests-on.ts';
import { quantityOfStep } from '../../core/readings/verdict.ts';
import { stateWordsOf } from '../../core/readings/state-words.ts';
import { words } from '../../catalogue/words.ts';
import { READINGS, addReading, readReadings } from '../../server/readings-on-disk.ts';
import type { LogOnDisk } from '../../server/readings-on-disk.ts';
import { Refusal } from '../../server/refusal.ts';
import { noSuch } from '../no-such.ts';
import { openBuild } from '../open-build.ts';
import { logJson, verdictJson } from '../show/reading-json.ts';
import { logText, problemText, verdictText } from '../show/reading-text.ts';
import { textWidth } from '../show/text-width.ts';
import { WrongCall } from '../wrong-call.ts';

interface Options { readonly step?: string; readonly between?: readonly string[]; readonly mode?: string; readonly value?: string; readonly seen?: string; readonly who?: string; readonly with?: string; readonly note?: string; readonly corrects?: string; readonly list?: boolean; readonly json?: boolean }

export async function reading(path: string, options: Options): Promise<void> {
  const { text, file } = openBuild(path);
  const folder = dirname(file);
  const analysis = analyse(text, words, { only: [] });
  try {
    const disk = await readReadings(folder);
    for (const problem of disk.log.problems) process.stderr.write(`${problemText(READINGS, problem)}\n`);
    if (options.list === true) list(analysis, disk, options.json === true);
    else await enter(path, folder, analysis, createHash('sha256').update(text).digest('hex').slice(0, 8), disk, options);
  } catch (error) {
    if (error instanceof Refusal) throw new WrongCall(error.message);
    throw error;
  }
}

function list({ build, car, ask, prepared }: Analysis, { log }: LogOnDisk, isJson: boolean): void {
  const { steps } = powerUp(car, ask, prepared);
  const progress = progressOf(steps, log.readings, (step) => restsOn(step, build));
  const next = steps[progress.goOn];
  if (isJson) process.stdout.write(`${JSON.stringify(logJson(build.name, log, next?.id), null, 2)}\n`);
  else process.stdout.write(logText(build.name, log, next ? `Power-up: ${progress.passed} of ${steps.length} steps passed; go on with ${next.id} (${next.title}).` : ''));
}

async function enter(path: string, folder: string, analysis: Analysis, revision: string, { log }: LogOnDisk, options: Options): Promise<void> {
  const { build, car, ask } = analysis;
  const { value, seen } = options;
  if ((options.step === undefined) === (options.between === undefined)) throw new WrongCall('Say which step it is (--step join.H06), or which points (--between M1.pos chassis). halfshaft power-up lists the steps; --list prints what was written.');
  const steps = options.step === undefined ? [] : powerUp(car, ask, analysis.prepared).steps;
  const step = options.step === undefined ? between(path, analysis, options) : steps.find(({ id }) => id === options.step);
  if (!step) throw noSuch('step', options.step!, steps.map(({ id }) => id), `halfshaft power-up ${path} lists all.`);
  const worked = value === undefined && seen === undefined ? isolationRead(step, steps, log.readings) : undefined;
  if (worked && worked.outcome !== 'resistance') throw new WrongCall(worked.outcome === 'missing' ? `To work the isolation out, readings are missing: ${worked.steps.join('; ')}. Or give it with --value.` : worked.why);
  const said = value ?? (worked ? printValue(worked.resistance, 'resistance', { digits: 4 }) : seen);
  if (said === undefined || (value !== undefined && seen !== undefined)) throw new WrongCall(quantityOfStep(step) ? 'Say what the meter shows: --value "12.4 V". For a step without a prediction: --seen yes or --seen no as well, in a call of its own.' : 'Nothing is measured in this step. Say whether it is so: --seen yes or --seen no.');
  const quantity = seen !== undefined ? OBSERVATION : quantityOfStep(step);
  if (quantity === undefined) throw new WrongCall('Nothing is measured in this step. Say whether it is so: --seen yes or --seen no.');
  const entered = readEntered(said, quantity);
  if (!entered.ok) throw new WrongCall(`--${seen === undefined ? 'value' : 'seen'} ${said}: ${entered.problem}`);
  const verdict = judging(car, ask).judge(step, entered.value);
  const line: Reading = {
    id: randomUUID().slice(0, 8), when: new Date().toISOString(), who: onOneLine(options.who ?? loggedIn()), procedure: options.step === undefined ? 'free' : 'power-up', step: step.id,
    state: step.state ? stateWordsOf(step.state) : '', points: pointsOfStep(step.measure), quantity, reading: onOneLine(said), instrument: onOneLine(options.with ?? (seen === undefined ? step.instrument?.name ?? '' : '')),
    verdict: verdict.word, revision, restsOn: options.step === undefined ? '' : restsOn(step, build), replaces: options.corrects ?? '', note: onOneLine([worked ? `worked out of the readings before; a single leak would sit at ${Math.round(worked.leakAt * 100)} % of the voltage from the negative end` : '', options.note ?? ''].filter((part) => part !== '').join('; ')), more: [],
  };
  const held = step.id === '' ? undefined : holdBefore(steps, progressOf(steps, log.readings, (one) => restsOn(one, build)), steps.indexOf(step));
  await addReading(folder, line);
  if (options.json === true) process.stdout.write(`${JSON.stringify(verdictJson(line, verdict), null, 2)}\n`);
  else {
    process.stdout.write(verdictText(step.title, verdict, quantityOfStep(step) ?? 'voltage', textWidth()));
    if (worked) process.stdout.write(`Worked out of the readings before: ${said}. A single leak would sit at ${Math.round(worked.leakAt * 100)} % of the voltage from the negative end.\n`);
    if (held !== undefined) process.stdout.write(`■ The hold point ${steps[held]!.id} (${steps[held]!.title}) before this step is not passed yet: go back to it.\n`);
    process.stdout.write(`Written into ${READINGS} as ${line.id}.\n`);
  }
  if (verdict.word === 'outside') process.exitCode = 1;
}

function between(path: string, { car, ask, prepared }: Analysis, { between: points = [], mode, value }: Options): PowerUpStep {
  const [a, b, more] = points;
  if (a === undefined || b === undefined || more !== undefined) throw new WrongCall('--between expects two points, such as --between M1.pos chassis.');
  for (const point of [a, b]) if (!ask.points.includes(point)) throw noSuch('point', point, ask.points, `halfshaft points ${path} lists all.`);
  const state = readState(mode === undefined ? {} : { mode }, car);
  if (!state.ok) throw new WrongCall(state.problems.join('\n'));
  const quantity = value === undefined ? 'voltage' : quantityOfText(value);
  if (quantity !== 'voltage' && quantity !== 'resistance') throw new WrongCall(`--value ${value ?? ''}: between two points expected a voltage such as 12.4 V, or a resistance such as 60 Ω.`);
  return freeStep(car, ask, prepared, { a, b, state: state.state, quantity });
}

/** Some systems know nobody. */
function loggedIn(): string {
  try { return userInfo().username; } catch { return ''; }
}
