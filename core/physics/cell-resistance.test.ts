import { describe, expect, it } from 'vitest';
import { resistanceFactor } from './cell-resistance.ts';

describe('resistanceFactor', () => {
  it('is exactly 1 at 25 °C', () => {
    expect(resistanceFactor(20_000, 298.15)).toEqual({ outcome: 'factor', factor: 1 });
  });
  it('says outside beyond -30..60 °C, and so for a Celsius value passed for kelvin', () => {
    expect(resistanceFactor(20_000, 242).outcome).toBe('outside');
    expect(() => resistanceFactor(20_000, -10)).toThrow('temperature');
    expect(resistanceFactor(20_000, 25).outcome).toBe('outside');
  });
  it('falls as the cell warms', () => {
    const factors = [250, 270, 290, 310, 330].map((temperature) => resistanceFactor(20_000, temperature)).map((found) => (found.outcome === 'factor' ? found.factor : Number.NaN));
    factors.slice(1).forEach((factor, index) => expect(factor).toBeLessThan(factors[index]!));
  });
});
