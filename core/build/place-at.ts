/**
 * Offset in a text -> line and column.
 */
import type { Place } from './place.ts';

/** Offsets at which the lines of a text start; a line ends with LF or CRLF. */
export function lineStartsOf(text: string): readonly number[] {
  const starts = [0];
  for (let at = text.indexOf('\n'); at !== -1; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return starts;
}

/** Place of the characters from offset `from` to before offset `to`. */
export function placeAt(lineStarts: readonly number[], from: number, to: number): Place {
  let low = 0;
  let high = lineStarts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((lineStarts[middle] as number) <= from) low = middle;
    else high = middle - 1;
  }
  return { line: low + 1, column: from - (lineStarts[low] as number) + 1, offset: from, end: Math.max(from, to) };
}
