/** A fault-finding conversation in words: the same in the terminal and on the screen. */
import { printValue } from '../quantity/print-value.ts';
import type { AskedState } from './asked-state.ts';
import type { Outcome } from './engine/choose-test.ts';
import type { NextTest, RankedCause, Ranking } from './fault-finder.ts';
import { ohmsFromScale } from './forecasts.ts';
import type { Look, Observation } from './observation.ts';
import type { OfferedStates } from './offered-states.ts';
import { questionOf } from './things.ts';

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
  const causes = new Map<string, number>();
  for (const { hypothesis, chance } of remain) { const { cause } = hypotheses[hypothesis]!; causes.set(cause, (causes.get(cause) ?? 0) + chance); }
  const names = [...causes].sort((a, b) => b[1] - a[1]).map(([cause]) => cause);
  return names.length <= 4 ? `${names.join(', ')} remain${names.length === 1 ? 's' : ''}` : `${names.slice(0, 3).join(', ')} and ${names.length - 3} others remain`;
}

export function outcomeWords(look: Look, { outcome }: Outcome): string {
  if (typeof outcome === 'boolean') return outcome ? 'if yes' : 'if no';
  const print = (value: number): string => (look.is === 'resistance' ? (ohmsFromScale(value) > OPEN ? 'open' : printValue(rounded(ohmsFromScale(value)), 'resistance')) : printValue(Math.abs(value) < 0.005 ? 0 : rounded(value), 'voltage'));
  const [low, high] = [print(outcome[0]), print(outcome[1])];
  return low === high ? `if about ${low}` : `if ${low} to ${high}`;
}

const rounded = (value: number): number => Number(value.toPrecision(3));

/** How the car stands for a test, as a sentence. */
export function askedStateWords(state: AskedState, states: OfferedStates): string {
  if (state === states.dead) return `Everything off, ${state.without.join(', ')} taken off.`;
  if (state === states.packOpen) return `With the pack parted at ${state.without.join(', ')}, mode ${state.mode ?? '(none)'} asked for.`;
  return `Mode ${state.mode ?? '(none)'} asked for.`;
}

/** What was looked at, as `readObservation` takes it. */
export function lookWords(look: Look): string {
  switch (look.is) {
    case 'voltage':
    case 'resistance': return `${look.a}-${look.b}`;
    case 'thing': return `${look.of}.${look.what}`;
    case 'reached': return `reached.${look.mode}`;
    case 'blown': return look.of === undefined ? 'blown' : `${look.of}.blown`;
    case 'falls_back':
    case 'isolation_warning':
    case 'drains': return look.is;
  }
}

export function observationWords({ look, value }: Observation): string {
  if (typeof value === 'boolean') return `${look.is === 'thing' ? `${questionOf(look)}?` : lookWords(look)} ${value ? 'yes' : 'no'}`;
  return `${lookWords(look)} ${look.is === 'resistance' ? (Number.isFinite(value) ? printValue(value, 'resistance') : 'open') : printValue(value, 'voltage')}`;
}
