/**
 * Two ways to call the command line: as cli/main.ts does, in this process, which is quick; and as the built program, a process of its own, for
 * what only that can show. process.test.ts holds that both print the same.
 */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { halfshaft } from '../../cli/halfshaft.ts';
import { withoutPaint } from '../../cli/show/paint.ts';
import type { Terminal } from '../../cli/terminal.ts';
import { root } from '../architecture/imports.ts';

export interface Called { readonly code: number; readonly out: string; readonly err: string }

/** @param input  what is typed into it: a line an answer. @param at  what else the terminal is; left out, a pipe */
export async function callWith(input: string, args: readonly string[], at: Partial<Terminal> = {}): Promise<Called> {
  let [out, err] = ['', ''];
  const code = await halfshaft(args, {
    print: (text) => { out += withoutPaint(text); }, warn: (text) => { err += text; },
    columns: undefined, isScreen: false, isErrorScreen: false, input: Readable.from([input]), typedOn: undefined, ...at,
  });
  return { code, out, err };
}

export const call = (...args: readonly string[]): Promise<Called> => callWith('', args);

export const program = join(root, 'dist/program/main.cjs');

/** Any command of the machine, in the root of the repository; its environment says nothing of colour. */
export function start(command: string, args: readonly string[], input = ''): Called {
  const done = spawnSync(command, args, { encoding: 'utf8', cwd: root, env: { ...process.env, NO_COLOR: undefined, TERM: 'xterm' }, input, timeout: 60_000, maxBuffer: 64e6 });
  return { code: done.status ?? -1, out: done.stdout, err: done.stderr };
}

export const run = (...args: readonly string[]): Called => start(process.execPath, [program, ...args]);
