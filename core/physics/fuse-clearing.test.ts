import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arcingTime, faultHeating, fuseMelting, letThrough } from './fuse-clearing.ts';
import { integral } from './integral.ts';

const loop = { voltage: 400, resistance: 0.1, inductance: 10e-6 };

describe('fuseMelting', () => {
  it('needs I²t over the current squared without inductance', () => {
    expect(fuseMelting({ ...loop, inductance: 0 }, 16_000)).toEqual({ outcome: 'melts', time: 1e-3, peak: 4000, prospective: 4000 });
  });
  it('says too_slow with the least time when the element would lose heat meanwhile', () => {
    const found = fuseMelting({ voltage: 10, resistance: 0.1, inductance: 0 }, 20_000);
    expect(found.outcome === 'too_slow' && found.atLeast).toBeCloseTo(2, 12);
  });
  it('has let exactly the melting I²t through at that time, by numerical integration, for time constants from far shorter to far longer', () => {
    fc.assert(fc.property(fc.double({ min: -9, max: -1, noNaN: true }), fc.double({ min: 1, max: 5, noNaN: true }), (logL, logMelt) => {
      const fault = { voltage: 400, resistance: 0.1, inductance: 10 ** logL };
      const found = fuseMelting(fault, 10 ** logMelt);
      if (found.outcome !== 'melts') return;
      const current = (t: number): number => -4000 * Math.expm1((-t * 0.1) / fault.inductance);
      const corner = Math.min(found.time, (5 * fault.inductance) / 0.1);
      const heating = integral((t) => current(t) ** 2, 0, corner) + integral((t) => current(t) ** 2, corner, found.time);
      expect(heating / 10 ** logMelt).toBeCloseTo(1, 6);
      expect(faultHeating(fault, found.time) / 10 ** logMelt).toBeCloseTo(1, 9);
      expect(found.peak / current(found.time)).toBeCloseTo(1, 9);
    }));
  });
});

describe('letThrough', () => {
  it('needs the clearing I²t unless something else ends the fault', () => {
    expect(letThrough(loop, undefined, undefined)).toEqual({ outcome: 'needs_clearing_energy' });
    expect(letThrough({ ...loop, inductance: 0 }, undefined, 1e-3)).toEqual({ outcome: 'let_through', energy: 16_000, from: 'prospective' });
  });
  it('is the smaller of the two', () => {
    expect(letThrough({ ...loop, inductance: 0 }, 5000, 1e-3)).toEqual({ outcome: 'let_through', energy: 5000, from: 'clearing' });
    expect(letThrough({ ...loop, inductance: 0 }, 50_000, 1e-3)).toEqual({ outcome: 'let_through', energy: 16_000, from: 'prospective' });
  });
});

describe('arcingTime', () => {
  it('is that of a straight fall with the arcing I²t', () => {
    const time = arcingTime(1000, 4000, 2000);
    expect(integral((t) => (2000 * (1 - t / time)) ** 2, 0, time)).toBeCloseTo(3000, 6);
    expect(() => arcingTime(2, 1, 5)).toThrow('must not be below');
  });
});
