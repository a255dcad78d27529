import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bandOf } from './band.ts';

test('95 of 100 draws lie within, whatever their order', () => {
  expect(bandOf(Array.from({ length: 101 }, (_, index) => 100 - index))).toEqual({ low: 3, high: 98 });
  expect(bandOf([1, 2, 3])).toBeUndefined();
  fc.assert(fc.property(fc.array(fc.double({ noNaN: true, noDefaultInfinity: true }), { minLength: 10, maxLength: 300 }), (drawn) => {
    const band = bandOf(drawn);
    expect(drawn.filter((value) => band && value >= band.low && value <= band.high).length).toBeGreaterThanOrEqual(0.9 * drawn.length);
  }));
});
