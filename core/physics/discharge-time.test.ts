import { describe, expect, it } from 'vitest';
import { activeDischargeTime, dischargeTime, dischargeVoltage, resistorForDischarge } from './discharge-time.ts';

describe('discharge', () => {
  it('takes no time from a voltage that is already low, and needs no resistor', () => {
    expect(dischargeTime(1000, 1e-3, 50, 60)).toBe(0);
    expect(activeDischargeTime(100, 1e-3, 60, 60)).toBe(0);
    expect(resistorForDischarge(1e-3, 50, 60, 5)).toEqual({ outcome: 'none_needed' });
  });
  it('refuses an end of zero volts, which a resistor never reaches', () => {
    expect(() => dischargeTime(1000, 1e-3, 50, 0)).toThrow('to must be');
  });
  it('agrees with itself: voltage after the time, and resistor for the time', () => {
    const found = resistorForDischarge(0.7e-3, 380, 60, 4);
    expect(found.outcome).toBe('resistor');
    if (found.outcome !== 'resistor') return;
    expect(dischargeTime(found.resistance, 0.7e-3, 380, 60)).toBeCloseTo(4, 12);
    expect(dischargeVoltage(found.resistance, 0.7e-3, 380, 4)).toBeCloseTo(60, 9);
  });
  it('at constant power takes the energy over the power', () => {
    expect(activeDischargeTime(100, 1e-3, 400, 60)).toBeCloseTo((80 - 1.8) / 100, 12);
  });
});
