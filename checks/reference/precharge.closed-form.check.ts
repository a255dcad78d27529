/**
 * Precharge of a capacitor: TI TIDUF73 equations 1, 2 and 4 (50 ohm for five time constants in 0.5 s, hence 2.0 mF; energy
 * C V²/2), a resistor maker's step rules, and examples 1 to 4 of the notes. Read from the project's reference notes, section 5.
 * Grade: equations and sizing published; the examples closed form, computed in the notes.
 *
 * Tolerances: half a unit of the last printed digit of the notes.
 */
import { describe, expect, it } from 'vitest';
import { prechargeCurrent, prechargeEnergy, prechargeTime, prechargeVoltage, repeatedPrechargePower, resistorForPrecharge } from '../../core/physics/precharge-curve.ts';

const timeTo = (source: number, resistance: number, capacitance: number, target: number): number => {
  const found = prechargeTime({ source, resistance, capacitance }, target);
  if (found.outcome !== 'reached') throw new Error('unloaded precharge below the source always gets there');
  return found.time;
};
const energyTo = (source: number, resistance: number, capacitance: number, share: number): { inResistor: number; peakPower: number } => {
  const found = prechargeEnergy({ source, resistance, capacitance }, source * share);
  if (found.outcome !== 'reached') throw new Error('below the source');
  return found;
};

describe('TI TIDUF73', () => {
  it('equation 2: five time constants in 0.5 s and 2.0 mF need 50 ohm', () => {
    expect(resistorForPrecharge(2e-3, 0.5, 1 - Math.exp(-5))).toBeCloseTo(50, 9);
  });
  it('equation 1: v = V (1 - e^(-t/RC))', () => {
    for (const time of [0.01, 0.1, 0.35]) expect(prechargeVoltage({ source: 400, resistance: 50, capacitance: 2e-3 }, time)).toBeCloseTo(400 * (1 - Math.exp(-time / 0.1)), 8);
  });
  it('equation 4: C V²/2 in the resistor, whatever it is', () => {
    for (const resistance of [5, 50, 500]) expect(energyTo(400, resistance, 2e-3, 1 - 1e-9).inResistor / 160).toBeCloseTo(1, 8);
  });
});

describe('examples of the notes', () => {
  it('1: 400 V, 1 mF, 100 ohm', () => {
    expect(prechargeCurrent({ source: 400, resistance: 100, capacitance: 1e-3 }, 0)).toBe(4);
    expect(energyTo(400, 100, 1e-3, 1 - 1e-9).peakPower).toBe(1600);
    expect(energyTo(400, 100, 1e-3, 1 - 1e-9).inResistor).toBeCloseTo(80, 6);
    expect(timeTo(400, 100, 1e-3, 380)).toBeCloseTo(0.3, 3);
    expect(timeTo(400, 100, 1e-3, 396)).toBeCloseTo(0.461, 3);
    expect(prechargeVoltage({ source: 400, resistance: 100, capacitance: 1e-3 }, 0.5)).toBeCloseTo(397.3, 1);
  });
  it('2: 400 V, 0.5 mF, 47 ohm', () => {
    expect(prechargeCurrent({ source: 400, resistance: 47, capacitance: 5e-4 }, 0)).toBeCloseTo(8.51, 2);
    expect(energyTo(400, 47, 5e-4, 1 - 1e-9).peakPower).toBeCloseTo(3404, 0);
    expect(energyTo(400, 47, 5e-4, 1 - 1e-9).inResistor).toBeCloseTo(40, 6);
    expect(timeTo(400, 47, 5e-4, 396)).toBeCloseTo(0.108, 3);
  });
  it('3: 800 V, 2 mF, 50 ohm', () => {
    expect(prechargeCurrent({ source: 800, resistance: 50, capacitance: 2e-3 }, 0)).toBe(16);
    expect(energyTo(800, 50, 2e-3, 1 - 1e-9).peakPower).toBe(12_800);
    expect(energyTo(800, 50, 2e-3, 1 - 1e-9).inResistor).toBeCloseTo(640, 5);
    expect(timeTo(800, 50, 2e-3, 780)).toBeCloseTo(0.369, 3);
  });
  it('4: 100 V, 10 mF, 10 ohm', () => {
    expect(energyTo(100, 10, 10e-3, 1 - 1e-9).inResistor).toBeCloseTo(50, 6);
    expect(timeTo(100, 10, 10e-3, 100 * (1 - Math.exp(-1)))).toBeCloseTo(0.1, 9);
  });
  it('three starts in 10 s put 3 E/10 s on average into the resistor', () => {
    expect(repeatedPrechargePower(80, 10 / 3)).toBeCloseTo(24, 9);
  });
});
