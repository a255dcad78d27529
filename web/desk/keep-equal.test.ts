import { expect, test } from 'vitest';
import { keepEqual } from './keep-equal.ts';

const model = () => ({ name: 'mass', rows: [{ key: 'a', text: '1 kg' }, { key: 'b', text: undefined }], byName: new Map([['M1', { at: [0, 1, 2] }]]), seen: new Set(['a']) });

test('what says the same is the same object', () => {
  const before = model();
  expect(keepEqual(before, model())).toBe(before);
});

test('what differs is new, and everything beside it stays', () => {
  const before = model();
  const now = { ...model(), rows: [{ key: 'a', text: '2 kg' }, { key: 'b', text: undefined }] };
  const kept = keepEqual(before, now);
  expect(kept).toEqual(now);
  expect(kept).not.toBe(before);
  expect(kept.rows[1]).toBe(before.rows[1]);
  expect(kept.byName).toBe(before.byName);
  expect(before).toEqual(model());
});

test('a field, item or entry more, fewer, or in another order is a difference', () => {
  expect(keepEqual([1, 2], [1])).toEqual([1]);
  expect(keepEqual([1], [1, 2])).toEqual([1, 2]);
  expect(keepEqual({ a: 1, b: undefined }, { a: 1 })).toStrictEqual({ a: 1 });
  expect(keepEqual({ a: 1, b: 2 }, { a: 1, c: undefined })).toStrictEqual({ a: 1, c: undefined });
  expect(keepEqual({ a: [] }, { a: {} })).toStrictEqual({ a: {} });
  expect(keepEqual({ a: new Map() }, { a: new Set() })).toStrictEqual({ a: new Set() });
  expect(Object.keys(keepEqual({ a: 1, b: 2 }, { b: 2, a: 1 }))).toEqual(['b', 'a']);
  expect(keepEqual(null, { a: 1 })).toEqual({ a: 1 });
  expect([...keepEqual(new Map([['a', 1], ['b', 2]]), new Map([['b', 2], ['a', 1]])).keys()]).toEqual(['b', 'a']);
  expect(keepEqual(new Set([1, 2]), new Set([1, 3]))).toEqual(new Set([1, 3]));
});

test('not a number is the same as itself, plus nothing is not minus nothing', () => {
  const before = { chance: Number.NaN };
  expect(keepEqual(before, { chance: Number.NaN })).toBe(before);
  expect(Object.is(keepEqual({ at: 0 }, { at: -0 }).at, -0)).toBe(true);
});
