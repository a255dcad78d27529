import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { periodicTemperature, rootMeanSquareCurrent, temperaturesAfter, type ThermalMass } from './duty-heating.ts';

const mass: ThermalMass = { resistance20: 0.554e-3, material: 'copper', heatCapacity: 200, conductance: 0.6 };

/** Fourth-order Runge-Kutta: an independent way to the same answer. */
function stepwise(start: number, current: number, time: number, ambient: number): number {
  const rate = (t: number): number => (current ** 2 * mass.resistance20 * (1 + (t - 293.15) / 254.5) - mass.conductance * (t - ambient)) / mass.heatCapacity;
  const h = time / 2000;
  let t = start;
  for (let i = 0; i < 2000; i += 1) {
    const k1 = rate(t);
    const k2 = rate(t + (h * k1) / 2);
    const k3 = rate(t + (h * k2) / 2);
    const k4 = rate(t + h * k3);
    t += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
  }
  return t;
}

describe('periodicTemperature', () => {
  it('is ambient for no current', () => {
    const settled = periodicTemperature(mass, [{ current: 0, time: 10 }], 300);
    expect(settled.outcome === 'periodic' && settled.peak).toBeCloseTo(300, 9);
  });
  it('refuses a duty that takes no time', () => {
    expect(() => periodicTemperature(mass, [], 300)).toThrow('total time');
    expect(() => periodicTemperature(mass, [{ current: 5, time: 0 }], 300)).toThrow('total time');
  });
  it('says runaway when resistance grows faster than the heat path, also without any heat path', () => {
    expect(periodicTemperature(mass, [{ current: 2000, time: 100 }], 300).outcome).toBe('runaway');
    expect(periodicTemperature({ ...mass, conductance: 0 }, [{ current: 1, time: 1 }], 300).outcome).toBe('runaway');
  });
  it('repeats itself: one period from the settled start ends where it began', () => {
    fc.assert(fc.property(fc.array(fc.record({ current: fc.double({ min: -350, max: 350, noNaN: true }), time: fc.double({ min: 0.1, max: 900, noNaN: true }) }), { minLength: 1, maxLength: 5 }), (duty) => {
      const settled = periodicTemperature(mass, duty, 310);
      if (settled.outcome !== 'periodic') return;
      const after = temperaturesAfter(mass, duty, 310, settled.atStart);
      expect(Math.abs(after.at(-1)! / settled.atStart - 1)).toBeLessThan(1e-9);
      expect(Math.max(...after)).toBeLessThanOrEqual(settled.peak + 1e-6);
      expect(settled.mean).toBeLessThanOrEqual(settled.peak + 1e-6);
      expect(settled.mean).toBeGreaterThanOrEqual(settled.lowest - 1e-6);
    }));
  });
  it('keeps the heat balance: mean heat in equals mean heat out', () => {
    const duty = [{ current: 300, time: 60 }, { current: 0, time: 100 }];
    const settled = periodicTemperature(mass, duty, 310);
    expect(settled.outcome).toBe('periodic');
    if (settled.outcome !== 'periodic') return;
    const [end] = temperaturesAfter(mass, duty, 310, settled.atStart);
    // heat out in the idle part, from the drop of the mass, plus heat out while loaded, from the whole balance
    const out = mass.conductance * (settled.mean - 310) * 160;
    const idleMean = 310 + ((mass.heatCapacity / mass.conductance) * (end! - settled.atStart)) / 100;
    const loadedMean = (settled.mean * 160 - idleMean * 100) / 60;
    const made = 300 ** 2 * mass.resistance20 * (1 + (loadedMean - 293.15) / 254.5) * 60;
    expect(made / out).toBeCloseTo(1, 9);
  });
});

describe('temperaturesAfter', () => {
  it('meets stepwise integration', () => {
    const [first, second] = temperaturesAfter(mass, [{ current: 400, time: 120 }, { current: 50, time: 300 }], 300, 320);
    expect(first).toBeCloseTo(stepwise(320, 400, 120, 300), 6);
    expect(second).toBeCloseTo(stepwise(first!, 50, 300, 300), 6);
  });
  it('holds where heating and cooling grow alike (rate zero)', () => {
    const balance = Math.sqrt((mass.conductance * 254.5) / mass.resistance20);
    const [end] = temperaturesAfter(mass, [{ current: balance, time: 10 }], 300, 320);
    expect(end).toBeCloseTo(stepwise(320, balance, 10, 300), 6);
  });
});

describe('rootMeanSquareCurrent', () => {
  it('of a constant current is that current, and of half time 1/√2 of it', () => {
    expect(rootMeanSquareCurrent([{ current: 7, time: 3 }])).toBeCloseTo(7, 12);
    expect(rootMeanSquareCurrent([{ current: 10, time: 1 }, { current: 0, time: 1 }])).toBeCloseTo(Math.sqrt(50), 12);
  });
});
