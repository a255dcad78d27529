import { describe, expect, it } from 'vitest';
import type { Quantity } from '../quantity/quantity.ts';
import { doubtsOf } from './doubts.ts';
import { drawTable } from './draw-table.ts';

const normal = (path: string, nominal: number, tolerance: number): Quantity => ({ quantity: 'current', nominal, low: nominal - tolerance, high: nominal + tolerance, shape: 'normal', basis: 'measured', toleranceIsStated: true, unit: 'A', path });

/** margin = a + b - c with independent a, b, c */
function study(quantities: readonly Quantity[], margin: (value: (path: string) => number) => number, draws = 4000): ReturnType<typeof doubtsOf> {
  const table = drawTable(quantities, draws, 7);
  const row = Float64Array.from({ length: draws }, (_, draw) => margin((path) => table.valueOf(draw)(quantities.find((quantity) => quantity.path === path) as Quantity)));
  const nominal = margin((path) => (quantities.find((quantity) => quantity.path === path) as Quantity).nominal);
  return doubtsOf(new Map([['check', row]]), new Map([['check', nominal]]), table, new Map(quantities.map((quantity) => [quantity.path, quantity])));
}

describe('the doubt of a finding', () => {
  it('is absent when no draw could make the check', () => {
    const table = drawTable([normal('a', 10, 1)], 10, 1);
    expect(doubtsOf(new Map([['check', new Float64Array(10).fill(Number.NaN)]]), new Map(), table, new Map()).size).toBe(0);
  });
  it('names nothing to measure when every draw holds', () => {
    const doubt = study([normal('a', 10, 1)], (value) => value('a') - 1).get('check');
    expect(doubt).toEqual({ chance: 1, settledBy: [] });
  });
  it('gives the chance of a normal margin as its closed form', () => {
    // margin mean 1, deviation sqrt(1 + 0.25) = 1.118: chance = Phi(0.8944) = 0.8144
    const doubt = study([normal('a', 11, 2), normal('b', 10, 1)], (value) => value('a') - value('b')).get('check');
    expect(doubt?.chance).toBeCloseTo(0.8144, 2);
  });
  it('shares the doubt as the variances do', () => {
    const doubt = study([normal('a', 11, 2), normal('b', 10, 1)], (value) => value('a') - value('b')).get('check');
    expect(doubt?.settledBy.map(({ path }) => path)).toEqual(['a', 'b']);
    expect(doubt?.settledBy[0]?.share).toBeCloseTo(0.8, 1);
    expect(doubt?.settledBy[1]?.share).toBeCloseTo(0.2, 1);
  });
  it('asks for the precision that the closed form gives', () => {
    // rest deviation of b: 0.5; margin 1 must be 1.645 deviations: allowed 0.6079, so a may keep sqrt(0.3696 - 0.25) = 0.346, half-width 0.69
    const doubt = study([normal('a', 11, 2), normal('b', 10, 1)], (value) => value('a') - value('b'), 20_000).get('check');
    expect(doubt?.settledBy[0]?.precision).toBeCloseTo(0.69, 1);
    // b alone cannot settle it: the doubt of a is too large
    expect(doubt?.settledBy[1]?.precision).toBeUndefined();
  });
  it('does not name a value that has nothing to do with it', () => {
    const doubt = study([normal('a', 11, 2), normal('b', 10, 1), normal('c', 5, 5)], (value) => value('a') - value('b')).get('check');
    expect(doubt?.settledBy.map(({ path }) => path)).not.toContain('c');
  });
});
