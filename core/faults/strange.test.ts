/** Cars that are half written or strange: fault finding never throws on them, and says no number that is none. */
import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { lowVoltageCar } from '../../checks/fixtures/low-voltage-car.ts';
import { faultFinder } from './fault-finder.ts';
import { observationsOf, symptoms } from './symptoms.ts';
import type { Symptom } from './symptoms.ts';

const without = (...names: string[]): string => lowVoltageCar.split('\n').filter((line) => !names.some((name) => line.startsWith(`  ${name}:`))).join('\n');

describe('fault finding', () => {
  it.each<readonly [string, string, string | undefined]>([
    ['an empty car', 'halfshaft: 1\nname: Nothing yet\n', undefined],
    ['a car without modes', lowVoltageCar.slice(0, lowVoltageCar.indexOf('modes:')), undefined],
    ['a car without a 12 V battery', without('B', 'rb', 'r0'), 'drive'],
    ['a car without a pack', without('M1', 'H1', 'H3'), 'drive'],
    ['a car whose controller lacks values', lowVoltageCar.replace('current: 0.3 A, ', ''), 'drive'],
    ['a car without runs', lowVoltageCar.replace(/runs:[\s\S]*modes:/, 'modes:'), 'drive'],
  ])('bears %s', (_, text, mode) => {
    const { car, ask } = carFromText(text);
    const finder = faultFinder(car, ask, mode);
    const ranking = finder.rank([]);
    expect(ranking.chances.every(Number.isFinite)).toBe(true);
    expect([...ranking.chances].reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9);
    const next = finder.next(ranking);
    expect(next === undefined || Number.isFinite(next.gain)).toBe(true);
    finder.verdict(ranking);
    for (const symptom of Object.keys(symptoms) as Symptom[]) {
      const { observations, why } = observationsOf(car, symptom, finder.forecasts.predictionsIn(finder.states.asked));
      if (observations) expect(finder.rank(observations).chances.every(Number.isFinite), symptom).toBe(true);
      else expect(why.length).toBeGreaterThan(10);
    }
  });
});
