import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { QuantityName } from './quantity-table.ts';
import type { Quantity, SpreadShape } from './quantity.ts';
import { drawFrom, standardDeviation } from './spread.ts';

const made = (nominal: number, low: number, high: number, shape: SpreadShape, quantity: QuantityName = 'resistance'): Quantity =>
  ({ quantity, nominal, low, high, shape, basis: 'measured', toleranceIsStated: true, unit: 'Ω', path: 'parts.X.y' });
const grid = Array.from({ length: 20_000 }, (_, i) => (i + 0.5) / 20_000);
const moments = (q: Quantity): { mean: number; deviation: number } => {
  const draws = grid.map((u) => drawFrom(q, u));
  const mean = draws.reduce((a, b) => a + b) / draws.length;
  return { mean, deviation: Math.sqrt(draws.reduce((a, b) => a + (b - mean) ** 2, 0) / draws.length) };
};

describe('drawFrom', () => {
  it('throws for a probability outside 0 < u < 1', () => { for (const u of [0, 1, NaN, -0.1]) expect(() => drawFrom(made(1, 0.9, 1.1, 'normal'), u)).toThrow(RangeError); });
  it('always gives the nominal of an exact quantity and of one without width', () => {
    expect(drawFrom(made(3, 3, 3, 'exact'), 0.01)).toBe(3);
    expect(drawFrom(made(3, 3, 3, 'normal'), 0.99)).toBe(3);
    expect(drawFrom(made(0, 0, 0, 'uniform'), 0.99)).toBe(0);
  });
  it('has its limits at two standard deviations of a normal, the nominal in the middle', () => {
    const q = made(10, 9, 11, 'normal');
    expect(drawFrom(q, 0.5)).toBeCloseTo(10, 12);
    expect(drawFrom(q, 0.977249868051821)).toBeCloseTo(11, 10);
    expect(drawFrom(q, 0.022750131948179)).toBeCloseTo(9, 10);
  });
  it('meets two half normals at the nominal when the limits are unlike', () => {
    const q = made(10, 9.8, 12, 'normal');
    expect(drawFrom(q, 0.5)).toBeCloseTo(10, 12);
    expect(drawFrom(q, 0.977249868051821)).toBeCloseTo(12, 10);
    expect(drawFrom(q, 0.022750131948179)).toBeCloseTo(9.8, 10);
  });
  it('spreads a range evenly', () => {
    expect(drawFrom(made(1, 0.8, 1.2, 'uniform'), 0.25)).toBeCloseTo(0.9, 12);
  });
  it('has the mean and the standard deviation that standardDeviation states', () => {
    for (const q of [made(10, 9, 11, 'normal'), made(10, 9.8, 12, 'normal'), made(10, 6, 11, 'normal'), made(10, 9, 11, 'uniform')]) {
      const { mean, deviation } = moments(q);
      expect(Math.abs(deviation / standardDeviation(q) - 1)).toBeLessThan(2e-3);
      const expected = q.shape === 'uniform' ? 10 : 10 + ((q.high - 10) - (10 - q.low)) / 2 / Math.sqrt(2 * Math.PI);
      expect(Math.abs(mean - expected)).toBeLessThan(1e-3);
    }
    expect(standardDeviation(made(1, 1, 1, 'exact'))).toBe(0);
  });
  it('keeps a positive quantity above zero, however wide, and a negative one below', () => {
    fc.assert(fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), fc.double({ min: 0, max: 20, noNaN: true }), fc.constantFrom('normal' as const, 'uniform' as const), fc.double({ min: 1e-12, max: 1 - 1e-12, noNaN: true }), (x, wide, shape, u) => {
      expect(drawFrom(made(x, x - wide * x, x + wide * x, shape), u)).toBeGreaterThan(0);
      expect(drawFrom(made(-x, -x - wide * x, -x + wide * x, shape, 'current'), u)).toBeLessThan(0);
    }));
  });
  it('spreads the cut probability over the rest instead of heaping it at the cut', () => {
    const q = made(1, -1, 3, 'normal');
    const draws = grid.map((u) => drawFrom(q, u));
    expect(draws.filter((x) => x < 0.01).length / draws.length).toBeLessThan(0.01);
  });
  it('lets a temperature difference and a quantity of zero take either sign', () => {
    expect(drawFrom(made(1, -1, 3, 'normal', 'temperature_difference'), 0.01)).toBeLessThan(0);
    expect(drawFrom(made(0, -1, 1, 'normal', 'length'), 0.01)).toBeLessThan(0);
  });
  it('grows with the probability', () => {
    fc.assert(fc.property(fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }), fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }), fc.double({ min: 0.01, max: 5, noNaN: true }), fc.constantFrom('normal' as const, 'uniform' as const), (a, b, wide, shape) => {
      const q = made(2, 2 - wide, 2 + 3 * wide, shape);
      expect(drawFrom(q, Math.max(a, b))).toBeGreaterThanOrEqual(drawFrom(q, Math.min(a, b)));
    }));
  });
});
