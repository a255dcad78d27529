import { describe, expect, it } from 'vitest';
import { integral } from './integral.ts';

describe('integral', () => {
  it('is zero over nothing and for a zero function', () => {
    expect(integral(Math.exp, 2, 2)).toBe(0);
    expect(integral(() => 0, 0, 5)).toBe(0);
  });
  it('changes sign with the direction', () => {
    expect(integral(Math.exp, 1, 0)).toBeCloseTo(-(Math.E - 1), 10);
  });
  it('meets closed forms to 1e-10', () => {
    expect(integral(Math.exp, 0, 10) / (Math.exp(10) - 1)).toBeCloseTo(1, 10);
    expect(integral((x) => 1 / (1 + x * x), 0, 50)).toBeCloseTo(Math.atan(50), 9);
    expect(integral((x) => 1e-9 * Math.sin(x), 0, Math.PI) / 2e-9).toBeCloseTo(1, 9);
  });
  it('refuses a function that is not finite', () => {
    expect(() => integral((x) => 1 / x, 0, 1)).toThrow('not finite');
  });
});
