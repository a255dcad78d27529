import { describe, expect, it } from 'vitest';
import { shownTexts, withChanges, withoutMarks } from './changed-keys.ts';

const texts = (entries: Record<string, string>): ReadonlyMap<string, string> => new Map(Object.entries(entries));

describe('the numbers of a model', () => {
  it('are found however deep, and nothing else is', () => {
    const model = { a: { key: 'result:x', text: '1 V' }, list: [{ rows: [{ key: 'parts.M1.mass', text: '12 kg', path: 'parts.M1.mass' }] }], other: { key: 'x' }, none: null };
    expect([...shownTexts(model)]).toEqual([['result:x', '1 V'], ['parts.M1.mass', '12 kg']]);
  });
});

describe('the marks', () => {
  it('stand on what changed', () => expect([...withChanges(new Map(), texts({ a: '1', b: '2' }), texts({ a: '1', b: '3', c: '4' })).keys()]).toEqual(['b']));
  it('go when the number is back at what was looked at', () => {
    const once = withChanges(new Map(), texts({ a: '1' }), texts({ a: '2' }));
    expect(withChanges(once, texts({ a: '2' }), texts({ a: '1' })).size).toBe(0);
  });
  it('stay, once looked at, with the new text as the one to compare with', () => {
    const seen = withoutMarks(withChanges(new Map(), texts({ a: '1' }), texts({ a: '2' })), ['a']);
    expect([...withChanges(seen, texts({ a: '2' }), texts({ a: '1' }))]).toEqual([['a', '2']]);
  });
});
