/** Colour for a terminal; none when the output is not one, or when NO_COLOR is set. A level is never colour alone: each has its shape. */
import type { Level } from '../../core/findings/finding.ts';

const isOn = process.stdout.isTTY === true && process.env['NO_COLOR'] === undefined && process.env['TERM'] !== 'dumb';
const paint = (code: string) => (text: string): string => (isOn ? `\u001b[${code}m${text}\u001b[0m` : text);

export const bold = paint('1');
export const faint = paint('2');
const levelColours: Record<Level, (text: string) => string> = { stop: paint('1;31'), fix: paint('33'), unknown: paint('35'), watch: paint('36'), holds: paint('32') };
const shapes: Record<Level, string> = { stop: '■', fix: '▲', unknown: '?', watch: '○', holds: '·' };

export const levelMark = (level: Level): string => levelColours[level](`${shapes[level]} ${level.padEnd(7)}`);
export const levelCount = (level: Level, count: number): string => levelColours[level](`${shapes[level]} ${count} ${level}`);
