/**
 * Two editors changed one text: what each of them changed, line by line, and where they contradict each other. Nothing is
 * lost in silence: taking one side everywhere gives that side's text to the byte.
 */
import { type LineChange, lineChanges, linesOf } from './line-changes.ts';

/** A stretch of the merged text, in whole lines with their line ends. */
export type MergePiece =
  /** both sides agree: untouched, or changed alike */
  | { readonly kind: 'same'; readonly text: string }
  /** changed on this side only; the other side still has `base` */
  | { readonly kind: 'mine' | 'theirs'; readonly text: string; readonly base: string }
  /** changed on both sides, and not alike */
  | { readonly kind: 'conflict'; readonly mine: string; readonly base: string; readonly theirs: string };

/** `both` is for a conflict: mine, then theirs. */
export type MergeChoice = 'mine' | 'theirs' | 'both';

/**
 * Three-way merge on lines. `\n`, `\r\n` and `\r` end a line and belong to it, so a changed line end is a change.
 * Neighbouring lines changed by different sides are separate pieces; two additions at one spot are a conflict.
 * @param base    the text that both started from
 * @param mine    what one side made of it
 * @param theirs  what the other side made of it
 * @returns the pieces in the order of the text; empty pieces are left out
 */
export function mergeTexts(base: string, mine: string, theirs: string): { readonly pieces: readonly MergePiece[] } {
  const lines = linesOf(base);
  const sides = { mine: linesOf(mine), theirs: linesOf(theirs) };
  const changes = (['mine', 'theirs'] as const)
    .flatMap((by) => lineChanges(lines, sides[by]).map((change): Change => ({ ...change, by })))
    .sort((a, b) => a.start - b.start || a.end - b.end);
  const pieces: MergePiece[] = [];
  const keep = (text: string): void => {
    const last = pieces.at(-1);
    if (text === '') return;
    if (last?.kind === 'same') pieces[pieces.length - 1] = { kind: 'same', text: last.text + text };
    else pieces.push({ kind: 'same', text });
  };
  let done = 0;
  for (const group of overlapping(changes)) {
    const start = Math.min(...group.map((change) => change.start));
    const end = Math.max(...group.map((change) => change.end));
    keep(lines.slice(done, start).join(''));
    const was = lines.slice(start, end).join('');
    const made = { mine: stretchOf(lines, sides.mine, start, end, group, 'mine'), theirs: stretchOf(lines, sides.theirs, start, end, group, 'theirs') };
    const [only] = group;
    if (group.length === 1 && only) pieces.push({ kind: only.by, text: made[only.by], base: was });
    else {
      const { head, tail, ...apart } = withoutShared(made.mine, was, made.theirs);
      keep(head);
      if (apart.mine !== apart.theirs) pieces.push({ kind: 'conflict', ...apart });
      keep(tail);
    }
    done = end;
  }
  keep(lines.slice(done).join(''));
  return { pieces };
}

/**
 * The merged text.
 * @param choices  by index of the piece. A piece that only one side changed needs none: the change is taken, unless the
 *                 other side is chosen, which takes it back
 * @returns undefined while a conflict has no choice
 */
export function joinPieces(pieces: readonly MergePiece[], choices: readonly (MergeChoice | undefined)[] = []): string | undefined {
  let text = '';
  for (const [index, piece] of pieces.entries()) {
    const choice = choices[index];
    if (piece.kind === 'same') text += piece.text;
    else if (piece.kind !== 'conflict') text += choice === undefined || choice === 'both' || choice === piece.kind ? piece.text : piece.base;
    else if (choice === undefined) return undefined;
    else text += choice === 'both' ? oneAfterTheOther(text, piece.mine, piece.theirs) : piece[choice];
  }
  return text;
}

interface Change extends LineChange { readonly by: 'mine' | 'theirs' }

/**
 * Changes that contend for the same lines, or for the same spot between two lines, in groups. Changes that merely touch
 * stay apart: two fields of one part stand on neighbouring lines and are two edits.
 */
function overlapping(changes: readonly Change[]): readonly (readonly Change[])[] {
  const groups: Change[][] = [];
  let end = -1;
  for (const change of changes) {
    const group = groups.at(-1);
    const last = group?.at(-1);
    const touches = change.start === end && (change.start === change.end || last?.start === last?.end);
    if (group && (change.start < end || touches)) group.push(change);
    else groups.push([change]);
    end = Math.max(end, change.end);
  }
  return groups;
}

/** What a side has in the place of the lines [start, end) of the base. */
function stretchOf(base: readonly string[], side: readonly string[], start: number, end: number, group: readonly Change[], by: Change['by']): string {
  let text = '';
  let at = start;
  for (const change of group) {
    if (change.by !== by) continue;
    text += base.slice(at, change.start).join('') + side.slice(change.from, change.to).join('');
    at = change.end;
  }
  return text + base.slice(at, end).join('');
}

/**
 * Cuts off the first and last lines that both sides made alike, so that only what differs is asked about. The base loses
 * them too where it has them; a base without its last line end, to which both added a line, is the common case.
 */
function withoutShared(mine: string, base: string, theirs: string): { head: string; mine: string; base: string; theirs: string; tail: string } {
  const [a, b, was] = [[...linesOf(mine)], [...linesOf(theirs)], [...linesOf(base)]];
  const bare = (line: string | undefined): string | undefined => line?.replace(/[\r\n]+$/, '');
  let head = '';
  let tail = '';
  while (a.length > 0 && a[0] === b[0]) {
    if (bare(was[0]) === bare(a[0])) was.shift();
    head += a.shift();
    b.shift();
  }
  while (a.length > 0 && a.at(-1) === b.at(-1)) {
    if (bare(was.at(-1)) === bare(a.at(-1))) was.pop();
    tail = `${a.pop()}${tail}`;
    b.pop();
  }
  return { head, mine: a.join(''), base: was.join(''), theirs: b.join(''), tail };
}

/** A last line without its line end gets one, like the first of the text before, before the other text begins. */
function oneAfterTheOther(before: string, first: string, second: string): string {
  if (first === '' || second === '' || /[\r\n]$/.test(first)) return first + second;
  return `${first}${/\r\n|\n|\r/.exec(before + first + second)?.[0] ?? '\n'}${second}`;
}
