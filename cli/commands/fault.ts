/** halfshaft fault BUILD: what may be wrong, and what to measure next; a conversation, or one answer for `--observe`. What is kept stands in readings.csv. */
import { dirname } from 'node:path';
import { createInterface } from 'node:readline';
import { analyse } from '../../core/analyse.ts';
import { askedMode, finderOf } from '../../core/faults/finder-of.ts';
import type { FaultFinder } from '../../core/faults/fault-finder.ts';
import { lookWords, whereWords } from '../../core/faults/fault-words.ts';
import { hear } from '../../core/faults/hear.ts';
import type { Heard, Said, Taken } from '../../core/faults/hear.ts';
import type { Look } from '../../core/faults/observation.ts';
import { openCase, saidCells } from '../../core/readings/fault-cases.ts';
import { endCells, takenBackCells } from '../../core/readings/fault-marks.ts';
import type { FaultCase } from '../../core/readings/fault-cases.ts';
import { READINGS } from '../../server/readings-on-disk.ts';
import { words } from '../../catalogue/words.ts';
import { openFaultLog } from '../fault-log.ts';
import type { FaultLog } from '../fault-log.ts';
import { noSuch } from '../no-such.ts';
import { openBuild } from '../open-build.ts';
import { casesText, pathText } from '../show/fault-case-text.ts';
import { faultJson } from '../show/fault-json.ts';
import { causesText, faultHead, nextText, verdictText } from '../show/fault-text.ts';
import { problemText } from '../show/reading-text.ts';
import { textWidth } from '../show/text-width.ts';
import type { Terminal } from '../terminal.ts';
import { WrongCall } from '../wrong-call.ts';

interface Options {
  readonly mode?: string; readonly symptom: readonly string[]; readonly observe: readonly string[];
  readonly resume?: string | true; readonly takeBack?: string; readonly end?: string | true; readonly keep?: boolean; readonly who?: string;
  readonly cases?: boolean; readonly ask?: boolean; readonly json?: boolean;
}

export async function fault(path: string, options: Options, terminal: Terminal): Promise<void> {
  const { print, warn } = terminal;
  const { text, file } = openBuild(path);
  const { build, car, ask } = analyse(text, words, { only: [] });
  if (car.parts.size === 0) throw new WrongCall(`${path} has no parts yet, so there is nothing to find.`);
  const log = await openFaultLog(dirname(file), text, options.who);
  for (const problem of log.problems) warn(`${problemText(READINGS, problem)}\n`);
  if (options.cases === true) {
    print(options.json === true ? `${JSON.stringify({ build: build.name, cases: log.cases }, null, 2)}\n` : casesText(build.name, log.cases));
    return;
  }
  const modes = [...car.modes.keys()];
  const resumed = options.resume === undefined ? undefined : caseNamed(log.cases, options.resume, path);
  if (resumed && options.mode !== undefined && options.mode !== resumed.mode) throw new WrongCall(`${resumed.name} is about mode ${resumed.mode ?? '(none)'}: leave --mode away, or begin a new one without --resume.`);
  const wanted = resumed ? resumed.mode : options.mode;
  if (wanted !== undefined && !car.modes.has(wanted)) throw noSuch('mode', wanted, modes, `There are ${modes.join(', ') || 'none'}.`);
  const finder = finderOf(car, ask, askedMode(car, wanted, ask, resumed ? [] : options.symptom));
  const isAsking = options.json !== true && (options.ask === true || (terminal.typedOn !== undefined && terminal.isScreen));
  const isKeeping = options.keep ?? (isAsking || resumed !== undefined);
  const talk = conversation(finder, (said) => hear(said, car, finder), log, resumed, isKeeping);
  for (const problem of talk.lost) warn(`${problem}\n`);
  if (options.takeBack !== undefined) await talk.takeBack(options.takeBack);
  for (const said of [...options.symptom.map((one): Said => ({ is: 'symptom', text: one })), ...options.observe.map((one): Said => ({ is: 'seen', text: one }))]) {
    const problem = await talk.say(said);
    if (problem !== undefined) throw new WrongCall(problem);
  }
  if (options.json === true) {
    const ranking = finder.rank(talk.observations());
    const answer = faultJson(build.name, finder, ranking) as object;
    if (options.end !== undefined) await talk.end(options.end === true ? '' : options.end);
    print(`${JSON.stringify({ ...answer, case: talk.name() ?? null, said: talk.said().map(({ id, taken }) => ({ id: id ?? null, ...taken.said })) }, null, 2)}\n`);
    return;
  }
  const width = textWidth(terminal);
  print(faultHead(build.name, finder.states.asked.mode, finder.hypotheses.length, width));
  const open = resumed ? undefined : openCase(log.cases);
  if (open) print(`There is an open conversation, ${open.name}, begun ${open.begun.slice(0, 10)}: --resume ${open.name} goes on with it.\n\n`);
  if (isAsking && isKeeping) print(`What you answer is kept in ${READINGS}; --no-keep writes nothing.\n\n`);
  const show = (): Shown => {
    const ranking = finder.rank(talk.observations());
    const verdict = finder.verdict(ranking);
    const next = verdict.isSettled ? undefined : finder.next(ranking);
    print(causesText(ranking, width));
    print(verdict.isSettled || !next ? verdictText(verdict, next === undefined && !verdict.isSettled, width) : nextText(next, ranking, finder.states, width));
    return { look: next?.test.look, at: next === undefined ? '' : whereWords(next.test.state, finder.states) };
  };
  let shown = show();
  if (isAsking) await converse(talk, () => shown, () => { shown = show(); }, width, terminal);
  if (options.end !== undefined) await talk.end(options.end === true ? '' : options.end);
  const name = talk.name();
  if (isAsking || talk.said().length > 0) print(pathText(talk.said().map(({ taken, id }) => ({ words: taken.words, id })), width));
  if (name !== undefined) print(`Kept in ${READINGS} as ${name}. ${talk.isEnded() ? 'It is ended.' : `Go on with: halfshaft fault ${path} --resume ${name}`}\n`);
}

interface Shown { readonly look: Look | undefined; readonly at: string }

async function converse(talk: Conversation, shown: () => Shown, again: () => void, width: number, { print, input, typedOn }: Terminal): Promise<void> {
  const lines = createInterface({ input, ...(typedOn ? { output: typedOn } : {}) });
  const asks = 'What did you find? (the value; or something else: F1.b-chassis=12.1 V; back; path; mended; leave) ';
  lines.setPrompt(asks);
  lines.prompt();
  for await (const line of lines) {
    const answer = line.trim();
    if (answer === 'leave' || (answer === '' && typedOn !== undefined)) break;
    if (answer === 'mended' || answer.startsWith('mended ')) { if (talk.name() !== undefined) await talk.end(answer); break; }
    if (answer === 'path') print(pathText(talk.said().map(({ taken, id }) => ({ words: taken.words, id })), width));
    else if (answer === 'back') { if (talk.said().length > 0) await talk.takeBack('last'); again(); }
    else if (answer !== '') {
      const { look, at } = shown();
      const problem = await talk.say({ is: 'seen', text: answer.includes('=') || look === undefined ? answer : `${lookWords(look)}=${answer}${at}` });
      if (problem === undefined) again();
      else print(`${problem}\n`);
    }
    lines.prompt();
  }
  lines.close();
}

interface Kept { readonly id: string | undefined; readonly taken: Taken }

interface Conversation {
  readonly said: () => readonly Kept[];
  readonly observations: () => readonly Taken['observations'][number][];
  /** of what is kept; undefined: nothing is */
  readonly name: () => string | undefined;
  readonly isEnded: () => boolean;
  /** of the log, what this build cannot be asked for any more; sentences */
  readonly lost: readonly string[];
  /** @returns a sentence when it cannot be taken in; nothing is kept then */
  readonly say: (said: Said) => Promise<string | undefined>;
  /** @param which  id of its line, or `last` */
  readonly takeBack: (which: string) => Promise<void>;
  readonly end: (note: string) => Promise<void>;
}

function conversation({ states }: FaultFinder, listen: (said: Said) => Heard, log: FaultLog, resumed: FaultCase | undefined, isKeeping: boolean): Conversation {
  const kept: Kept[] = [];
  const lost: string[] = [];
  for (const { id, said } of resumed?.entries ?? []) {
    const heard = listen(said);
    if (heard.ok) kept.push({ id, taken: heard.taken });
    else lost.push(`${READINGS}, ${id} is left out: ${heard.problem}`);
  }
  let name = resumed?.name;
  let isEnded = resumed?.end !== undefined;
  return {
    lost, said: () => kept, name: () => name, isEnded: () => isEnded,
    observations: () => kept.flatMap(({ taken }) => taken.observations),
    say: async (said) => {
      const heard = listen(said);
      if (!heard.ok) return heard.problem;
      let id: string | undefined;
      if (isKeeping) id = await log.add(saidCells((name ??= log.newName(states.asked.mode)), heard.taken, states));
      kept.push({ id, taken: heard.taken });
      return undefined;
    },
    takeBack: async (which) => {
      const at = which === 'last' ? kept.length - 1 : kept.findIndex(({ id }) => id === which);
      const one = kept[at];
      if (!one) throw which === 'last' ? new WrongCall('Nothing was said that could be taken back.') : noSuch('line', which, kept.flatMap(({ id }) => id ?? []), 'Only what counts can be taken back: --resume prints the ids.');
      if (one.id !== undefined && isKeeping) await log.add(takenBackCells(name!, one.id));
      kept.splice(at, 1);
    },
    end: async (note) => {
      if (name === undefined) throw new WrongCall('Nothing of this conversation is kept, so there is nothing to end: --resume names one that is.');
      if (isKeeping && !isEnded) await log.add(endCells(name, note));
      isEnded = true;
    },
  };
}

function caseNamed(cases: readonly FaultCase[], wanted: string | true, path: string): FaultCase {
  const found = wanted === true ? openCase(cases) : cases.find(({ name }) => name === wanted);
  if (found) return found;
  if (wanted === true) throw new WrongCall(`There is no open conversation to resume in ${READINGS}. halfshaft fault ${path} --cases lists all.`);
  throw noSuch('conversation', wanted, cases.map(({ name }) => name), `halfshaft fault ${path} --cases lists all.`);
}
