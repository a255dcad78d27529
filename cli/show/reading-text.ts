/** A judged reading, and the log, as text. */
import type { LogProblem, ReadingLog } from '../../core/readings/log.ts';
import { standing } from '../../core/readings/log.ts';
import type { Proposal } from '../../core/readings/proposals.ts';
import type { Verdict } from '../../core/readings/verdict.ts';
import { printValue } from '../../core/quantity/print-value.ts';
import type { QuantityName } from '../../core/quantity/quantity-table.ts';
import { bold, faint } from './paint.ts';
import { wrapped } from './wrapped.ts';

const signs = { agrees: '✓ agrees', outside: '■ outside', 'cannot be told': '? cannot be told' } as const;

export function verdictText(title: string, verdict: Verdict, quantity: QuantityName, width: number): string {
  const lines = [`${bold(signs[verdict.word])}  ${title}`, ...wrapped(verdict.says, width)];
  for (const { part, says, reads, fits } of verdict.meanings) {
    const then = reads === undefined ? '' : ` (then it reads about ${printValue(Math.abs(reads) < 1e-5 ? 0 : reads, quantity, { digits: 3 })})`;
    lines.push(...wrapped(`${fits ? 'Explains it: ' : 'Goes that way: '}${part === undefined ? '' : `${part}: `}${says}${then}`, width - 2).map((line, index) => `${index === 0 ? '- ' : '  '}${line}`));
  }
  if (verdict.word === 'outside' && verdict.meanings.length === 0) lines.push('No single fault that was tried explains it.');
  if (verdict.next !== '') lines.push(...wrapped(verdict.next, width));
  return `${lines.join('\n')}\n`;
}

export function problemText(file: string, { line, column, found, expected, level }: LogProblem): string {
  return `${file}:${line}:${column}: found ${found}, expected ${expected}${level === 'stop' ? '. The line was left out' : ''}.`;
}

export function logText(name: string, { readings }: Pick<ReadingLog, 'readings'>, goesOn: readonly string[]): string {
  const counting = new Set(standing(readings));
  const lines = [bold(`${name}: ${readings.length} ${readings.length === 1 ? 'reading' : 'readings'}`)];
  for (const one of readings) {
    const words = `${one.when.slice(0, 16).replace('T', ' ')}  ${one.id.padEnd(10)} ${(one.step || one.points.join(' to ')).padEnd(34)} ${one.reading.padEnd(12)} ${one.verdict}${one.who === '' ? '' : `  ${one.who}`}${one.note === '' ? '' : `  “${one.note}”`}`;
    lines.push(counting.has(one) ? words : faint(`${words}  replaced`));
  }
  return `${[...lines, ...goesOn].filter((line) => line !== '').join('\n')}\n`;
}

export function proposalsText(path: string, proposals: readonly Proposal[], width: number): string {
  if (proposals.length === 0) return 'No reading makes a number of the file better: the file says all of it as well already, or nothing that agrees was read.\n';
  const lines = proposals.flatMap(({ path: field, text, instead, why }, index) => [
    `${bold(`${index + 1}  ${field}: ${text}`)}`,
    ...wrapped(`${instead === undefined ? 'The file says nothing of it yet' : `Instead of ${instead}`}. ${why}.`, width - 4).map((line) => `    ${line}`),
  ]);
  return `${[...lines, '', ...wrapped(`Nothing is changed by this list. halfshaft reading ${path} --apply 1 writes the first into the file, and no other character of it changes.`, width)].join('\n')}\n`;
}
