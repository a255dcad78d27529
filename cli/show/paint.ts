/** Colour for a terminal. The terminal takes it off again where it would not show. A level is never colour alone: each has its shape. */
import type { Level } from '../../core/findings/finding.ts';
import { levelWords } from '../../sheets/levels.ts';

const paint = (code: string) => (text: string): string => `\u001b[${code}m${text}\u001b[0m`;

export const bold = paint('1');
export const faint = paint('2');
const levelColours: Record<Level, (text: string) => string> = { stop: paint('1;31'), fix: paint('33'), unknown: paint('35'), watch: paint('36'), holds: paint('32') };
const shapes: Record<Level, string> = { stop: '■', fix: '▲', unknown: '?', watch: '○', holds: '·' };

export const levelMark = (level: Level): string => levelColours[level](`${shapes[level]} ${levelWords[level].padEnd(WIDEST)}`);
const WIDEST = Math.max(...Object.values(levelWords).map(({ length }) => length));
/** letters of a mark and the space behind it */
export const MARK = WIDEST + 3;
export const levelCount = (level: Level, count: number): string => levelColours[level](`${shapes[level]} ${count} ${levelWords[level]}`);

/** The same text without colour. */
export const withoutPaint = (text: string): string => text.replace(/\u001b\[[\d;]*m/g, '');
