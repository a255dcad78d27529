import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { adiabaticFactor, allowedHeating, areaForHeating, shortCircuitTemperature } from './adiabatic.ts';

describe('shortCircuitTemperature', () => {
  it('is the start without heating', () => {
    expect(shortCircuitTemperature(16e-6, 'copper', 363.15, 0)).toEqual({ outcome: 'temperature', temperature: 363.15 });
  });
  it('says melts, never a number, for a heating beyond the metal', () => {
    expect(shortCircuitTemperature(1.5e-6, 'copper', 303.15, 1e9)).toEqual({ outcome: 'melts', meltingPoint: 1357.8 });
    expect(shortCircuitTemperature(1.5e-6, 'aluminium', 303.15, 1e12).outcome).toBe('melts');
  });
  it('undoes allowedHeating, and areaForHeating too', () => {
    fc.assert(fc.property(fc.double({ min: 0.5e-6, max: 300e-6, noNaN: true }), fc.double({ min: 250, max: 450, noNaN: true }), fc.double({ min: 1, max: 400, noNaN: true }), fc.constantFrom('copper' as const, 'aluminium' as const), (area, start, rise, material) => {
      const heating = allowedHeating(area, material, start, start + rise);
      const back = shortCircuitTemperature(area, material, start, heating);
      expect(back.outcome === 'temperature' && back.temperature).toBeCloseTo(start + rise, 6);
      expect(areaForHeating(heating, material, start, start + rise) / area).toBeCloseTo(1, 9);
    }));
  });
});

describe('adiabaticFactor', () => {
  it('refuses an end that is not above the start; allowedHeating then allows nothing', () => {
    expect(() => adiabaticFactor('copper', 400, 400)).toThrow('must be above');
    expect(allowedHeating(1e-6, 'copper', 400, 390)).toBe(0);
  });
});
