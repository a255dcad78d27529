/**
 * The diagnosis engine on two circuits of the literature of model-based diagnosis, with their printed diagnoses. The engine knows no circuit: it
 * gets a matrix of hypotheses (sets of faulty components) times predictions, as fault finding gives it one of faults times voltages.
 *
 * Source:    polybox: R. Davis (1984), in J. de Kleer and B. C. Williams, “Diagnosing multiple faults”, Artificial Intelligence 32 (1987);
 *            full adder: R. Reiter, “A theory of diagnosis from first principles”, Artificial Intelligence 32 (1987). Both from memory:
 *            inputs, observations and minimal diagnoses as printed there
 * Tolerance: the sets must be exactly those
 */
import { describe, expect, it } from 'vitest';
import { rateTests } from '../../core/faults/engine/choose-test.ts';
import type { ValueForecast } from '../../core/faults/engine/forecast.ts';
import { logPriors, posterior } from '../../core/faults/engine/posterior.ts';

type Wires = ReadonlyMap<string, number>;
interface Component { readonly name: string; readonly inputs: readonly string[]; readonly output: string; readonly does: (...inputs: number[]) => number }

/** What a set of faulty components leaves known: a faulty one may give anything, and knowledge runs forward only. */
function known(components: readonly Component[], inputs: Wires, faulty: ReadonlySet<string>): Wires {
  const wires = new Map(inputs);
  for (const { name, inputs: from, output, does } of components) {
    const values = from.map((wire) => wires.get(wire));
    if (!faulty.has(name) && values.every((value) => value !== undefined)) wires.set(output, does(...(values as number[])));
  }
  return wires;
}

function subsets(names: readonly string[]): readonly (readonly string[])[] {
  return names.reduce<readonly (readonly string[])[]>((sets, name) => [...sets, ...sets.map((set) => [...set, name])], [[]]);
}

const P_FAULTY = 0.01;

type Predict = (components: readonly Component[], inputs: Wires, faulty: ReadonlySet<string>, measured: Wires) => Wires;

/** Each measurement is predicted from those before it, as it was when it was made. */
function diagnose(components: readonly Component[], inputs: Wires, measured: Wires, range: readonly [number, number], predict: Predict) {
  const sets = subsets(components.map(({ name }) => name));
  const predictedAfter = (before: Wires): readonly Wires[] => sets.map((set) => predict(components, inputs, new Set(set), before));
  const forecastFrom = (predicted: readonly Wires[], wire: string): ValueForecast => ({ is: 'value', means: Float64Array.from(predicted, (wires) => wires.get(wire) ?? NaN), spread: () => 0.01, range });
  const priors = logPriors(sets.map(({ length }) => P_FAULTY ** length * (1 - P_FAULTY) ** (components.length - length)));
  const rows = [...measured].map(([wire, outcome], index) => ({ outcome, forecast: forecastFrom(predictedAfter(new Map([...measured].slice(0, index))), wire) }));
  const chances = posterior(priors, rows);
  // a set is a diagnosis when no prediction of it is contradicted; the flat part of the likelihood keeps contradicted ones above nothing
  const agrees = sets.filter((_, index) => rows.every(({ forecast, outcome }) => Number.isNaN(forecast.means[index]!) || forecast.means[index] === outcome));
  const minimal = agrees.filter((set) => !agrees.some((other) => other.length < set.length && other.every((name) => set.includes(name))));
  const now = predictedAfter(measured);
  return { sets, chances, minimal: minimal.map((set) => set.join(' ')).sort(), forecast: (wire: string) => forecastFrom(now, wire), chanceOf: chanceAmong(sets, chances, agrees) };
}

/** Of a component to be faulty, among the sets that agree: the literature knows no wild readings. */
function chanceAmong(sets: readonly (readonly string[])[], chances: Float64Array, agrees: readonly (readonly string[])[]): (name: string) => number {
  const sum = (is: (set: readonly string[]) => boolean): number => sets.reduce((total, set, index) => total + (agrees.includes(set) && is(set) ? chances[index]! : 0), 0);
  return (name) => sum((set) => set.includes(name)) / sum(() => true);
}

describe('the polybox: three multipliers, two adders', () => {
  const components: readonly Component[] = [
    { name: 'M1', inputs: ['A', 'C'], output: 'X', does: (a, b) => a * b }, { name: 'M2', inputs: ['B', 'D'], output: 'Y', does: (a, b) => a * b }, { name: 'M3', inputs: ['C', 'E'], output: 'Z', does: (a, b) => a * b },
    { name: 'A1', inputs: ['X', 'Y'], output: 'F', does: (a, b) => a + b }, { name: 'A2', inputs: ['Y', 'Z'], output: 'G', does: (a, b) => a + b },
  ];
  const inputs = new Map([['A', 3], ['B', 2], ['C', 2], ['D', 3], ['E', 3]]);
  /** A multiplier's output follows backwards from a sum that is right: F - Y = X. */
  const bothWays: Predict = (all, from, faulty, measured) => {
    const wires = new Map(known(all, from, faulty));
    for (let round = 0; round < 3; round++) {
      for (const { name, inputs: [a, b], output } of all.slice(3)) {
        if (faulty.has(name)) continue;
        const sum = wires.get(output) ?? measured.get(output), [one, other] = [wires.get(a!), wires.get(b!)];
        if (sum !== undefined && one === undefined && other !== undefined) wires.set(a!, sum - other);
        if (sum !== undefined && other === undefined && one !== undefined) wires.set(b!, sum - one);
      }
      for (const { name, inputs: from, output, does } of all) { const values = from.map((wire) => wires.get(wire)); if (!faulty.has(name) && !wires.has(output) && values.every((value) => value !== undefined)) wires.set(output, does(...(values as number[]))); }
    }
    return wires;
  };
  const measured = new Map([['F', 10], ['G', 12]]);
  const found = diagnose(components, inputs, measured, [0, 20], bothWays);
  it('has the four minimal diagnoses that are printed', () => expect(found.minimal).toEqual(['A1', 'M1', 'M2 A2', 'M2 M3'].sort()));
  it('suspects A1 and M1 alike, and far more than the rest', () => {
    expect(found.chanceOf('A1') / found.chanceOf('M1')).toBeCloseTo(1, 2);
    expect(found.chanceOf('A1')).toBeGreaterThan(0.45);
    for (const name of ['M2', 'M3', 'A2']) expect(found.chanceOf(name)).toBeLessThan(0.1);
  });
  it('measures X next, as printed', () => {
    const wires = ['X', 'Y', 'Z'];
    const [best] = rateTests(wires.map(found.forecast), wires.map(() => 1), found.chances);
    expect(wires[best!.index]).toBe('X');
  });
  it('knows that it is M1 once X reads 4', () => {
    const after = diagnose(components, inputs, new Map([...measured, ['X', 4]]), [0, 20], bothWays);
    expect(after.chanceOf('M1')).toBeGreaterThan(0.95);
  });
});

describe('the full adder: two exclusive-or, two and, one or', () => {
  const components: readonly Component[] = [
    { name: 'X1', inputs: ['A', 'B'], output: 'P', does: (a, b) => a ^ b }, { name: 'A1', inputs: ['A', 'B'], output: 'Q', does: (a, b) => a & b },
    { name: 'X2', inputs: ['P', 'C'], output: 'S', does: (a, b) => a ^ b }, { name: 'A2', inputs: ['P', 'C'], output: 'R', does: (a, b) => a & b },
    { name: 'O1', inputs: ['R', 'Q'], output: 'K', does: (a, b) => a | b },
  ];
  const inputs = new Map([['A', 1], ['B', 0], ['C', 1]]);
  const measured = new Map([['S', 1], ['K', 0]]);
  /** Every way in which the faulty gates may give bits, as far as it fits what was measured; what all of them share is known. */
  const allBits: Predict = (all, from, faulty, measured) => {
    const names = [...faulty];
    const fitting = subsets(names).map((ones) => {
      const wires = new Map(from);
      for (const { name, inputs: feeds, output, does } of all) wires.set(output, faulty.has(name) ? Number(ones.includes(name)) : does(...feeds.map((wire) => wires.get(wire)!)));
      return wires;
    });
    const right = fitting.filter((wires) => [...measured].every(([wire, value]) => wires.get(wire) === value));
    const shown = right.length > 0 ? right : fitting;
    return new Map([...shown[0]!].filter(([wire, value]) => shown.every((wires) => wires.get(wire) === value)));
  };
  it('has the three minimal diagnoses that are printed', () => {
    const { minimal } = diagnose(components, inputs, measured, [0, 1], allBits);
    expect(minimal).toEqual(['X1', 'X2 A2', 'X2 O1'].sort());
  });
  it('suspects X1 most', () => {
    const { chanceOf } = diagnose(components, inputs, measured, [0, 1], allBits);
    expect(chanceOf('X1')).toBeGreaterThan(0.9);
  });
});
