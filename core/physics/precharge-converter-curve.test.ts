import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { integral } from './integral.ts';
import { converterPrecharge } from './precharge-converter-curve.ts';

const converter = { setVoltage: 400, currentLimit: 0.5, powerLimit: 50, efficiency: 0.8, supply: 12 };

describe('converterPrecharge', () => {
  it('takes no time when the capacitor is already there', () => {
    expect(converterPrecharge(converter, 1e-3, undefined, 380, 390)).toMatchObject({ outcome: 'reached', time: 0, supplyEnergy: 0 });
  });
  it('never passes its set voltage, nor the voltage at which a bleeder takes all it has', () => {
    expect(converterPrecharge(converter, 1e-3, undefined, 410)).toEqual({ outcome: 'never', stall: 400 });
    expect(converterPrecharge(converter, 1e-3, 800, 390)).toEqual({ outcome: 'never', stall: 200 });
    expect(converterPrecharge(converter, 1e-3, 100, 390)).toEqual({ outcome: 'never', stall: 50 });
  });
  it('needs C V²/(2 P) extra over the corner, and C V²/2 over efficiency from the supply, without a bleeder', () => {
    const found = converterPrecharge(converter, 1e-3, undefined, 400);
    expect(found.outcome).toBe('reached');
    if (found.outcome !== 'reached') return;
    expect(found.time).toBeCloseTo((1e-3 * 100) / 0.5 + (1e-3 * (160_000 - 10_000)) / 100, 12);
    expect(found.supplyEnergy).toBeCloseTo(80 / 0.8, 9);
    expect(found.peakSupplyCurrent).toBeCloseTo(50 / 0.8 / 12, 12);
    expect(found.chargeFromSupply).toBeCloseTo(100 / 12, 9);
  });
  it('has its peak supply current at the end when it stops below the corner', () => {
    const found = converterPrecharge(converter, 1e-3, undefined, 60);
    expect(found.outcome === 'reached' && found.peakSupplyCurrent).toBeCloseTo(30 / 0.8 / 12, 12);
  });
  it('meets numerical integration with a bleeder', () => {
    fc.assert(fc.property(fc.double({ min: 3000, max: 1e7, noNaN: true }), fc.double({ min: 20, max: 380, noNaN: true }), (load, target) => {
      const found = converterPrecharge(converter, 1e-3, load, target);
      if (found.outcome !== 'reached') return;
      const pieces = target > 100 ? [[0, 100], [100, target]] : [[0, target]];
      const over = (valueAt: (v: number, output: number) => number): number =>
        pieces.reduce((sum, [from, to]) => sum + integral((v) => {
          const output = from === 100 ? 50 / v : 0.5;
          return (1e-3 * valueAt(v, output)) / (output - v / load);
        }, from!, to!, 1e-11), 0);
      expect(found.time / over(() => 1)).toBeCloseTo(1, 6);
      expect(found.supplyEnergy / over((v, output) => (v * output) / 0.8)).toBeCloseTo(1, 5);
    }));
  });
});
