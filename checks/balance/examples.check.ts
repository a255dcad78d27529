/**
 * Conservation on every demo build in every mode: currents into each node, power over all elements (Tellegen's theorem), mass.
 * The sums are taken from the elements here, not from the solver's matrix.
 */
import { describe, expect, it } from 'vitest';
import { wireCar } from '../../core/car/wire-car.ts';
import type { RestSolved } from '../../core/solve/rest-result.ts';
import { mass } from '../../core/topics/mass/study.ts';
import { carFromText } from '../fixtures/car-from-text.ts';
import { examples } from '../fixtures/examples.ts';

/** Power taken by each element [W]; delivered is negative. */
function powers(network: ReturnType<typeof wireCar>['network'], solved: RestSolved): number[] {
  return network.elements.flatMap((element) => {
    if (element.type !== 'converter') return [(solved.voltageOf(element.a) - solved.voltageOf(element.b)) * solved.currentOf(element.id)];
    const across = ([p, n]: readonly [string, string]): number => solved.voltageOf(p) - solved.voltageOf(n);
    return [across(element.input) * solved.currentOf(`${element.id}:in`), -across(element.output) * solved.currentOf(element.id)];
  });
}

describe('the three demo builds', () => {
  it('are there', () => expect(examples.map(({ name }) => name).length).toBe(3));
});

describe.each(examples)('$name', ({ text }) => {
  const { build, car, ask } = carFromText(text);
  it('reads without a problem', () => expect(build.problems).toEqual([]));
  it.each([...car.modes.keys()])('loses no current and no power in mode %s', (mode) => {
    const solved = ask.solve({ mode });
    expect(solved.outcome).toBe('solved');
    if (solved.outcome !== 'solved') return;
    const { network } = wireCar(car, { mode });
    const sums = new Map<string, number>();
    let largest = 1e-3;
    for (const element of network.elements) {
      const flows: [string, string, number][] = element.type === 'converter'
        ? [[...element.output, -solved.currentOf(element.id)], [...element.input, solved.currentOf(`${element.id}:in`)]]
        : [[element.a, element.b, solved.currentOf(element.id)]];
      for (const [a, b, current] of flows) {
        largest = Math.max(largest, Math.abs(current));
        sums.set(a, (sums.get(a) ?? 0) + current);
        sums.set(b, (sums.get(b) ?? 0) - current);
      }
    }
    expect(Math.max(...[...sums].map(([, sum]) => Math.abs(sum))) / largest).toBeLessThan(1e-9);
    const taken = powers(network, solved);
    expect(Math.abs(taken.reduce((sum, power) => sum + power, 0)) / Math.max(...taken.map(Math.abs))).toBeLessThan(1e-9);
  });
  it('balances its axle loads with its masses', () => {
    const { results } = mass.study(car, ask);
    const { before, after, removed, added } = results;
    expect(before && after).toBeTruthy();
    if (!before || !after) return;
    expect(after.total).toBeCloseTo(before.total - removed + added, 6);
    expect(after.front + after.rear).toBeCloseTo(after.total, 9);
    expect((after.left ?? 0) + (after.right ?? 0)).toBeCloseTo(after.left === undefined ? 0 : after.total, 9);
  });
});
