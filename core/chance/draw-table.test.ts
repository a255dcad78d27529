import { describe, expect, it } from 'vitest';
import type { Quantity } from '../quantity/quantity.ts';
import { drawTable } from './draw-table.ts';

const uniform = (path: string, low: number, high: number): Quantity => ({ quantity: 'resistance', nominal: (low + high) / 2, low, high, shape: 'uniform', basis: 'estimate', toleranceIsStated: true, unit: 'Ω', path });

describe('a table of draws', () => {
  it('gives the nominal of a quantity that has no spread, or that it does not know', () => {
    const exact: Quantity = { ...uniform('e', 3, 3), shape: 'exact' };
    const table = drawTable([exact], 5, 1);
    expect(table.paths).toEqual([]);
    expect(table.valueOf(2)(exact)).toBe(3);
    expect(table.valueOf(0)(uniform('other', 1, 2))).toBe(1.5);
  });
  it('uses every share of a range once', () => {
    const table = drawTable([uniform('r', 0.5, 10.5)], 10, 42);
    const shares = Array.from({ length: 10 }, (_, draw) => Math.floor(table.value(0, draw) - 0.5)).sort((a, b) => a - b);
    expect(shares).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
  });
  it('is the same for the same seed and another for another', () => {
    const quantities = [uniform('r', 1, 2), uniform('s', 1, 2)];
    const values = (seed: number): number[] => Array.from({ length: 20 }, (_, draw) => drawTable(quantities, 20, seed).value(1, draw));
    expect(values(5)).toEqual(values(5));
    expect(values(5)).not.toEqual(values(6));
  });
  it('leaves no correlation between two quantities', () => {
    const table = drawTable([uniform('r', -1, 1), uniform('s', -1, 1)], 2000, 3);
    let product = 0;
    for (let draw = 0; draw < 2000; draw++) product += table.value(0, draw) * table.value(1, draw);
    expect(Math.abs(product / 2000 / (1 / 3))).toBeLessThan(0.08);
  });
});
