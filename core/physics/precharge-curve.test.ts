import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { integral } from './integral.ts';
import { prechargeCurrent, prechargeEndVoltage, prechargeEnergy, prechargeTime, prechargeVoltage, resistorForPrecharge, type PrechargeCircuit } from './precharge-curve.ts';

const plain: PrechargeCircuit = { source: 400, resistance: 100, capacitance: 1e-3 };

/** Capacitor current, written from the description of the loads alone. */
function intoCapacitor(c: PrechargeCircuit, v: number): number {
  const knee = c.knee ?? 1;
  const share = v < knee ? v / knee : 1;
  const power = c.loadPower ?? 0;
  return (c.source - v) / c.resistance - (c.loadResistance ? v / c.loadResistance : 0) - (c.loadCurrent ?? 0) * share - (v < knee ? (power * v) / knee ** 2 : power / v);
}

const circuits = fc.record({
  source: fc.double({ min: 50, max: 900, noNaN: true }), resistance: fc.double({ min: 1, max: 500, noNaN: true }), capacitance: fc.double({ min: 1e-5, max: 1e-2, noNaN: true }),
  loadResistance: fc.double({ min: 500, max: 1e6, noNaN: true }), loadCurrent: fc.double({ min: 0, max: 0.05, noNaN: true }), loadPower: fc.double({ min: 0, max: 30, noNaN: true }), knee: fc.double({ min: 5, max: 60, noNaN: true }),
});

describe('prechargeTime', () => {
  it('is zero when the capacitor is already there', () => {
    expect(prechargeTime(plain, 380, 390)).toEqual({ outcome: 'reached', time: 0 });
  });
  it('never reaches the source itself', () => {
    expect(prechargeTime(plain, 400)).toEqual({ outcome: 'never', stall: 400 });
  });
  it('refuses a resistor or capacitor of zero', () => {
    expect(() => prechargeTime({ ...plain, resistance: 0 }, 100)).toThrow('resistance');
    expect(() => prechargeTime({ ...plain, capacitance: 0 }, 100)).toThrow('capacitance');
  });
  it('stalls at the divider with a resistor across the capacitor', () => {
    expect(prechargeTime({ ...plain, loadResistance: 300 }, 380)).toEqual({ outcome: 'never', stall: 300 });
  });
  it('stalls below the knee under a power load that takes over as a resistor', () => {
    const heavy = { ...plain, loadPower: 500, knee: 50 };
    const found = prechargeTime(heavy, 380);
    expect(found.outcome).toBe('never');
    if (found.outcome !== 'never') return;
    expect(found.stall).toBeLessThan(50);
    expect(intoCapacitor(heavy, found.stall)).toBeCloseTo(0, 9);
  });
  it('gets through with the same load once it starts above the lower balance point, and falls back below it', () => {
    const heavy = { ...plain, loadPower: 300, knee: 50 };
    // (400 - v) v / 100 = 300: 100 V and 300 V
    expect(prechargeEndVoltage(heavy, 0)).toBeLessThan(50);
    expect(prechargeEndVoltage(heavy, 99)).toBeLessThan(50);
    expect(prechargeEndVoltage(heavy, 101)).toBeCloseTo(300, 9);
    expect(prechargeTime(heavy, 290, 101).outcome).toBe('reached');
    expect(prechargeTime(heavy, 290, 100).outcome).toBe('never');
  });
  it('meets numerical integration of C dv / i for any load', () => {
    fc.assert(fc.property(circuits, fc.double({ min: 0.01, max: 0.98, noNaN: true }), (circuit, share) => {
      const stall = prechargeEndVoltage(circuit);
      expect(Math.abs(intoCapacitor(circuit, stall))).toBeLessThan(1e-9 * (1 + circuit.source / circuit.resistance));
      const target = share * stall;
      const found = prechargeTime(circuit, target);
      expect(found.outcome).toBe('reached');
      if (found.outcome !== 'reached') return;
      const pieces = target > circuit.knee ? [[0, circuit.knee], [circuit.knee, target]] : [[0, target]];
      const expected = pieces.reduce((sum, [from, to]) => sum + integral((v) => circuit.capacitance / intoCapacitor(circuit, v), from!, to! - 1e-12 * (to === circuit.knee ? to : 0), 1e-11), 0);
      expect(found.time / expected).toBeCloseTo(1, 6);
    }));
  });
});

describe('prechargeVoltage', () => {
  it('is the start at time zero and the end voltage after long', () => {
    expect(prechargeVoltage(plain, 0, 7)).toBe(7);
    expect(prechargeVoltage(plain, 100)).toBeCloseTo(400, 9);
  });
  it('refuses to describe a fall', () => {
    expect(() => prechargeVoltage({ ...plain, loadResistance: 300 }, 1, 350)).toThrow('falls');
  });
  it('undoes prechargeTime', () => {
    fc.assert(fc.property(circuits, fc.double({ min: 0.01, max: 0.999, noNaN: true }), (circuit, share) => {
      const target = share * prechargeEndVoltage(circuit);
      const found = prechargeTime(circuit, target);
      if (found.outcome !== 'reached') throw new Error('below the stall');
      expect(prechargeVoltage(circuit, found.time) / target).toBeCloseTo(1, 7);
    }));
  });
});

describe('prechargeEnergy', () => {
  it('is nothing when already there, and the power at the stall when it never gets there', () => {
    expect(prechargeEnergy(plain, 100, 200)).toMatchObject({ outcome: 'reached', inResistor: 0, fromSource: 0 });
    expect(prechargeEnergy({ ...plain, loadResistance: 300 }, 380)).toEqual({ outcome: 'never', stall: 300, stallPower: 100 });
  });
  it('balances: from the source = in the resistor + stored + in the loads, each integrated on its own', () => {
    fc.assert(fc.property(circuits, fc.double({ min: 0.05, max: 0.99, noNaN: true }), (circuit, share) => {
      const target = share * prechargeEndVoltage(circuit);
      const found = prechargeEnergy(circuit, target);
      if (found.outcome !== 'reached') throw new Error('below the stall');
      const load = (v: number): number => v * ((circuit.source - v) / circuit.resistance - intoCapacitor(circuit, v));
      const pieces = target > circuit.knee ? [[0, circuit.knee * (1 - 1e-12)], [circuit.knee, target]] : [[0, target]];
      const inLoad = pieces.reduce((sum, [from, to]) => sum + integral((v) => (circuit.capacitance * load(v)) / intoCapacitor(circuit, v), from!, to!, 1e-11), 0);
      expect((found.inResistor + inLoad + (circuit.capacitance * target ** 2) / 2) / found.fromSource).toBeCloseTo(1, 6);
      expect(Math.abs(found.inLoad - inLoad)).toBeLessThan(1e-6 * found.fromSource);
    }));
  });
});

describe('prechargeCurrent and resistorForPrecharge', () => {
  it('start at V/R and end at zero', () => {
    expect(prechargeCurrent(plain, 0)).toBe(4);
    expect(prechargeCurrent(plain, 400)).toBe(0);
  });
  it('give a resistor that does just reach the share in the time', () => {
    const resistance = resistorForPrecharge(1e-3, 0.5, 0.95);
    const found = prechargeTime({ ...plain, resistance }, 380);
    expect(found.outcome === 'reached' && found.time).toBeCloseTo(0.5, 9);
    expect(() => resistorForPrecharge(1e-3, 0.5, 1)).toThrow('share');
  });
});
