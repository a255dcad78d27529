/**
 * Batteries joined in parallel as charged capacitors through a resistor: first current, time constant, heat, what is left; and the largest
 * difference for a current limit and for a fuse.
 *
 * Source:  [closed-form] two capacitors joined through a resistor, as in every textbook of circuits: i = dV/R exp(-t/RC), C = C1 C2/(C1 + C2);
 *          the heat is C dV^2 / 2 whatever the resistance, half of what a full capacitor held when the other is empty and alike
 * Grade:   closed form, and stepwise integration of the two voltages that knows none of the formulas
 * Tolerance: 1e-12 for the closed form, 0.1 % for 200,000 steps
 */
import { describe, expect, it } from 'vitest';
import { equaliseByCapacity, largestDifference } from '../../core/physics/equalising-limit.ts';
import { equalisingCurrent } from '../../core/physics/parallel-strings.ts';

/** Two capacitors, step by step. */
function integrated(capacities: readonly [number, number], voltages: readonly [number, number], resistance: number, until: number): { current: number; heat: number; squared: number } {
  const steps = 200_000;
  const step = until / steps;
  let [one, other] = voltages;
  let [heat, squared, current] = [0, 0, 0];
  for (let n = 0; n < steps; n++) {
    // by the middle of the step
    const first = (one - other) / resistance;
    current = (one - (first * step) / 2 / capacities[0] - other - (first * step) / 2 / capacities[1]) / resistance;
    heat += current ** 2 * resistance * step;
    squared += current ** 2 * step;
    one -= (current * step) / capacities[0];
    other += (current * step) / capacities[1];
  }
  return { current, heat, squared };
}

describe('two charged capacitors through a resistor', () => {
  const capacities = [9000, 6000] as const;
  const capacitance = 3600;
  const found = equaliseByCapacity({ difference: 3, resistance: 0.08, capacitance });
  it('begin with the difference over the resistance and die away with R C', () => {
    expect(found.current).toBeCloseTo(37.5, 12);
    expect(found.timeConstant).toBeCloseTo(288, 12);
    const after = integrated(capacities, [50, 47], 0.08, 288);
    expect(after.current / found.current).toBeCloseTo(Math.exp(-1), 5);
    expect(integrated(capacities, [50, 47], 0.08, found.settled).current / found.current).toBeCloseTo(0.01, 5);
  });
  it('lose C dV²/2 as heat whatever the resistance', () => {
    for (const resistance of [0.02, 0.08, 1]) expect(integrated(capacities, [50, 47], resistance, 30 * resistance * capacitance).heat / found.heat).toBeCloseTo(1, 3);
    // like capacitors, one empty: half of what was stored
    expect(equaliseByCapacity({ difference: 10, resistance: 1, capacitance: 0.5 }).heat).toBeCloseTo((1 * 10 ** 2) / 2 / 2, 12);
  });
  it('agree with the same loop as two strings', () => {
    const pair = equalisingCurrent({ difference: 3, resistance: 0.08, capacity: [90_000, 60_000], slope: [10, 10] });
    expect(pair.current).toBeCloseTo(found.current, 12);
    expect(pair.timeConstant).toBeCloseTo(found.timeConstant, 9);
    expect(pair.heat).toBeCloseTo(found.heat, 9);
  });
});

describe('the largest difference', () => {
  it('is what drives the limit through the loop', () => expect(largestDifference({ what: 'cells', current: 60 }, 0.1, 500)).toEqual({ difference: 6, by: 'cells', current: 60 }));
  it('of a fuse is where the whole decay is its melting integral, when it dies away quickly', () => {
    const { difference, current } = largestDifference({ what: 'fuse', current: 20, heating: 95 }, 0.1, 0.05);
    const capacitance = 0.05 / 0.1;
    expect(integrated([2 * capacitance, 2 * capacitance], [difference, 0], 0.1, 30 * 0.05).squared).toBeCloseTo(95, 0);
    expect(current).toBeGreaterThan(20);
  });
  it('of a fuse is its rating, when it dies away slowly', () => expect(largestDifference({ what: 'fuse', current: 20, heating: 95 }, 0.1, 500).current).toBe(20));
});
