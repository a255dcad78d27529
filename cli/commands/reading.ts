/** halfshaft reading BUILD */
import { dirname } from 'node:path';
import { analyse } from '../../core/analyse.ts';
import type { Analysis } from '../../core/analyse.ts';
import { editBuild } from '../../core/build/edit-build.ts';
import { readState } from '../../core/car/read-state.ts';
import { printValue } from '../../core/quantity/print-value.ts';
import { quantityOfText, readEntered } from '../../core/readings/entered.ts';
import { isolationRead } from '../../core/readings/isolation-readings.ts';
import { freeStep, judging } from '../../core/readings/judging.ts';
import { procedureOf, proposedBy } from '../../core/readings/procedures.ts';
import type { Procedure } from '../../core/readings/procedures.ts';
import { holdBefore } from '../../core/readings/progress.ts';
import type { ReadStep } from '../../core/readings/read-step.ts';
import { OBSERVATION, onOneLine } from '../../core/readings/reading.ts';
import type { Reading } from '../../core/readings/reading.ts';
import { pointsOfStep, restsOn } from '../../core/readings/rests-on.ts';
import { quantityOfStep } from '../../core/readings/verdict.ts';
import type { Verdict } from '../../core/readings/verdict.ts';
import { stateWordsOf } from '../../core/readings/state-words.ts';
import { words } from '../../catalogue/words.ts';
import { READINGS, addReading, readReadings } from '../../server/readings-on-disk.ts';
import type { LogOnDisk } from '../../server/readings-on-disk.ts';
import { loggedIn, newLineId, orWrongCall } from '../log-line.ts';
import { revisionOf } from '../revision-of.ts';
import { noSuch } from '../no-such.ts';
import { openBuild } from '../open-build.ts';
import { logJson, proposalsJson, verdictJson } from '../show/reading-json.ts';
import { logText, problemText, proposalsText, verdictText } from '../show/reading-text.ts';
import { textWidth } from '../show/text-width.ts';
import type { ExitCode, Terminal } from '../terminal.ts';
import { wholeNumber } from '../whole-number.ts';
import { writeWhole } from '../write-whole.ts';
import { WrongCall } from '../wrong-call.ts';

interface Options { readonly step?: string; readonly between?: readonly string[]; readonly mode?: string; readonly value?: string; readonly seen?: string; readonly who?: string; readonly with?: string; readonly note?: string; readonly corrects?: string; readonly list?: boolean; readonly proposals?: boolean; readonly apply?: string; readonly json?: boolean }

/** @param stepAndValue  `--step` and `--value` in short */
export async function reading(path: string, stepAndValue: readonly string[], given: Options, terminal: Terminal): Promise<ExitCode> {
  const options = withShort(stepAndValue, given);
  const { text, file } = openBuild(path);
  const folder = dirname(file);
  const analysis = analyse(text, words);
  const disk = await orWrongCall(readReadings(folder));
  for (const problem of disk.log.problems) terminal.warn(`${problemText(READINGS, problem)}\n`);
  if (options.apply !== undefined) await apply(file, text, analysis, disk, options.apply, terminal);
  else if (options.proposals === true) propose(path, analysis, disk, options.json === true, terminal);
  else if (options.list === true) list(analysis, disk, options.json === true, terminal);
  else return (await enter(path, folder, analysis, revisionOf(text), disk, options, terminal)) === 'outside' ? 1 : 0;
  return 0;
}

function withShort(given: readonly string[], options: Options): Options {
  const unknown = given.find((one) => /^-\D/.test(one));
  if (unknown !== undefined) throw new WrongCall(`unknown option '${unknown}'; halfshaft reading --help lists all.`);
  const [step, value, ...more] = given;
  if (step === undefined) return options;
  if (more.length > 0) throw new WrongCall(`Found ${more.join(' ')} behind the reading, expected a step and one reading; put a reading with its unit in quotes: "12.4 V".`);
  if (options.step !== undefined || options.between !== undefined || (value !== undefined && options.value !== undefined)) throw new WrongCall('Say the step and the reading once: behind the build, or with --step and --value.');
  const isAnswer = value === 'yes' || value === 'no';
  return { ...options, step, ...(value === undefined ? {} : isAnswer ? { seen: value } : { value }) };
}

function list(analysis: Analysis, { log }: LogOnDisk, isJson: boolean, { print }: Terminal): void {
  const begun = (['assembly', 'power-up'] as const).filter((name) => name === 'power-up' || log.readings.some(({ procedure }) => procedure === name)).map((name) => procedureOf(name, analysis, log.readings));
  const next = ({ steps, progress }: Procedure): ReadStep | undefined => steps[progress.goOn];
  const lines = begun.flatMap((one) => { const step = next(one); return step ? [`${one.name === 'assembly' ? 'Assembly' : 'Power-up'}: ${one.progress.passed} of ${one.steps.length} steps passed; go on with ${step.id} (${step.title}).`] : []; });
  const repeat = begun.flatMap(({ steps, progress }) => steps.filter((_, index) => progress.steps[index]!.status === 'repeat').map(({ id }) => id));
  if (repeat.length > 0) lines.push(`To be done again, because the build has changed in what they rest on: ${repeat.join(', ')}.`);
  if (isJson) print(`${JSON.stringify(logJson(analysis.build.name, log, { power_up: next(begun.at(-1)!)?.id, assembly: begun.length > 1 ? next(begun[0]!)?.id : undefined, repeat }), null, 2)}\n`);
  else print(logText(analysis.build.name, log, lines));
}

function propose(path: string, analysis: Analysis, { log }: LogOnDisk, isJson: boolean, terminal: Terminal): void {
  const proposals = proposedBy(analysis, log.readings);
  terminal.print(isJson ? `${JSON.stringify(proposalsJson(analysis.build.name, proposals), null, 2)}\n` : proposalsText(path, proposals, textWidth(terminal)));
}

/** Writes one of them into the build file; nothing else of it changes. */
async function apply(file: string, text: string, analysis: Analysis, { log }: LogOnDisk, which: string, { print }: Terminal): Promise<void> {
  const proposals = proposedBy(analysis, log.readings);
  if (proposals.length === 0) throw new WrongCall('No reading makes a number of the file better, so there is nothing to apply.');
  const proposal = proposals[wholeNumber(which, '--apply', 1, proposals.length) - 1]!;
  const edited = editBuild(text, { do: 'set', path: proposal.path, to: proposal.text }, words);
  if (!edited.ok) throw new WrongCall(`${proposal.path} was not changed: ${edited.problem.message}`);
  if (openBuild(file).text !== text) throw new WrongCall(`${file} has changed while this was worked out; nothing was written. Call it again.`);
  await writeWhole(file, edited.text);
  print(`${proposal.path} is ${proposal.text} now${proposal.instead === undefined ? '' : ` (was ${proposal.instead})`}. Written into ${file}.\n`);
}

/** The step of whichever procedure has it; ids tell which. */
function procedureWith(path: string, id: string, analysis: Analysis, log: LogOnDisk['log']): { readonly procedure: Procedure; readonly step: ReadStep } {
  const isAssembly = id.startsWith('assembly.');
  const procedure = procedureOf(isAssembly ? 'assembly' : 'power-up', analysis, log.readings);
  const step = procedure.steps.find((one) => one.id === id);
  if (step) return { procedure, step };
  if (procedure.why !== undefined) throw new WrongCall(procedure.why);
  throw noSuch('step', id, procedure.steps.map((one) => one.id), `halfshaft ${isAssembly ? 'order' : 'power-up'} ${path} lists all.`);
}

async function enter(path: string, folder: string, analysis: Analysis, revision: string, { log }: LogOnDisk, options: Options, terminal: Terminal): Promise<Verdict['word']> {
  const { build, car, ask } = analysis;
  const { value, seen } = options;
  if ((options.step === undefined) === (options.between === undefined)) throw new WrongCall('Say which step it is (--step join.H06), or which points (--between M1.pos chassis). halfshaft power-up and halfshaft order list the steps; --list prints what was written.');
  const found = options.step === undefined ? undefined : procedureWith(path, options.step, analysis, log);
  const step = found?.step ?? between(path, analysis, options);
  const steps = found?.procedure.steps ?? [];
  const worked = value === undefined && seen === undefined ? isolationRead(step, steps, log.readings) : undefined;
  if (worked && worked.outcome !== 'resistance') throw new WrongCall(worked.outcome === 'missing' ? `To work the isolation out, readings are missing: ${worked.steps.join('; ')}. Or give it with --value.` : worked.why);
  const said = value ?? (worked ? printValue(worked.resistance, 'resistance', { digits: 4 }) : seen);
  if (said === undefined || (value !== undefined && seen !== undefined)) throw new WrongCall(quantityOfStep(step) ? 'Say what the meter shows: --value "12.4 V". For a step without a prediction: --seen yes or --seen no as well, in a call of its own.' : 'Nothing is measured in this step. Say whether it is so: --seen yes or --seen no.');
  const quantity = seen !== undefined ? OBSERVATION : quantityOfStep(step);
  if (quantity === undefined) throw new WrongCall('Nothing is measured in this step. Say whether it is so: --seen yes or --seen no.');
  const entered = readEntered(said, quantity);
  if (!entered.ok) throw new WrongCall(`--${seen === undefined ? 'value' : 'seen'} ${said}: ${entered.problem}`);
  const verdict = judging(car, ask).judge(step, entered.value, () => ({
    readings: log.readings, steps: (['assembly', 'power-up'] as const).filter((name) => log.readings.some(({ procedure }) => procedure === name)).flatMap((name) => procedureOf(name, analysis, log.readings).steps),
  }));
  const line: Reading = {
    id: newLineId(), when: new Date().toISOString(), who: onOneLine(options.who ?? loggedIn()), procedure: found?.procedure.name ?? 'free', step: step.id,
    state: step.stateSays ?? (step.state ? stateWordsOf(step.state) : ''), points: pointsOfStep(step.measure), quantity, reading: onOneLine(said), instrument: onOneLine(options.with ?? (seen === undefined ? step.instrument?.name ?? '' : '')),
    verdict: verdict.word, revision, restsOn: options.step === undefined ? '' : restsOn(step, build), replaces: options.corrects ?? '', note: onOneLine([worked ? `worked out of the readings before; a single leak would sit at ${Math.round(worked.leakAt * 100)} % of the voltage from the negative end` : '', options.note ?? ''].filter((part) => part !== '').join('; ')), more: [],
  };
  const held = found && holdBefore(steps, found.procedure.progress, steps.indexOf(step));
  await orWrongCall(addReading(folder, line));
  if (options.json === true) terminal.print(`${JSON.stringify(verdictJson(line, verdict), null, 2)}\n`);
  else {
    terminal.print(verdictText(step.title, verdict, quantityOfStep(step) ?? 'voltage', textWidth(terminal)));
    if (worked) terminal.print(`Worked out of the readings before: ${said}. A single leak would sit at ${Math.round(worked.leakAt * 100)} % of the voltage from the negative end.\n`);
    if (held !== undefined) terminal.print(`■ The hold point ${steps[held]!.id} (${steps[held]!.title}) before this step is not passed yet: go back to it.\n`);
    terminal.print(`Written into ${READINGS} as ${line.id}.\n`);
  }
  return verdict.word;
}

function between(path: string, { car, ask, prepared }: Analysis, { between: points = [], mode, value }: Options): ReadStep {
  const [a, b, more] = points;
  if (a === undefined || b === undefined || more !== undefined) throw new WrongCall('--between expects two points, such as --between M1.pos chassis.');
  for (const point of [a, b]) if (!ask.points.includes(point)) throw noSuch('point', point, ask.points, `halfshaft points ${path} lists all.`);
  const state = readState(mode === undefined ? {} : { mode }, car);
  if (!state.ok) throw new WrongCall(state.problems.join('\n'));
  const quantity = value === undefined ? 'voltage' : quantityOfText(value);
  if (quantity !== 'voltage' && quantity !== 'resistance') throw new WrongCall(`--value ${value ?? ''}: between two points expected a voltage such as 12.4 V, or a resistance such as 60 Ω.`);
  return freeStep(car, ask, prepared, { a, b, state: state.state, quantity });
}
