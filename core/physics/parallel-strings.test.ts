import { describe, expect, it } from 'vitest';
import { equalisingCurrent } from './parallel-strings.ts';

const pair = { difference: 2, resistance: 0.05, capacity: [180_000, 220_000], slope: [10, 11] } as const;

describe('equalisingCurrent', () => {
  it('is nothing between equal strings', () => {
    expect(equalisingCurrent({ ...pair, difference: 0 })).toMatchObject({ current: 0, charge: 0, heat: 0 });
  });
  it('refuses flat strings, which would never stop', () => {
    expect(() => equalisingCurrent({ ...pair, slope: [0, 1] })).toThrow('slope1');
  });
  it('moves just the charge that makes both voltages equal', () => {
    const { charge } = equalisingCurrent(pair);
    expect((charge / 180_000) * 10 + (charge / 220_000) * 11).toBeCloseTo(2, 12);
  });
  it('meets stepwise integration', () => {
    const found = equalisingCurrent(pair);
    const h = found.timeConstant / 20_000;
    let difference = 2;
    let charge = 0;
    let heat = 0;
    for (let n = 0; n < 400_000; n += 1) {
      const current = difference / 0.05;
      charge += current * h;
      heat += current ** 2 * 0.05 * h;
      difference -= current * h * (10 / 180_000 + 11 / 220_000);
    }
    expect(charge / found.charge).toBeCloseTo(1, 3);
    expect(heat / found.heat).toBeCloseTo(1, 3);
    expect(found.heating * 0.05).toBeCloseTo(found.heat, 9);
  });
});
