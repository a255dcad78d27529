import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rootBetween } from './roots.ts';

describe('a root between two ends', () => {
  it('is not claimed where the ends have the same sign or are not numbers', () => {
    expect(rootBetween((x) => x * x + 1, -1, 1, 1e-12)).toEqual({ outcome: 'not_bracketed' });
    expect(rootBetween(() => NaN, 0, 1, 1e-12)).toEqual({ outcome: 'not_bracketed' });
  });
  it('may be an end itself', () => { expect(rootBetween((x) => x, 0, 1, 1e-12)).toMatchObject({ at: 0 }); });
  it('of cos x = x is the Dottie number', () => {
    const root = rootBetween((x) => Math.cos(x) - x, 0, 1, 1e-15);
    expect(root.outcome === 'found' ? root.at : NaN).toBeCloseTo(0.7390851332151607, 14);
  });
  it('is found through a step', () => {
    const root = rootBetween((x) => (x < 0.3 ? -1 : 1), 0, 1, 1e-12);
    expect(root.outcome === 'found' ? root.at : NaN).toBeCloseTo(0.3, 11);
  });
  it('is found for every cubic with three known roots between a root and the next', () => {
    fc.assert(fc.property(fc.double({ min: -5, max: -1, noNaN: true }), fc.double({ min: 0.5, max: 5, noNaN: true }), (p, q) => {
      const root = rootBetween((x) => (x - p) * x * (x - q), p / 2, q / 2, 1e-14);
      expect(Math.abs(root.outcome === 'found' ? root.at : NaN)).toBeLessThan(1e-12);
    }), { seed: 41 });
  });
});
