import { describe, expect, it } from 'vitest';
import { busbarDutyTemperature, busbarThermalMass } from './busbar-duty.ts';
import { steadyBusbarTemperature, type FlatBar } from './busbar-heating.ts';

const bar: FlatBar = { width: 20e-3, thickness: 3e-3, material: 'copper', emissivity: 0.3, lies: 'flat' };
const ambient = 313.15;
const steady = (current: number): number => {
  const outcome = steadyBusbarTemperature(bar, current, ambient);
  if (outcome.outcome !== 'steady') throw new Error('over range');
  return outcome.temperature;
};

describe('busbarDutyTemperature', () => {
  it('stays at ambient without current', () => {
    const outcome = busbarDutyTemperature(bar, [{ current: 0, time: 10 }], ambient);
    expect(outcome).toMatchObject({ outcome: 'periodic', peak: ambient });
  });

  it('gives the steady temperature under a constant current', () => {
    const outcome = busbarDutyTemperature(bar, [{ current: 200, time: 60 }], ambient);
    expect(outcome.outcome === 'periodic' && outcome.peak).toBeCloseTo(steady(200), 6);
  });

  it('lies between the steady temperatures of its two currents, nearer the lower for short pulses', () => {
    const outcome = busbarDutyTemperature(bar, [{ current: 300, time: 10 }, { current: 100, time: 110 }], ambient);
    if (outcome.outcome !== 'periodic') throw new Error('over range');
    expect(outcome.peak).toBeGreaterThan(steady(100));
    expect(outcome.peak).toBeLessThan(steady(300));
    expect(outcome.mean).toBeLessThan((steady(100) + steady(300)) / 2);
  });

  it('has the thermal time constant of minutes that a bar has', () => {
    const mass = busbarThermalMass(bar, 353.15, ambient);
    // 60 mm2 of copper hold 207 J/(K.m)
    expect(mass.heatCapacity).toBeCloseTo(207, 6);
    expect(mass.heatCapacity / mass.conductance).toBeGreaterThan(300);
  });

  it('says when the duty would pass the range of the model', () => {
    expect(busbarDutyTemperature(bar, [{ current: 2000, time: 60 }], ambient)).toMatchObject({ outcome: 'over_range' });
  });
});
