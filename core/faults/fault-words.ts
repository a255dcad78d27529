/** A fault-finding conversation in words: the same in the terminal and on the screen. */
import type { StateWords } from '../car/read-state.ts';
import { printValue } from '../quantity/print-value.ts';
import type { AskedState } from './asked-state.ts';
import type { CandidateTest } from './candidate-tests.ts';
import type { Outcome } from './engine/choose-test.ts';
import type { NextTest } from './fault-finder.ts';
import type { RankedCause, Ranking } from './ranking.ts';
import { ohmsFromScale } from './forecasts.ts';
import type { FaultSort, Hypothesis } from './hypothesis.ts';
import type { Look, Observation } from './observation.ts';
import type { OfferedStates } from './offered-states.ts';
import type { ThingSort } from './things.ts';

/** Above this an ohmmeter on a harness shows what it shows with its leads apart [ohm]. */
const OPEN = 5e5;

/** A chance in percent; never 0 or 100. */
export const percentWords = (chance: number): string => (chance >= 0.995 ? '> 99 %' : chance < 0.01 ? '< 1 %' : `${Math.round(100 * chance)} %`);

/** A phrase as the beginning of a sentence. */
export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** What to do next, as a sentence. */
export function nextWords({ test, isAgain }: NextTest): string {
  const asked = isAgain ? `Once more, to be sure: ${test.words}` : capital(test.words);
  return asked.endsWith('?') ? asked : `${asked}.`;
}

/** What it may be, as a sentence without a full stop. */
export const causeWords = ({ hypothesis: { words, disturbed } }: RankedCause): string => `${words}${disturbed.length > 0 ? ` (you wrote that it was ${disturbed.join(' and ').replaceAll('_', '-')})` : ''}`;

/** Which causes an outcome leaves. */
export function remainWords({ remain }: Outcome, { hypotheses }: Ranking): string {
  const causes = new Map<string, { chance: number; readonly words: string }>();
  for (const { hypothesis: index, chance } of remain) {
    const hypothesis = hypotheses[index]!;
    const known = causes.get(hypothesis.cause);
    if (known) known.chance += chance;
    else causes.set(hypothesis.cause, { chance, words: shortWords(hypothesis) });
  }
  const names = [...causes.values()].sort((a, b) => b.chance - a.chance).map(({ words }) => words);
  return names.length <= 4 ? `${names.join(', ')} remain${names.length === 1 ? 's' : ''}` : `${names.slice(0, 3).join(', ')} and ${names.length - 3} others remain`;
}

const SHORT: Partial<Record<FaultSort, string>> = {
  run_open: 'parted', run_resistive: 'a bad joint', run_to_chassis: 'on the body', run_to_supply: 'on a live wire', run_to_run: 'on each other', silent: 'silent on the bus', flat: 'flat',
};

/** A cause in two or three words, for a list of many: `F2 blown`, `W5 parted`. */
export function shortWords({ cause, sort, about }: Hypothesis): string {
  if (sort === 'unlisted') return 'something not in the list';
  if (sort === 'swapped') return `${about.slice(1).join(' and ')} swapped at ${about[0] ?? ''}`;
  const short = SHORT[sort];
  if (short !== undefined) return `${about.join(' and ')} ${short}`;
  return cause.replace(/\.([a-z0-9_]+)/g, (_, failure: string) => ` ${failure.replaceAll('_', ' ')}`).replaceAll(' + ', ' and ') + (sort === 'pins_touch' ? ' touch' : '');
}

export function outcomeWords(look: Look, { outcome }: Outcome): string {
  if (typeof outcome === 'boolean') return outcome ? 'if yes' : 'if no';
  const print = (value: number): string => (look.is === 'resistance' ? (ohmsFromScale(value) > OPEN ? 'open' : printValue(rounded(ohmsFromScale(value)), 'resistance')) : printValue(Math.abs(value) < 0.005 ? 0 : rounded(value), look.is === 'current' ? 'current' : 'voltage'));
  const [low, high] = [print(outcome[0]), print(outcome[1])];
  return low === high ? `if about ${low}` : `if ${low} to ${high}`;
}

const rounded = (value: number): number => Number(value.toPrecision(3));

/** How the car stands for a test, as a sentence. */
export function askedStateWords(state: AskedState, states: OfferedStates): string {
  const out = states.disconnects.join(' and ');
  if (state === states.dead) return [`Everything off`, ...(state.set ? [`${out} out`] : []), ...(state.without.length > 0 ? [`${state.without.join(', ')} taken off`] : [])].join(', ').concat('.');
  if (state === states.disconnected) return `With ${out} out, mode ${state.mode ?? '(none)'} asked for.`;
  if (state === states.packOpen) return `With the pack parted at ${state.without.join(', ')}, mode ${state.mode ?? '(none)'} asked for.`;
  return `Mode ${state.mode ?? '(none)'} asked for.`;
}

/** Behind what was seen, as `readObservation` takes it: in which of the offered states. */
export function whereWords(state: AskedState, { packOpen, disconnected }: OfferedStates): '' | '@pack_open' | '@disconnect_out' {
  return state === packOpen ? '@pack_open' : state === disconnected ? '@disconnect_out' : '';
}

/** What makes a test dangerous, as a sentence; '' for one that is not. */
export function dangerWords({ state, danger, at }: Pick<CandidateTest, 'state' | 'danger' | 'at'>, { packOpen }: OfferedStates): string {
  if (danger !== 'high') return '';
  if (at === 'high') return 'High voltage exposed: it can kill.';
  return state === packOpen ? 'A pack joint comes apart under voltage: it can kill.' : 'It puts the high voltage on, or a pack joint together, with a fault in it: it can kill.';
}

/** A state as the meter of the car with nothing wrong takes it. */
export function stateWords({ mode, without, set }: AskedState): StateWords {
  const held = Object.entries(set ?? {}).flatMap(([part, settings]) => Object.entries(settings).map(([setting, value]) => `${part}.${setting}=${value === true ? 'yes' : value === false ? 'no' : String(value)}`));
  return { ...(mode === undefined ? {} : { mode }), without, ...(held.length > 0 ? { set: held } : {}) };
}

/** How much a test tells, for somebody who thinks in causes that are left. @param gain  [bit] */
export function gainWords(gain: number): string {
  const share = 2 ** -gain;
  if (gain >= 1.8) return `on average it leaves about one in ${Math.round(1 / share)} of what is likely`;
  if (gain >= 0.75) return 'on average it halves what is likely';
  return `on average it strikes about ${gain < 0.06 ? 'one in thirty' : gain < 0.12 ? 'one in fifteen' : gain < 0.2 ? 'one in ten' : gain < 0.3 ? 'one in six' : gain < 0.5 ? 'a quarter' : 'a third'} of what is likely`;
}

/** What is left to find out, as a number of causes that would be as hard to tell apart if each were as likely. @param entropy  [bit] */
export function leftWords(entropy: number): string {
  const count = leftCount(entropy);
  return count < 2 ? 'hardly a doubt' : `like ${count} equally likely causes`;
}

/** That number, rounded. */
export function leftCount(entropy: number): number {
  const count = 2 ** entropy;
  return count < 10 ? Math.round(count) : Number(count.toPrecision(count < 100 ? 1 : 2));
}

/** What was looked at, as `readObservation` takes it. */
export function lookWords(look: Look): string {
  switch (look.is) {
    case 'voltage':
    case 'resistance': return `${look.a}-${look.b}`;
    case 'current': return `I(${look.of})`;
    case 'thing': return `${look.of}.${look.what}`;
    case 'reached': return `reached.${look.mode}`;
    case 'blown': return look.of === undefined ? 'blown' : `${look.of}.blown`;
    case 'falls_back':
    case 'isolation_warning':
    case 'drains': return look.is;
  }
}

const DOES: Readonly<Record<ThingSort, string>> = { closes: 'clicks and stays in', lights: 'lights or sounds', runs: 'runs, or is awake', gives: 'gives current' };

/** What was seen, in a few words. */
export function observationWords({ look, value }: Observation): string {
  const answer = value === true ? 'yes' : 'no';
  switch (look.is) {
    case 'voltage': return `${look.a} to ${look.b}: ${printValue(value as number, 'voltage')}`;
    case 'resistance': return `${look.a} to ${look.b}: ${Number.isFinite(value) ? printValue(value as number, 'resistance') : 'open'}`;
    case 'current': return `Clamp around ${look.of}: ${printValue(value as number, 'current')}`;
    case 'thing': return `${look.of} ${DOES[look.what]}: ${answer}`;
    case 'reached': return `Mode ${look.mode} is reached: ${answer}`;
    case 'falls_back': return `The mode is reached and left again by itself: ${answer}`;
    case 'blown': return look.of === undefined ? `A fuse blows: ${answer}` : `${look.of} has blown: ${answer}`;
    case 'isolation_warning': return `The isolation warning stands: ${answer}`;
    case 'drains': return `Switched off, the 12 V battery gives more than the file says: ${answer}`;
  }
}
