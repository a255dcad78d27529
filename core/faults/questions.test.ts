/** Which questions are asked, and which readings of bad joints are understood. */
import { describe, expect, it } from 'vitest';
import { carFromText } from '../../checks/fixtures/car-from-text.ts';
import { lowVoltageCar } from '../../checks/fixtures/low-voltage-car.ts';
import { answerTest } from './answer-test.ts';
import { faultFinder } from './fault-finder.ts';
import { gainWords, leftWords } from './fault-words.ts';
import { faultyCar } from './faulty-car.ts';
import { isAllButCertain, isForegone } from './foregone.ts';
import type { Look, Observation } from './observation.ts';
import { readObservation } from './read-observation.ts';
import { play, symptomOf } from './play.ts';
import { questionOf } from './things.ts';

const { car, ask } = carFromText(lowVoltageCar);
const finder = faultFinder(car, ask, 'drive');
const { asked } = finder.states;

describe('a question', () => {
  it('is one that can be answered from the seat: what is to be seen or heard, as the kind says', () => {
    expect(questionOf(car, { what: 'runs', of: 'P1' })).toMatch(/hum/);
    expect(questionOf(car, { what: 'runs', of: 'L1' })).toBe('does L1 run');
    // whether electronics are awake shows on a meter
    expect(questionOf(car, { what: 'runs', of: 'VC' })).toBeUndefined();
    expect(finder.tests.some(({ look }) => look.is === 'thing' && look.of === 'VC')).toBe(false);
    // said without being asked it counts all the same
    expect(readObservation('VC.runs=no', car, finder.states, finder.forecasts.predictionsIn).ok).toBe(true);
  });
  it('is not asked when what was seen answers it', () => {
    const way = { steps: ['wake', 'precharge', 'ready'].map((to) => ({ from: '', to, state: {}, needs: [] })), end: {}, asserts: [] };
    const reached = (mode: string): Look => ({ is: 'reached', mode });
    const seen = (look: Look, value: boolean): Observation => ({ state: asked, look, value } as Observation);
    expect(isForegone(asked, reached('ready'), way, [seen(reached('precharge'), false)])).toBe(true);
    expect(isForegone(asked, reached('wake'), way, [seen(reached('precharge'), false)])).toBe(false);
    expect(isForegone(asked, reached('wake'), way, [seen(reached('precharge'), true)])).toBe(true);
    expect(isForegone(asked, reached('ready'), way, [seen(reached('precharge'), true)])).toBe(false);
    expect(isForegone({ ...asked, mode: 'other' }, reached('ready'), way, [seen(reached('precharge'), false)])).toBe(false);
    expect(isForegone(asked, reached('ready'), way, [seen({ is: 'falls_back' }, true)])).toBe(true);
  });
  it('is not asked when the likely ones all give one answer, however likely it is that none of them is right', () => {
    const chances = Float64Array.of(0.3, 0.3, 0.4);
    expect(isAllButCertain({ is: 'yes_no', chances: Float64Array.of(0.99, 0.99, NaN) }, chances)).toBe(true);
    expect(isAllButCertain({ is: 'yes_no', chances: Float64Array.of(0.99, 0.01, NaN) }, chances)).toBe(false);
  });
  it('says what it is worth in plain words', () => {
    for (let gain = 0.03; gain < 6; gain += 0.01) expect(gainWords(gain)).toMatch(/^on average it (strikes|halves|leaves)/);
    expect(gainWords(0.9)).toMatch(/halves/);
    expect(gainWords(2)).toMatch(/one in 4 /);
    expect(leftWords(Math.log2(8))).toMatch(/like 8 /);
    expect(leftWords(7.7)).toMatch(/like 210 /);
    expect(leftWords(0.1)).not.toMatch(/\d/);
  });
});

describe('a bad joint', () => {
  it.each([20, 150, 700])('of %s ohm, a value that the list has not, is found all the same', (more) => {
    const faulty = faultyCar(car, { changes: [{ is: 'resistive', element: 'r12', more }], silent: [] });
    const symptom = symptomOf(finder, faulty, faultyCar(car, { changes: [], silent: [] })) ?? answerTest(finder.forecasts.predictionsIn(asked), faulty, asked, { is: 'voltage', a: 'KP.coil_a', b: 'chassis' }, () => 0)!;
    const { verdict } = play(finder, faulty, ['r12.resistive'], symptom, (ranking) => finder.next(ranking)?.test, () => 0, 20);
    expect(verdict.isSettled && verdict.group.some(({ cause }) => cause === 'r12.resistive' || cause === 'r12.open')).toBe(true);
  });
  it('explains a reading between a sound and a parted wire', () => {
    for (const volts of [1.2, 2.5, 4]) {
      const seen: readonly Observation[] = [{ state: asked, look: { is: 'thing', what: 'closes', of: 'KP' }, value: false }, { state: asked, look: { is: 'voltage', a: 'VC.main', b: 'chassis' }, value: 12.4 }, { state: asked, look: { is: 'voltage', a: 'KP.coil_a', b: 'chassis' }, value: volts }];
      const { causes } = finder.rank(seen);
      expect(causes[0]!.cause, String(volts)).toBe('r12.resistive');
      expect(causes.find(({ cause }) => cause === 'unlisted')!.chance, String(volts)).toBeLessThan(0.2);
    }
  });
});

describe('what a person writes', () => {
  const read = (text: string) => readObservation(text, car, finder.states, finder.forecasts.predictionsIn);
  it.each(['body', 'bodywork', 'chassis', 'the body', 'ground of the body', 'clean metal of the body'])('may call the body %s', (name) => {
    expect(read(`F1.b-${name}=12 V`)).toMatchObject({ ok: true, observation: { look: { a: 'F1.b', b: 'chassis' } } });
  });
  it.each([['F1.b-chassis=1.2@disconnect_out', '1.2 has no unit: write 1.2 V'], ['F1.b-chassis=1,2', 'write 1.2 V'], ['I(r0)=3', 'write 3 A'], ['KP.closes=perhaps', 'perhaps: expected yes or no'], ['F1.b-chassis=much', 'expected volts']])('%s is answered in words, not in our spelling', (text, words) => {
    const found = read(text);
    expect(found.ok ? '' : found.problem).toContain(words);
    expect(found.ok ? '' : found.problem).not.toMatch(/[=@]/);
  });
  it('says with the disconnect out as @disconnect_out', () => expect(read('F1.b-chassis=12 V@disconnect_out')).toMatchObject({ ok: true, observation: { state: finder.states.disconnected } }));
});
