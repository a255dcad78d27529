/** halfshaft explain CODE */
import { codeTable } from '../../core/findings/code-table.ts';
import { sources } from '../../catalogue/sources.ts';
import { noSuch } from '../no-such.ts';
import { bold, faint } from '../show/paint.ts';
import { textWidth } from '../show/text-width.ts';
import { wrapped } from '../show/wrapped.ts';
import type { Terminal } from '../terminal.ts';

export function explain(code: string | undefined, terminal: Terminal): void {
  const width = textWidth(terminal, 100);
  if (code === undefined) {
    for (const row of codeTable.values()) terminal.print(`${row.code.padEnd(36)} ${row.title}\n`);
    return;
  }
  const row = codeTable.get(code);
  if (!row) throw noSuch('finding', code, [...codeTable.keys()], 'halfshaft explain lists all.');
  const part = (title: string, text: string): string => `${faint(title)}\n${wrapped(text, width - 2).map((line) => `  ${line}`).join('\n')}\n`;
  terminal.print([
    `${bold(row.code)}  ${row.title}\n`,
    part('What is compared', row.formula), part('Why it matters', row.why), part(`When it is not so (level ${row.whenBroken})`, row.whatToDo),
    part('Sources', row.sources.map((key) => `${key}: ${sources.get(key)?.title ?? 'not in the list'}`).join('; ')),
  ].join('\n'));
}
