/** Fault finding in words. */
import type { NextTest, RankedCause, Ranking, Verdict } from '../../core/faults/fault-finder.ts';
import { ohmsFromScale } from '../../core/faults/forecasts.ts';
import type { Outcome } from '../../core/faults/engine/choose-test.ts';
import type { Look, Observation } from '../../core/faults/observation.ts';
import type { OfferedStates } from '../../core/faults/offered-states.ts';
import type { AskedState } from '../../core/faults/asked-state.ts';
import { questionOf } from '../../core/faults/things.ts';
import { printValue } from '../../core/quantity/print-quantity.ts';
import { bold, faint } from './paint.ts';
import { wrapped } from './wrapped.ts';

const percent = (chance: number): string => (chance >= 0.995 ? '> 99 %' : chance < 0.01 ? '< 1 %' : `${Math.round(100 * chance)} %`);
const block = (text: string, width: number, indent = '  '): string => wrapped(text, width - indent.length).map((line, index) => (index === 0 ? '' : indent) + line).join('\n');

export function faultHead(name: string, mode: string | undefined, count: number, width: number): string {
  return [
    bold(`${name}: why does it do nothing in mode ${mode ?? '(none)'}?`),
    ...wrapped(`This work can kill and can burn a house down. Qualified help, local codes and inspection decide. ${count} things that may be wrong were computed from the build file; how likely each is before anything was seen is common practice. A model never proves that a circuit is dead, only a meter does, tried on a known source before and after.`, width),
    '', '',
  ].join('\n');
}

const SHOWN = 6;

export function causesText({ causes, withPairs }: Ranking, width: number): string {
  const lines = [bold('It may be'), ...causes.slice(0, SHOWN).map((cause) => `  ${percent(cause.chance).padStart(6)}  ${block(sentence(cause), width - 8, '          ')}`)];
  const rest = causes.slice(SHOWN).reduce((sum, { chance }) => sum + chance, 0);
  if (rest > 0.005) lines.push(`  ${percent(rest).padStart(6)}  ${faint(`one of ${causes.length - SHOWN} others`)}`);
  if (withPairs) lines.push(faint('  No single fault explains what was seen: two at once were looked for as well.'));
  return `${lines.join('\n')}\n\n`;
}

const sentence = ({ hypothesis: { words, disturbed } }: RankedCause): string => `${words}${disturbed.length > 0 ? ` (you wrote that it was ${disturbed.join(' and ').replaceAll('_', '-')})` : ''}`;

export function nextText({ test, gain, isAgain, outcomes, instead }: NextTest, ranking: Ranking, states: OfferedStates, width: number): string {
  const asked = isAgain ? `Once more, to be sure: ${test.words}` : capital(test.words);
  const lines = [bold('Next'), `  ${block(`${asked}${asked.endsWith('?') ? '' : '.'} ${stateWords(test.state, states)}`, width)}`];
  for (const precaution of test.precautions) lines.push(`  ${block(`Caution: ${precaution}`, width)}`);
  for (const outcome of outcomes.slice(0, 5)) lines.push(`  ${block(`- ${outcomeWords(test.look, outcome)} (${percent(outcome.chance)}): ${remainWords(outcome, ranking)}`, width, '    ')}`);
  const other = instead.slice(0, 2).map(({ words }) => `; or ${words}`).join('');
  lines.push(faint(`  ${block(`worth ${gain.toFixed(1)} bit of ${ranking.entropy.toFixed(1)}, ${test.cost < 1 ? 'about a minute' : `about ${Math.ceil(test.cost)} minutes’ worth`}${test.danger === 'high' ? ', high voltage exposed' : ''}${other}`, width)}`));
  return `${lines.join('\n')}\n\n`;
}

function remainWords({ remain }: Outcome, { hypotheses }: Ranking): string {
  const causes = new Map<string, number>();
  for (const { hypothesis, chance } of remain) { const { cause } = hypotheses[hypothesis]!; causes.set(cause, (causes.get(cause) ?? 0) + chance); }
  const names = [...causes].sort((a, b) => b[1] - a[1]).map(([cause]) => cause);
  return names.length <= 4 ? `${names.join(', ')} remain${names.length === 1 ? 's' : ''}` : `${names.slice(0, 3).join(', ')} and ${names.length - 3} others remain`;
}

function outcomeWords(look: Look, { outcome }: Outcome): string {
  if (typeof outcome === 'boolean') return outcome ? 'if yes' : 'if no';
  const print = (value: number): string => (look.is === 'resistance' ? (ohmsFromScale(value) > 5e5 ? 'open' : printValue(round(ohmsFromScale(value)), 'resistance')) : printValue(Math.abs(value) < 0.005 ? 0 : round(value), 'voltage'));
  const [low, high] = [print(outcome[0]), print(outcome[1])];
  return low === high ? `if about ${low}` : `if ${low} to ${high}`;
}

const round = (value: number): number => Number(value.toPrecision(3));

function stateWords(state: AskedState, states: OfferedStates): string {
  if (state === states.dead) return `Everything off, ${state.without.join(', ')} taken off.`;
  if (state === states.packOpen) return `With the pack parted at ${state.without.join(', ')}, mode ${state.mode ?? '(none)'} asked for.`;
  return `Mode ${state.mode ?? '(none)'} asked for.`;
}

export function verdictText({ group, chance, isSettled }: Verdict, isExhausted: boolean, width: number): string {
  const lines: string[] = [];
  const [first] = group;
  if (!isSettled && isExhausted) lines.push(bold('Nothing on offer tells more.'), `  ${block('What remains is above. Look at each, likeliest first; or measure where the file may be wrong.', width)}`);
  if (!first || !isSettled) return `${lines.join('\n')}\n\n`;
  lines.push(bold(group.length === 1 ? `It is this (${percent(chance)})` : `It is one of these ${group.length} (${percent(chance)}); no reading away from exposed high voltage tells them apart`));
  for (const { hypothesis } of group.slice(0, 8)) {
    lines.push(`  ${block(`${capital(hypothesis.words)}.`, width)}`, `    ${block(`To confirm: ${hypothesis.confirm}`, width - 2, '    ')}`, `    ${block(`To mend: ${hypothesis.mend}`, width - 2, '    ')}`);
  }
  lines.push(`  ${block('After mending take the readings of the first power-up again where you have been.', width)}`);
  return `${lines.join('\n')}\n\n`;
}

/** What was looked at, as `--observe` takes it. */
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

export function pathText(observations: readonly Observation[], width: number): string {
  if (observations.length === 0) return 'Nothing was observed.\n';
  return `${[bold('The path taken'), ...observations.map((observation, index) => `  ${index + 1}. ${block(observationWords(observation), width - 5, '     ')}`)].join('\n')}\n`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
