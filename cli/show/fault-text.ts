/** Fault finding in words. */
import type { NextTest, Verdict } from '../../core/faults/fault-finder.ts';
import type { Ranking } from '../../core/faults/ranking.ts';
import { askedStateWords, capital, causeWords, dangerWords, gainWords, leftWords, nextWords, outcomeWords, percentWords, remainWords } from '../../core/faults/fault-words.ts';
import type { OfferedStates } from '../../core/faults/offered-states.ts';
import { bold, faint } from './paint.ts';
import { wrapped } from './wrapped.ts';

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
  const lines = [bold('It may be'), ...causes.slice(0, SHOWN).map((cause) => `  ${percentWords(cause.chance).padStart(6)}  ${block(causeWords(cause), width - 8, '          ')}`)];
  const rest = causes.slice(SHOWN).reduce((sum, { chance }) => sum + chance, 0);
  if (rest > 0.005) lines.push(`  ${percentWords(rest).padStart(6)}  ${faint(`one of ${causes.length - SHOWN} others`)}`);
  if (withPairs) lines.push(faint('  No single fault explains what was seen: two at once were looked for as well.'));
  return `${lines.join('\n')}\n\n`;
}

export function nextText(next: NextTest, ranking: Ranking, states: OfferedStates, width: number): string {
  const { test, gain, outcomes, instead } = next;
  const lines = [bold('Next'), `  ${block(`${nextWords(next)} ${askedStateWords(test.state, states)}`, width)}`];
  if (test.danger === 'high') lines.push(bold(`  ${block(dangerWords(test, states), width)}`));
  for (const precaution of test.precautions) lines.push(`  ${block(`Caution: ${precaution}`, width)}`);
  for (const outcome of outcomes.slice(0, 5)) lines.push(`  ${block(`- ${outcomeWords(test.look, outcome)} (${percentWords(outcome.chance)}): ${remainWords(outcome, ranking)}`, width, '    ')}`);
  const other = instead.slice(0, 2).map(({ words }) => `; or ${words}`).join('');
  lines.push(faint(`  ${block(`${gainWords(gain)} (now ${leftWords(ranking.entropy)}); ${test.cost < 1 ? 'about a minute' : `about ${Math.ceil(test.cost)} minutes’ worth, danger and setting up counted in`}${other}`, width)}`));
  return `${lines.join('\n')}\n\n`;
}

export function verdictText({ group, chance, isSettled }: Verdict, isExhausted: boolean, width: number): string {
  const lines: string[] = [];
  const [first] = group;
  if (!isSettled && isExhausted) lines.push(bold('Nothing on offer tells more.'), `  ${block('What remains is above. Look at each, likeliest first; or measure where the file may be wrong.', width)}`);
  if (!first || !isSettled) return `${lines.join('\n')}\n\n`;
  lines.push(bold(group.length === 1 ? `It is this (${percentWords(chance)})` : `It is one of these ${group.length} (${percentWords(chance)}); no reading away from exposed high voltage, and none that would put it on a fault again, tells them apart`));
  for (const { hypothesis } of group.slice(0, 8)) {
    lines.push(`  ${block(`${capital(hypothesis.words)}.`, width)}`, `    ${block(`To confirm: ${hypothesis.confirm}`, width - 2, '    ')}`, `    ${block(`To mend: ${hypothesis.mend}`, width - 2, '    ')}`);
  }
  lines.push(`  ${block('After mending take the readings of the first power-up again where you have been.', width)}`);
  return `${lines.join('\n')}\n\n`;
}
