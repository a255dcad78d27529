import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inrush } from './inrush.ts';

/** Runge-Kutta on i' = (v - R i)/L, v' = -i/C (v: difference left). */
function stepwise(d: number, R: number, L: number, C: number): { peak: number; heating: number } {
  const fast = Math.min(L / R, Math.sqrt(L * C), R * C);
  const end = 14 * Math.max(R * C, (2 * L) / R);
  const steps = Math.min(2_000_000, Math.ceil((end / fast) * 40));
  const h = end / steps;
  let i = 0;
  let v = d;
  let peak = 0;
  let heating = 0;
  for (let n = 0; n < steps; n += 1) {
    const f = (i0: number, v0: number): [number, number] => [(v0 - R * i0) / L, -i0 / C];
    const [a1, b1] = f(i, v);
    const [a2, b2] = f(i + (h * a1) / 2, v + (h * b1) / 2);
    const [a3, b3] = f(i + (h * a2) / 2, v + (h * b2) / 2);
    const [a4, b4] = f(i + h * a3, v + h * b3);
    const next = i + (h / 6) * (a1 + 2 * a2 + 2 * a3 + a4);
    v += (h / 6) * (b1 + 2 * b2 + 2 * b3 + b4);
    heating += (h * (i * i + i * next + next * next)) / 3;
    i = next;
    peak = Math.max(peak, Math.abs(i));
  }
  return { peak, heating };
}

describe('inrush', () => {
  it('is nothing without a difference', () => {
    expect(inrush({ difference: 0, resistance: 0.05, inductance: 1e-6, capacitance: 1e-3 })).toMatchObject({ peak: 0, heating: 0, energy: 0 });
  });
  it('peaks at once at dV/R without inductance', () => {
    expect(inrush({ difference: -20, resistance: 0.05, inductance: 0, capacitance: 1e-3 })).toEqual({ peak: 400, peakTime: 0, heating: 4, energy: 0.2, damping: 'no_inductance' });
  });
  it('refuses a loop without resistance', () => {
    expect(() => inrush({ difference: 1, resistance: 0, inductance: 0, capacitance: 1 })).toThrow('resistance');
  });
  it('meets stepwise integration when over-, under- and critically damped', () => {
    const critical = (0.05 ** 2 * 1e-3) / 4;
    for (const [inductance, damping] of [[critical / 30, 'over'], [critical, 'critical'], [critical * 1.01, 'under'], [critical * 50, 'under']] as const) {
      const found = inrush({ difference: 20, resistance: 0.05, inductance, capacitance: 1e-3 });
      const expected = stepwise(20, 0.05, inductance, 1e-3);
      expect(found.damping).toBe(damping);
      expect(found.peak / expected.peak).toBeCloseTo(1, 3);
      expect(found.heating / expected.heating).toBeCloseTo(1, 3);
    }
  });
  it('never passes dV/R nor dV/√(L/C), and changes smoothly across critical damping', () => {
    fc.assert(fc.property(fc.double({ min: -9, max: -3, noNaN: true }), (log) => {
      const inductance = 10 ** log;
      const { peak } = inrush({ difference: 20, resistance: 0.05, inductance, capacitance: 1e-3 });
      expect(peak).toBeLessThanOrEqual(400 * (1 + 1e-12));
      expect(peak).toBeLessThanOrEqual((20 / Math.sqrt(inductance / 1e-3)) * (1 + 1e-12));
    }));
    const critical = (0.05 ** 2 * 1e-3) / 4;
    const [below, at, above] = [1 - 1e-7, 1, 1 + 1e-7].map((share) => inrush({ difference: 20, resistance: 0.05, inductance: critical * share, capacitance: 1e-3 }).peak);
    expect(below! / at!).toBeCloseTo(1, 5);
    expect(above! / at!).toBeCloseTo(1, 5);
  });
});
