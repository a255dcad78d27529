import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bladeOpeningTime, conventionalCurrents, generalFuseGates, generalFuseOpeningTime, surelyOpens } from './fuse-gates.ts';

describe('bladeOpeningTime', () => {
  it('carries no current for as long as the first row says, and has no longest time below the second', () => {
    expect(bladeOpeningTime('regular', 10, 0)).toEqual({ atLeast: 360_000, atMost: undefined });
    expect(bladeOpeningTime('regular', 10, 12)).toEqual({ atLeast: 0.75, atMost: undefined });
  });
  it('gives the row itself at a published multiple, and the neighbours between', () => {
    expect(bladeOpeningTime('regular', 10, 20)).toEqual({ atLeast: 0.15, atMost: 5 });
    expect(bladeOpeningTime('maxi', 40, 100)).toEqual({ atLeast: 0.2, atMost: 50 });
  });
  it('sets no shortest time above the last multiple', () => {
    expect(bladeOpeningTime('regular', 10, 500)).toEqual({ atLeast: undefined, atMost: 0.1 });
  });
  it('never opens later at a higher current, and never has its limits crossed', () => {
    fc.assert(fc.property(fc.double({ min: 0, max: 10, noNaN: true }), fc.double({ min: 0, max: 10, noNaN: true }), (one, two) => {
      const low = bladeOpeningTime('maxi', 1, Math.min(one, two));
      const high = bladeOpeningTime('maxi', 1, Math.max(one, two));
      expect(high.atMost ?? Infinity).toBeLessThanOrEqual(low.atMost ?? Infinity);
      expect(high.atLeast ?? 0).toBeLessThanOrEqual(low.atLeast ?? 0);
      expect(low.atLeast ?? 0).toBeLessThanOrEqual(low.atMost ?? Infinity);
    }));
  });
});

describe('generalFuseOpeningTime', () => {
  it('knows nothing of ratings without a row', () => {
    expect(generalFuseOpeningTime(17, 100)).toBeUndefined();
    expect(conventionalCurrents(10)).toBeUndefined();
  });
  it('has the gates in order, with shrinking limits', () => {
    for (const gate of generalFuseGates) {
      expect(gate.carries10s).toBeLessThan(gate.opens5s);
      expect(gate.carriesTenth).toBeLessThan(gate.opensTenth);
      expect(generalFuseOpeningTime(gate.rating, gate.opensTenth)).toEqual({ atLeast: undefined, atMost: 0.1 });
      expect(generalFuseOpeningTime(gate.rating, gate.opens5s)).toEqual({ atLeast: 0.1, atMost: 5 });
      expect(generalFuseOpeningTime(gate.rating, gate.rating)?.atMost).toBeUndefined();
    }
  });
});

describe('surelyOpens', () => {
  it('takes the next larger size of the table, and the multiples of the largest above it', () => {
    expect(surelyOpens(250)).toEqual({ within5s: 1650, withinTenth: 4500 });
    expect(surelyOpens(200)).toEqual({ within5s: 1650, withinTenth: 4500 });
    expect(surelyOpens(800).withinTenth).toBeCloseTo(2 * 8060, 6);
  });
});
