/** How large lettering is, and how much room it takes. */
import { wrap } from './measure.ts';
import type { Face } from './measure.ts';

/** Letter sizes [mm of A3]; at A4 the smallest is still 6 points. */
export const letterSize = { small: 3, body: 3.5, head: 5, title: 7 } as const;
export type LetterSize = keyof typeof letterSize;
/** from one line to the next, as a multiple of the letter size */
export const LINE = 1.35;

export function heightOf(text: string, width: number, size: LetterSize = 'body', face: Face = 'sans'): number {
  return wrap(text, width, letterSize[size], face).length * letterSize[size] * LINE;
}
