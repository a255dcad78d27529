import { describe, expect, it } from 'vitest';
import { cableDutyTemperature, cableHeatCapacity, type CableThermal } from './cable-duty.ts';
import { steadyCableTemperature } from './cable-heating.ts';

const cable: CableThermal = { resistance20: 0.554e-3, material: 'copper', area: 35e-6, conductorDiameter: 8.4e-3, outsideDiameter: 12.4e-3, thermalResistivity: 5 };
const steady = (current: number): number => {
  const found = steadyCableTemperature(cable, current, 303.15);
  if (found.outcome !== 'steady') throw new Error('over range');
  return found.conductor;
};
const peak = (duty: { current: number; time: number }[]): number => {
  const found = cableDutyTemperature(cable, duty, 303.15);
  if (found.outcome !== 'periodic') throw new Error('over range');
  return found.peak;
};

describe('cableDutyTemperature', () => {
  it('is ambient without current', () => {
    expect(peak([{ current: 0, time: 1 }])).toBeCloseTo(303.15, 6);
  });
  it('of a constant current is exactly the steady temperature', () => {
    expect(peak([{ current: 222, time: 60 }])).toBeCloseTo(steady(222), 6);
  });
  it('of a very fast duty is the steady temperature of its root mean square', () => {
    expect(peak([{ current: 300, time: 0.01 }, { current: 0, time: 0.01 }])).toBeCloseTo(steady(300 / Math.SQRT2), 1);
  });
  it('of a duty slow enough to settle nears the steady temperature of its highest current, from below or by the averaged heat path', () => {
    const slow = peak([{ current: 222, time: 20_000 }, { current: 0, time: 20_000 }]);
    expect(slow).toBeGreaterThan(steady(222) - 1);
    expect(slow).toBeLessThan(steady(222) + 12);
  });
  it('rises as the period grows from short to long', () => {
    const peaks = [1, 30, 120, 600, 3000].map((time) => peak([{ current: 280, time }, { current: 60, time }]));
    peaks.slice(1).forEach((value, index) => expect(value).toBeGreaterThan(peaks[index]!));
  });
  it('says over_range for a duty that would burn it', () => {
    expect(cableDutyTemperature(cable, [{ current: 1500, time: 100 }], 303.15).outcome).toBe('over_range');
  });
});

describe('cableHeatCapacity', () => {
  it('is more than the metal alone and less than metal and all of the covering', () => {
    const metal = 35e-6 * 3.45e6;
    const covering = (Math.PI / 4) * (12.4e-3 ** 2 - 8.4e-3 ** 2) * 1.7e6;
    expect(cableHeatCapacity(cable)).toBeGreaterThan(metal + 0.3 * covering);
    expect(cableHeatCapacity(cable)).toBeLessThan(metal + 0.5 * covering);
  });
});
