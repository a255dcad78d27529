import { describe, expect, it } from 'vitest';
import { pairInductance, runInductance, USUAL_INDUCTANCE_PER_LENGTH } from './loop-inductance.ts';

describe('inductance of a loop', () => {
  it('is nothing for a run without length', () => {
    expect(runInductance(0)).toBe(0);
  });

  it('grows with length', () => {
    expect(runInductance(3)).toBeCloseTo(3e-6, 12);
    expect(runInductance(3, 'low')).toBeCloseTo(0.75e-6, 12);
  });

  it('is the textbook value for a pair of wires that touch: 4e-7 (ln 2 + 1/4) H/m', () => {
    expect(pairInductance(0.01, 0.005)).toBeCloseTo(0.3773e-6, 10);
  });

  it('agrees with the energy of the field between two thin wires, integrated over the gap', () => {
    const [spacing, radius] = [0.2, 0.004];
    // flux per ampere and metre through the gap: integral of 2e-7 (1/x + 1/(d - x)) dx from r to d - r
    let flux = 0;
    const steps = 200_000;
    const width = (spacing - 2 * radius) / steps;
    for (let i = 0; i < steps; i++) {
      const x = radius + (i + 0.5) * width;
      flux += 2e-7 * (1 / x + 1 / (spacing - x)) * width;
    }
    const inside = 2 * 0.5e-7; // mu0/8pi for each wire
    expect(pairInductance(spacing, radius) / (flux + inside)).toBeCloseTo(1, 1);
  });

  it('shows that the usual value is that of conductors far apart', () => {
    const together = pairInductance(0.016, 0.004) / 2;
    const farApart = pairInductance(0.5, 0.005) / 2;
    expect(together).toBeLessThan(USUAL_INDUCTANCE_PER_LENGTH / 2);
    expect(farApart / USUAL_INDUCTANCE_PER_LENGTH).toBeCloseTo(0.97, 1);
  });

  it('refuses wires that overlap', () => {
    expect(() => pairInductance(0.005, 0.005)).toThrow(/at least the diameter/);
  });
});
