import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CABLE_MODEL_LIMIT, cableHeatConductance, steadyCableCurrent, steadyCableTemperature, type CableInAir } from './cable-heating.ts';

const cable: CableInAir = { resistance20: 0.554e-3, material: 'copper', conductorDiameter: 8.4e-3, outsideDiameter: 12.4e-3, thermalResistivity: 5 };

describe('steadyCableTemperature', () => {
  it('is the air temperature without current', () => {
    expect(steadyCableTemperature(cable, 0, 303.15)).toEqual({ outcome: 'steady', conductor: 303.15, surface: 303.15, heat: 0 });
  });
  it('says over_range instead of a temperature beyond the model, with the current that is still inside', () => {
    const result = steadyCableTemperature(cable, 5000, 303.15);
    expect(result.outcome).toBe('over_range');
    if (result.outcome !== 'over_range') return;
    const edge = steadyCableTemperature(cable, result.current * 0.9999, 303.15);
    expect(edge.outcome === 'steady' && edge.conductor).toBeCloseTo(CABLE_MODEL_LIMIT, 0);
  });
  it('refuses a jacket inside the conductor', () => {
    expect(() => steadyCableTemperature({ ...cable, outsideDiameter: 8e-3 }, 10, 300)).toThrow('outside diameter');
  });
  it('is the inverse of steadyCableCurrent, and its heat is I²R at that temperature', () => {
    fc.assert(fc.property(fc.double({ min: 230, max: 400, noNaN: true }), fc.double({ min: 0.5, max: 150, noNaN: true }), (ambient, rise) => {
      const current = steadyCableCurrent(cable, ambient + rise, ambient);
      const back = steadyCableTemperature(cable, current, ambient);
      expect(back.outcome).toBe('steady');
      if (back.outcome !== 'steady') return;
      expect(back.conductor).toBeCloseTo(ambient + rise, 6);
      expect(back.heat / (current ** 2 * 0.554e-3 * (1 + (back.conductor - 293.15) / 254.5))).toBeCloseTo(1, 9);
      expect(back.surface).toBeGreaterThan(ambient);
      expect(back.surface).toBeLessThan(back.conductor);
    }));
  });
  it('does not care about the direction of the current', () => {
    expect(steadyCableTemperature(cable, -150, 303.15)).toEqual(steadyCableTemperature(cable, 150, 303.15));
  });
});

describe('cableHeatConductance', () => {
  it('is heat over rise', () => {
    const steady = steadyCableTemperature(cable, 222, 303.15);
    expect(steady.outcome).toBe('steady');
    if (steady.outcome === 'steady') expect(cableHeatConductance(cable, steady.conductor, 303.15) * (steady.conductor - 303.15)).toBeCloseTo(steady.heat, 9);
  });
  it('stays above zero at ambient itself', () => {
    expect(cableHeatConductance(cable, 303.15, 303.15)).toBeGreaterThan(0);
  });
});
