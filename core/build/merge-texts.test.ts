import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineChanges, linesOf } from './line-changes.ts';
import { joinPieces, mergeTexts } from './merge-texts.ts';

const kinds = (base: string, mine: string, theirs: string): string[] => mergeTexts(base, mine, theirs).pieces.map(({ kind }) => kind);
const everywhere = (base: string, mine: string, theirs: string, choice: 'mine' | 'theirs' | 'both'): string | undefined => {
  const { pieces } = mergeTexts(base, mine, theirs);
  return joinPieces(pieces, pieces.map(() => choice));
};

// few different lines, so that many are alike; all line ends; often no last line end
const line = fc.tuple(fc.constantFrom('', 'a', 'b', 'parts:', '  M1: { mass: 12.4 kg ±0.1 }'), fc.constantFrom('\n', '\r\n', '\r')).map(([text, end]) => text + end);
const text = fc.tuple(fc.array(line, { maxLength: 12 }), fc.constantFrom('', '', 'last', 'a')).map(([lines, last]) => lines.join('') + last);

/** A base of lines of their own, and for each side which lines it drops and what it adds before them. */
const edited = fc.integer({ min: 0, max: 14 }).chain((length) => fc.record({
  base: fc.constant(Array.from({ length }, (_, index) => `line ${index}\n`)),
  mine: fc.array(fc.record({ drop: fc.boolean(), add: fc.boolean() }), { minLength: length + 1, maxLength: length + 1 }),
  theirs: fc.array(fc.record({ drop: fc.boolean(), add: fc.boolean() }), { minLength: length + 1, maxLength: length + 1 }),
}));
const apply = (base: readonly string[], edits: readonly { drop: boolean; add: boolean }[], name: string): string[] => (
  edits.flatMap(({ drop, add }, index) => [...(add ? [`${name} ${index}\n`] : []), ...(drop || base[index] === undefined ? [] : [base[index] as string])]));

describe('lines', () => {
  it('joined are the text again', () => fc.assert(fc.property(text, (whole) => { expect(linesOf(whole).join('')).toBe(whole); })));
  it('that are replaced make the other text', () => fc.assert(fc.property(text, text, (old, now) => {
    const [before, after] = [linesOf(old), linesOf(now)];
    let made = '';
    let at = 0;
    for (const change of lineChanges(before, after)) {
      expect(change.start).toBeGreaterThanOrEqual(at);
      made += before.slice(at, change.start).join('') + after.slice(change.from, change.to).join('');
      at = change.end;
    }
    expect(made + before.slice(at).join('')).toBe(now);
  }), { numRuns: 500 }));
  it('are found in a long text in which many are alike', () => {
    const old = Array.from({ length: 20_000 }, (_, index) => (index % 5 === 0 ? '\n' : index % 7 === 0 ? '    size: 1\n' : `  line ${index}\n`));
    const now = old.with(3, 'x\n').with(19_996, 'y\n').toSpliced(10_001, 0, 'new\n');
    expect(lineChanges(old, now)).toEqual([
      { start: 3, end: 4, from: 3, to: 4 }, { start: 10_001, end: 10_001, from: 10_001, to: 10_002 }, { start: 19_996, end: 19_997, from: 19_997, to: 19_998 },
    ]);
  });
  it('that have nothing of their own, in great number, are replaced whole', () => {
    const old = Array.from({ length: 2_000 }, (_, index) => (index % 2 === 0 ? 'a\n' : 'b\n'));
    const now = Array.from({ length: 2_000 }, (_, index) => (index % 2 === 0 ? 'b\n' : 'a\n'));
    expect(lineChanges(old, now)).toEqual([{ start: 0, end: 2_000, from: 0, to: 2_000 }]);
  });
});

describe('a merge', () => {
  it('gives either side to the byte when that side is taken everywhere', () => fc.assert(fc.property(text, text, text, (base, mine, theirs) => {
    expect(everywhere(base, mine, theirs, 'mine')).toBe(mine);
    expect(everywhere(base, mine, theirs, 'theirs')).toBe(theirs);
  }), { numRuns: 1000 }));
  it('asks nothing where only one side changed', () => fc.assert(fc.property(text, text, (base, changed) => {
    expect(joinPieces(mergeTexts(base, changed, base).pieces)).toBe(changed);
    expect(joinPieces(mergeTexts(base, base, changed).pieces)).toBe(changed);
    expect(joinPieces(mergeTexts(base, changed, changed).pieces)).toBe(changed);
    expect(mergeTexts(base, changed, changed).pieces.every(({ kind }) => kind === 'same')).toBe(true);
  })));
  it('has no empty piece, and a base that joins to the base where nothing was changed alike', () => fc.assert(fc.property(text, text, text, (base, mine, theirs) => {
    for (const piece of mergeTexts(base, mine, theirs).pieces) {
      if (piece.kind === 'same') expect(piece.text).not.toBe('');
      else if (piece.kind === 'conflict') expect(piece.mine).not.toBe(piece.theirs);
      else expect(piece.text).not.toBe(piece.base);
    }
  })));
  it('swaps with its sides', () => fc.assert(fc.property(text, text, text, (base, mine, theirs) => {
    const other = { mine: 'theirs', theirs: 'mine', same: 'same', conflict: 'conflict' } as const;
    expect(kinds(base, theirs, mine)).toEqual(kinds(base, mine, theirs).map((kind) => other[kind as keyof typeof other]));
  })));
  it('loses no line that either side wrote, and none that neither dropped', () => fc.assert(fc.property(edited, ({ base, mine, theirs }) => {
    const sides = { mine: apply(base, mine, 'mine'), theirs: apply(base, theirs, 'theirs') };
    const { pieces } = mergeTexts(base.join(''), sides.mine.join(''), sides.theirs.join(''));
    const result = linesOf(joinPieces(pieces, pieces.map((piece) => (piece.kind === 'conflict' ? 'both' : undefined))) as string);
    for (const written of [...sides.mine, ...sides.theirs]) if (!written.startsWith('line')) expect(result).toContain(written);
    for (const [index, kept] of base.entries()) if (!mine[index]?.drop && !theirs[index]?.drop) expect(result).toContain(kept);
    // and what a side dropped by itself, outside of any conflict, is gone
    const contended = pieces.flatMap((piece) => (piece.kind === 'conflict' ? linesOf(piece.mine + piece.theirs) : []));
    for (const [index, dropped] of base.entries()) if ((mine[index]?.drop || theirs[index]?.drop) && !contended.includes(dropped)) expect(result).not.toContain(dropped);
  }), { numRuns: 500 }));
});

describe('the pieces', () => {
  const base = 'parts:\n  M1:\n    mass: 12 kg\n    series: 12\n  M2:\n    mass: 12 kg\n';
  it('keep two fields of one part apart, though they stand on neighbouring lines', () => {
    const mine = base.replace('12 kg', '12.4 kg');
    const theirs = base.replace('series: 12', 'series: 16');
    expect(kinds(base, mine, theirs)).toEqual(['same', 'mine', 'theirs', 'same']);
    expect(joinPieces(mergeTexts(base, mine, theirs).pieces)).toBe(base.replace('12 kg', '12.4 kg').replace('series: 12', 'series: 16'));
  });
  it('show both of two numbers in one place, and wait for a choice', () => {
    const { pieces } = mergeTexts(base, base.replace('12 kg', '12.4 kg'), base.replace('12 kg', '13 kg'));
    expect(pieces[1]).toEqual({ kind: 'conflict', mine: '    mass: 12.4 kg\n', base: '    mass: 12 kg\n', theirs: '    mass: 13 kg\n' });
    expect(joinPieces(pieces)).toBeUndefined();
    expect(joinPieces(pieces, [undefined, 'theirs'])).toBe(base.replace('12 kg', '13 kg'));
  });
  it('can keep both of two parts added at one spot, in a text without a last line end', () => {
    const { pieces } = mergeTexts('a: 1\r\nb: 2', 'a: 1\r\nb: 2\r\nmine: 3', 'a: 1\r\nb: 2\r\ntheirs: 4');
    expect(pieces).toEqual([{ kind: 'same', text: 'a: 1\r\nb: 2\r\n' }, { kind: 'conflict', mine: 'mine: 3', base: '', theirs: 'theirs: 4' }]);
    expect(joinPieces(pieces, [undefined, 'both'])).toBe('a: 1\r\nb: 2\r\nmine: 3\r\ntheirs: 4');
  });
  it('take a change back when the other side is chosen', () => {
    const { pieces } = mergeTexts('a\nb\n', 'a\n', 'a\nb\n');
    expect(pieces).toEqual([{ kind: 'same', text: 'a\n' }, { kind: 'mine', text: '', base: 'b\n' }]);
    expect(joinPieces(pieces, [undefined, 'theirs'])).toBe('a\nb\n');
  });
  it('count a changed line end as a change', () => expect(kinds('a\nb\n', 'a\r\nb\n', 'a\nb\n')).toEqual(['mine', 'same']));
});
