/** Fault-finding conversations as a list, and the path that one has taken. */
import type { FaultCase } from '../../core/readings/fault-cases.ts';
import { bold, faint } from './paint.ts';
import { wrapped } from './wrapped.ts';

/** One thing said, with the id of its line where it is kept. */
export interface PathStep { readonly words: string; readonly id: string | undefined }

export function casesText(build: string, cases: readonly FaultCase[]): string {
  if (cases.length === 0) return `${build}: no fault finding in readings.csv yet.\n`;
  const count = (list: readonly unknown[]): string => `${list.length} seen`;
  return `${[bold(`${build}: ${cases.length} fault-finding ${cases.length === 1 ? 'conversation' : 'conversations'}`), ...cases.map(({ name, mode, entries, takenBack, begun, end }) => {
    const line = `  ${name.padEnd(16)} ${begun.slice(0, 16).replace('T', ' ')}  ${(mode ?? '(no mode)').padEnd(12)} ${count(entries)}${takenBack.length > 0 ? `, ${takenBack.length} taken back` : ''}${end ? `  ended${end.note === '' ? '' : `: ${end.note}`}` : '  open'}`;
    return end ? faint(line) : line;
  })].join('\n')}\n`;
}

export function pathText(path: readonly PathStep[], width: number): string {
  if (path.length === 0) return 'Nothing was observed.\n';
  const lines = path.flatMap(({ words, id }, index) => wrapped(words, width - 5 - (id === undefined ? 0 : 10)).map((line, at) => (at === 0 ? `  ${index + 1}. ${line}${id === undefined ? '' : faint(`  ${id}`)}` : `     ${line}`)));
  return `${[bold('The path taken'), ...lines].join('\n')}\n`;
}
