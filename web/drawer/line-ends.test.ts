import { EditorState } from '@codemirror/state';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applySplices } from '../../core/build/splice.ts';
import { asInEditor, differenceOf, lineEndsOf, splicesOf } from './line-ends.ts';

const text = fc.array(fc.constantFrom('a', 'bc', ' ', '\n', '\r\n', '\r\n', 'é', '🔋', ':')).map((pieces) => pieces.join('')).filter((made) => !/\r(?!\n)/.test(made));

describe('offsets', () => {
  test('there and back', () => {
    fc.assert(fc.property(text, (file) => {
      const { toFile, toEditor } = lineEndsOf(file);
      const editor = asInEditor(file);
      for (let offset = 0; offset <= editor.length; offset++) {
        expect(toEditor(toFile(offset))).toBe(offset);
        expect(asInEditor(file.slice(0, toFile(offset)))).toBe(editor.slice(0, offset));
      }
    }));
  });
});

describe('splicesOf', () => {
  test('the file becomes what the editor shows; line ends that were not touched stay as they are', () => {
    fc.assert(fc.property(text, fc.array(fc.tuple(fc.nat(), fc.nat({ max: 4 }), fc.constantFrom('', 'x', 'y\nz', '\n')), { minLength: 1, maxLength: 4 }), (file, edits) => {
      const state = EditorState.create({ doc: file });
      const changes: { from: number; to: number; insert: string }[] = [];
      for (const [at, length, insert] of edits.map(([at, ...rest]) => [at % (state.doc.length + 1), ...rest] as const).sort((a, b) => a[0] - b[0])) {
        const from = Math.max(at, changes.at(-1)?.to ?? 0);
        changes.push({ from, to: Math.min(state.doc.length, from + length), insert });
      }
      const transaction = state.update({ changes });
      const after = applySplices(file, splicesOf(transaction.changes, file));
      expect(after).toBeDefined();
      expect(asInEditor(after ?? '')).toBe(transaction.newDoc.toString());
      if (!file.includes('\r\n')) expect(after).toBe(transaction.newDoc.toString());
      else expect((after ?? '').replaceAll('\r\n', '')).not.toContain('\r');
    }), { numRuns: 400 });
  });
});

test('differenceOf is one stretch that makes the one text the other', () => {
  fc.assert(fc.property(text, text, (before, after) => {
    const change = differenceOf(before, after);
    if (!change) { expect(before).toBe(after); return; }
    expect(before.slice(0, change.from) + change.insert + before.slice(change.to)).toBe(after);
  }));
});
