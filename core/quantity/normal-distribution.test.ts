import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalProbability, normalQuantile } from './normal-distribution.ts';

describe('normal distribution', () => {
  it('throws outside 0 < p < 1 and for no number', () => {
    for (const p of [0, 1, -1, 2, NaN]) expect(() => normalQuantile(p)).toThrow(RangeError);
    expect(() => normalProbability(NaN)).toThrow(RangeError);
  });

  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1, and Abramowitz and Stegun table 26.1; from memory
  it.each([[0.5, 0], [0.9, 1.281552], [0.95, 1.644854], [0.975, 1.959964], [0.99, 2.326348], [0.995, 2.575829], [0.999, 3.090232], [0.9999, 3.719016]])('has the printed quantile at %d', (p, z) => {
    expect(Math.abs(normalQuantile(p) - z)).toBeLessThanOrEqual(5.1e-7);
    expect(Math.abs(normalQuantile(1 - p) + z)).toBeLessThanOrEqual(5.1e-7);
  });
  it.each([[1, 0.841344746068543], [2, 0.977249868051821], [3, 0.998650101968370], [-4, 3.167124183311986e-5], [-6, 9.865876450376946e-10]])('has the printed probability at %d', (z, p) => {
    expect(Math.abs(normalProbability(z) / p - 1)).toBeLessThan(1e-13);
  });

  it('quantile and probability, which share no coefficient, undo each other to 1e-12 over the whole range', () => {
    fc.assert(fc.property(fc.double({ min: -12, max: 5, noNaN: true }), (z) => {
      const back = normalQuantile(normalProbability(z));
      // near 1 a double keeps 1.1e-16 of p, which is 1.1e-16 / density of z
      const grain = 2e-16 / (Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI));
      expect(Math.abs(back - z)).toBeLessThan(1e-12 * (1 + Math.abs(z)) + (z > 0 ? grain : 0));
    }), { numRuns: 3000 });
    for (const p of [1e-300, 1e-200, 1e-100, 1e-30, 1e-16]) expect(Math.abs(normalProbability(normalQuantile(p)) / p - 1)).toBeLessThan(1e-10);
  });
});
