import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { busbarHeatLoss, steadyBusbarCurrent, steadyBusbarTemperature, type FlatBar } from './busbar-heating.ts';

const bar: FlatBar = { width: 20e-3, thickness: 3e-3, material: 'copper', emissivity: 0.1, lies: 'on_edge' };

describe('steadyBusbarTemperature', () => {
  it('is the air temperature without current', () => {
    expect(steadyBusbarTemperature(bar, 0, 300)).toEqual({ outcome: 'steady', temperature: 300, heat: 0 });
  });
  it('says over_range for a current that the model cannot follow', () => {
    expect(steadyBusbarTemperature(bar, 3000, 300).outcome).toBe('over_range');
  });
  it('is the inverse of steadyBusbarCurrent', () => {
    fc.assert(fc.property(fc.double({ min: 1, max: 100, noNaN: true }), (rise) => {
      const back = steadyBusbarTemperature(bar, steadyBusbarCurrent(bar, 308.15 + rise, 308.15), 308.15);
      expect(back.outcome === 'steady' && back.temperature).toBeCloseTo(308.15 + rise, 6);
    }));
  });
});

describe('busbarHeatLoss', () => {
  it('is zero for a bar as cold as the air or colder', () => {
    expect(busbarHeatLoss(bar, 300, 300)).toBe(0);
    expect(busbarHeatLoss(bar, 290, 300)).toBe(0);
  });
  it('is more with a dull surface, and more on edge than lying flat', () => {
    expect(busbarHeatLoss({ ...bar, emissivity: 0.9 }, 350, 300)).toBeGreaterThan(busbarHeatLoss(bar, 350, 300) * 1.2);
    expect(busbarHeatLoss({ ...bar, width: 50e-3, lies: 'flat' }, 350, 300)).toBeLessThan(busbarHeatLoss({ ...bar, width: 50e-3 }, 350, 300));
  });
  it('of a black bar without convection is what Stefan and Boltzmann say, so the whole is more', () => {
    const radiation = 2 * 23e-3 * 5.670374e-8 * (350 ** 4 - 300 ** 4);
    expect(busbarHeatLoss({ ...bar, emissivity: 1 }, 350, 300) - busbarHeatLoss({ ...bar, emissivity: 0 }, 350, 300)).toBeCloseTo(radiation, 9);
  });
});
