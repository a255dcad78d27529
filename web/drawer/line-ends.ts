/**
 * Offsets in the file <-> offsets in the editor, which counts a line end as one character however the file writes it.
 */
import type { ChangeSet } from '@codemirror/state';
import type { Splice } from '../../core/build/splice.ts';

export interface LineEnds {
  readonly toEditor: (offset: number) => number;
  readonly toFile: (offset: number) => number;
  /** a line end as this file writes it */
  readonly mark: string;
}

export function lineEndsOf(text: string): LineEnds {
  // editor offsets behind each line end that has two characters
  const behind: number[] = [];
  for (let at = text.indexOf('\r\n'); at !== -1; at = text.indexOf('\r\n', at + 2)) behind.push(at + 1 - behind.length);
  if (behind.length === 0) return { toEditor: (offset) => offset, toFile: (offset) => offset, mark: '\n' };
  const before = (offset: number, at: (index: number) => number): number => {
    let [low, high] = [0, behind.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (at(middle) <= offset) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  return {
    // between the two characters of a line end counts as before it
    toEditor: (offset) => offset - before(offset, (index) => (behind[index] as number) + index),
    toFile: (offset) => offset + before(offset, (index) => behind[index] as number),
    mark: '\r\n',
  };
}

/** What was typed, as splices of the file, each for the text that the ones before left. */
export function splicesOf(changes: ChangeSet, text: string): readonly Splice[] {
  const ends = lineEndsOf(text);
  const splices: Splice[] = [];
  let moved = 0;
  changes.iterChanges((from, to, _fromNow, _toNow, inserted) => {
    const [start, end] = [ends.toFile(from), ends.toFile(to)];
    const put = inserted.toString().replaceAll('\n', ends.mark);
    splices.push({ at: start + moved, removed: text.slice(start, end), inserted: put });
    moved += put.length - (end - start);
  }, true);
  return splices;
}

/** The one stretch in which two texts differ. */
export function differenceOf(before: string, after: string): { readonly from: number; readonly to: number; readonly insert: string } | undefined {
  if (before === after) return undefined;
  const least = Math.min(before.length, after.length);
  let head = 0;
  while (head < least && before[head] === after[head]) head++;
  let tail = 0;
  while (tail < least - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
  return { from: head, to: before.length - tail, insert: after.slice(head, after.length - tail) };
}

/** As the editor holds it. */
export const asInEditor = (text: string): string => text.replace(/\r\n?/g, '\n');
