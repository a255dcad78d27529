import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bracketedRoot } from './bracketed-root.ts';

describe('bracketedRoot', () => {
  it('returns an end that is itself a root', () => {
    expect(bracketedRoot((x) => x, 0, 1)).toBe(0);
    expect(bracketedRoot((x) => x - 1, 0, 1)).toBe(1);
  });
  it('refuses a bracket without a change of sign, and values that are not finite', () => {
    expect(() => bracketedRoot((x) => x * x + 1, -1, 1)).toThrow('no sign change');
    expect(() => bracketedRoot((x) => 1 / x, 0, 1)).toThrow('not finite');
  });
  it('finds the root of any rising cubic, however flat, to 1e-9', () => {
    fc.assert(fc.property(fc.double({ min: -9, max: 9, noNaN: true }), fc.double({ min: 1e-9, max: 1e6, noNaN: true }), (root, scale) => {
      const found = bracketedRoot((x) => scale * ((x - root) ** 3 + 1e-3 * (x - root)), -10, 12);
      expect(Math.abs(found - root)).toBeLessThan(1e-9);
    }));
  });
});
