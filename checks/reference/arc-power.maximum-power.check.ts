/**
 * The arc of a shorted source by the maximum-power method (Doan 2010, NFPA 70E D.5, equation from memory): the arc current is half the
 * bolted fault current, the incident energy 0.01 V I t / D² [cal/cm², V, A, s, cm], where 0.01 rounds 0.239 / 8π.
 */
import { describe, expect, it } from 'vitest';
import { incidentEnergy, largestArc } from '../../core/physics/arc-power.ts';

/** [J/m2 per cal/cm2] */
const CALORIE = 41_840;

describe('400 V behind 0.1 Ω for 2 s, seen from 45.72 cm', () => {
  const arc = largestArc(400, 0.1);
  it('burns with half of 4000 A, at half the voltage', () => {
    expect(arc.current).toBeCloseTo(2000, 9);
    expect(arc.power).toBeCloseTo(400_000, 6);
  });
  it('gives 7.65 cal/cm² by the printed constant, which rounds up by 5 %', () => {
    const ours = incidentEnergy(arc.power, 2, 0.4572) / CALORIE;
    expect(ours).toBeGreaterThan(7.65 * 0.94);
    expect(ours).toBeLessThanOrEqual(7.65);
  });
});

describe('223 kW of an arc of 10 mm by Stokes and Oppenlander', () => {
  it('give 4.06 cal/cm² at 45.72 cm in 2 s', () => expect(incidentEnergy(223_000, 2, 0.4572) / CALORIE).toBeCloseTo(4.06, 1));
});
