import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellCharge, cellVoltage } from './cell-voltage.ts';

const curve = [[0, 2.5], [0.1, 3.3], [0.6, 3.7], [1, 4.2]];

describe('cellVoltage', () => {
  it('says outside, never a held value, for a charge beyond the curve or not a number', () => {
    for (const charge of [-0.001, 1.001, Number.NaN]) expect(cellVoltage(curve, charge)).toEqual({ outcome: 'outside', lowest: 0, highest: 1 });
  });
  it('gives its points back exactly', () => {
    for (const [charge, voltage] of curve) expect(cellVoltage(curve, charge!)).toMatchObject({ outcome: 'voltage', voltage });
  });
  it('refuses a curve that does not rise', () => {
    expect(() => cellVoltage([[0, 3]], 0)).toThrow('two points');
    expect(() => cellVoltage([[0, 3], [1, 3]], 0)).toThrow('point 1');
    expect(() => cellVoltage([[0, 3], [0, 4]], 0)).toThrow('point 1');
  });
  it('rises with charge and is undone by cellCharge', () => {
    fc.assert(fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (charge) => {
      const found = cellVoltage(curve, charge);
      if (found.outcome !== 'voltage') throw new Error('inside');
      expect(found.slope).toBeGreaterThan(0);
      const back = cellCharge(curve, found.voltage);
      expect(back.outcome === 'charge' && back.stateOfCharge).toBeCloseTo(charge, 9);
    }));
  });
});

describe('cellCharge', () => {
  it('says outside for a voltage no rested cell of the curve has', () => {
    expect(cellCharge(curve, 4.21)).toEqual({ outcome: 'outside', lowest: 2.5, highest: 4.2 });
  });
});
