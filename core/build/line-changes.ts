/** Which lines of a text another text has replaced. */
import { diffIndices } from 'node-diff3';

/** The lines [from, to) of the new text stand in the place of the lines [start, end) of the old one. */
export interface LineChange { readonly start: number; readonly end: number; readonly from: number; readonly to: number }

/** Stretches with more pairs of lines than this, and no line of their own in common, count as replaced whole. */
const MOST_PAIRS = 1_000_000;

/** Lines with their line ends: `\n`, `\r\n` or `\r`. Joined they are the text again. */
export function linesOf(text: string): readonly string[] {
  return text.match(/[^\r\n]*(?:\r\n|\n|\r)|[^\r\n]+/g) ?? [];
}

/**
 * The changes that make `now` of `old`, in their order, with at least one kept line between two of them.
 * Lines that stand once in both texts are matched first: the exact search is cubic where many lines are alike.
 */
export function lineChanges(old: readonly string[], now: readonly string[]): readonly LineChange[] {
  const changes: LineChange[] = [];
  collect(old, now, { start: 0, end: old.length, from: 0, to: now.length }, changes);
  const joined: LineChange[] = [];
  for (const change of changes) {
    const last = joined.at(-1);
    if (last && last.end === change.start && last.to === change.from) joined[joined.length - 1] = { ...last, end: change.end, to: change.to };
    else joined.push(change);
  }
  return joined;
}

function collect(old: readonly string[], now: readonly string[], whole: LineChange, into: LineChange[]): void {
  let { start, end, from, to } = whole;
  while (start < end && from < to && old[start] === now[from]) { start++; from++; }
  while (start < end && from < to && old[end - 1] === now[to - 1]) { end--; to--; }
  if (start === end && from === to) return;
  if (start === end || from === to) { into.push({ start, end, from, to }); return; }
  const anchors = longestRising(linesOfTheirOwn(old, now, { start, end, from, to }));
  if (anchors.length === 0) {
    if ((end - start) * (to - from) > MOST_PAIRS) { into.push({ start, end, from, to }); return; }
    for (const { buffer1: [at, length], buffer2: [place, count] } of diffIndices(old.slice(start, end), now.slice(from, to))) {
      into.push({ start: start + at, end: start + at + length, from: from + place, to: from + place + count });
    }
    return;
  }
  for (const [inOld, inNow] of anchors) {
    collect(old, now, { start, end: inOld, from, to: inNow }, into);
    start = inOld + 1;
    from = inNow + 1;
  }
  collect(old, now, { start, end, from, to }, into);
}

/** Where the lines stand that occur once in each of the two stretches, in the order of the old one. */
function linesOfTheirOwn(old: readonly string[], now: readonly string[], { start, end, from, to }: LineChange): readonly (readonly [number, number])[] {
  const once = (lines: readonly string[], first: number, after: number): Map<string, number> => {
    const places = new Map<string, number>();
    // -1: seen before, so not of its own
    for (let index = first; index < after; index++) places.set(lines[index] as string, places.has(lines[index] as string) ? -1 : index);
    return places;
  };
  const inNow = once(now, from, to);
  return [...once(old, start, end)].flatMap(([line, index]) => {
    const there = inNow.get(line) ?? -1;
    return index >= 0 && there >= 0 ? [[index, there] as const] : [];
  }).sort((a, b) => a[0] - b[0]);
}

/** The most pairs whose second numbers rise as the first do. */
function longestRising(pairs: readonly (readonly [number, number])[]): readonly (readonly [number, number])[] {
  const ends: number[] = [];
  const before: (number | undefined)[] = [];
  for (const [index, [, value]] of pairs.entries()) {
    let low = 0;
    let high = ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((pairs[ends[middle] as number]?.[1] as number) < value) low = middle + 1;
      else high = middle;
    }
    before[index] = ends[low - 1];
    ends[low] = index;
  }
  const rising: (readonly [number, number])[] = [];
  for (let index = ends.at(-1); index !== undefined; index = before[index]) rising.push(pairs[index] as readonly [number, number]);
  return rising.reverse();
}
