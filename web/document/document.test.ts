import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isUnsaved, openDocument, redone, undone, withStep, withText, withTyping } from './document.ts';
import type { TextDocument } from './document.ts';

const open = (text: string): TextDocument => openDocument({ text, etag: '"1"' });
const typed = (document: TextDocument, at: number, inserted: string, now: number): TextDocument => {
  const next = withTyping(document, [{ at, removed: '', inserted }], now);
  if (!next) throw new Error('does not fit');
  return next;
};

describe('steps', () => {
  it('are taken back and done again to the byte, whatever they were', () => {
    fc.assert(fc.property(fc.string(), fc.array(fc.string(), { maxLength: 12 }), (first, texts) => {
      const last = texts.reduce((document, text) => withText(document, text, 'x'), open(first));
      let back = last;
      for (let step = 0; step < last.past.length; step++) back = undone(back);
      expect(back.text).toBe(first);
      let forth = back;
      for (let step = 0; step < last.past.length; step++) forth = redone(forth);
      expect(forth.text).toBe(last.text);
    }));
  });
  it('that change nothing are none', () => expect(withText(open('a'), 'a', 'x').past).toEqual([]));
  it('made for another text are refused', () => expect(withStep(open('abc'), [{ at: 0, removed: 'z', inserted: 'y' }], 'x')).toBeUndefined());
  it('forget what could be redone', () => {
    const back = undone(withText(open('a'), 'b', 'x'));
    expect(withText(back, 'c', 'y').future).toEqual([]);
  });
});

describe('typing', () => {
  it('of one stretch is one step', () => {
    const document = typed(typed(typed(open(''), 0, 'a', 0), 1, 'b', 500), 2, 'c', 1100);
    expect(document.past.length).toBe(1);
    expect(undone(document).text).toBe('');
  });
  it('after a pause is a new step', () => expect(typed(typed(open(''), 0, 'a', 0), 1, 'b', 601).past.length).toBe(2));
  it('does not join a step made on the screen', () => {
    const edited = withStep(open('a'), [{ at: 1, removed: '', inserted: '1' }], 'mass of M1');
    expect(edited && typed(edited, 2, 'b', 0).past.map(({ label }) => label)).toEqual(['mass of M1', 'typing']);
  });
  it('does not join a stretch that was taken back and done again', () => {
    const again = redone(undone(typed(open(''), 0, 'a', 0)));
    expect(typed(again, 1, 'b', 10).past.length).toBe(2);
  });
});

describe('the disk', () => {
  it('is behind as long as the text differs, not as long as there are steps', () => {
    const document = withText(open('a'), 'b', 'x');
    expect([isUnsaved(document), isUnsaved(undone(document))]).toEqual([true, false]);
  });
});
