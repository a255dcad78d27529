/** The terminal that this process was started in. */
import { withoutPaint } from './show/paint.ts';
import type { Terminal } from './terminal.ts';

export function processTerminal({ stdin, stdout, stderr, env }: NodeJS.Process): Terminal {
  const isScreen = stdout.isTTY === true;
  const hasColour = isScreen && env['NO_COLOR'] === undefined && env['TERM'] !== 'dumb';
  return {
    print: (text) => void stdout.write(hasColour ? text : withoutPaint(text)),
    warn: (text) => void stderr.write(text),
    // a screen changes its width
    get columns() { return stdout.columns; },
    isScreen, isErrorScreen: stderr.isTTY === true,
    input: stdin, typedOn: stdin.isTTY === true ? stdout : undefined,
  };
}
