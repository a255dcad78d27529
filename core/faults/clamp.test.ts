import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { highVoltageCar } from '../../checks/fixtures/high-voltage-car.ts';
import { lowVoltageCar } from '../../checks/fixtures/low-voltage-car.ts';
import { answerTest } from './answer-test.ts';
import { faultFinder } from './fault-finder.ts';
import { lookWords, observationWords } from './fault-words.ts';
import { faultyCar } from './faulty-car.ts';
import { readObservation } from './read-observation.ts';

const { car, ask } = carFromText(lowVoltageCar);
const finder = faultFinder(car, ask, 'drive');
const clamps = finder.tests.filter(({ look }) => look.is === 'current');
const read = (text: string) => readObservation(text, car, finder.states, finder.forecasts.predictionsIn);

describe('a clamp', () => {
  it('is offered where a run of its own carries something', () => {
    const runs = new Set(clamps.map(({ look }) => (look.is === 'current' ? look.of : '')));
    expect(runs.has('r5')).toBe(true);
    // 0.1 m long: no room
    expect(runs.has('r2')).toBe(false);
    // a signal wire
    expect(runs.has('r11')).toBe(false);
  });
  it('goes round high-voltage cables with every cover on, and is never a reading at exposed high voltage', () => {
    const high = carFromText(highVoltageCar);
    const tests = faultFinder(high.car, high.ask, 'drive').tests.filter(({ look }) => look.is === 'current');
    expect(tests.some(({ precautions }) => precautions.some((text) => text.includes('every cover stays on')))).toBe(true);
    expect(tests.every(({ danger, cost }) => danger !== 'high' && cost > 0)).toBe(true);
  });
  it('reads what the whole network with the fault in it carries', () => {
    for (const id of ['none', 'r5.open', 'r5.resistive_0.5', 'r15.open']) {
      const fault = finder.hypotheses.find((one) => one.id === id)!;
      const faulty = faultyCar(car, fault);
      for (const { state, look } of clamps) {
        const forecast = finder.forecasts.forecast(state, look, [fault])!;
        const seen = answerTest(finder.forecasts.predictionsIn(state), faulty, state, look, () => 0)!;
        if (forecast.is !== 'value') throw new Error('a clamp reads a number');
        expect(Math.abs((seen.value as number) - forecast.means[0]!), `${id} ${lookWords(look)}`).toBeLessThan(0.02);
      }
    }
  });
  it('tells a pump whose wire has parted', () => {
    const found = read('I(r5)=0 A');
    if (!found.ok) throw new Error(found.problem);
    const before = finder.rank([]), after = finder.rank([found.observation]);
    const chance = (ranking: typeof before): number => ranking.causes.find(({ cause }) => cause === 'r5.open')!.chance;
    expect(chance(after)).toBeGreaterThan(3 * chance(before));
  });
  it('is written as I(run) with amperes, whichever way it lies', () => {
    const found = read('I(r5)=-7.8 A');
    expect(found).toMatchObject({ ok: true, observation: { look: { is: 'current', of: 'r5' }, value: 7.8 } });
    expect(found.ok && observationWords(found.observation)).toContain('7.8 A');
  });
  it.each([['I(r55)=1 A', 'did you mean r5'], ['I(r2)=1 A', 'no clamp fits'], ['I(r5)=much', 'amperes'], ['I(r5)=1 A ±0', '±']])('%s is answered with what is meant', (text, hint) => {
    const found = read(text);
    expect(found.ok ? '' : found.problem).toContain(hint);
  });
});
