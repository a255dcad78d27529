import { describe, expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import { analyse } from '../analyse.ts';
import { assemblyPlan } from '../order/assembly-plan.ts';
import { assemblySteps, assemblyStepsOnce, jointsMade, jointStepIds, moduleStepId } from './assembly-steps.ts';
import { readEntered } from './entered.ts';
import { judging } from './judging.ts';
import { holdBefore, progressOf } from './progress.ts';
import type { ReadStep } from './read-step.ts';
import type { Reading } from './reading.ts';
import { restsOn, restsOnOther } from './rests-on.ts';
import type { Verdict } from './verdict.ts';

const text = examples.find(({ name }) => name === 'bakery-van')!.text;
const { build, car, ask, prepared } = analyse(text, words, { only: [] });
const { steps } = assemblySteps(car, prepared, []);
const step = (id: string): ReadStep => steps.find((one) => one.id === id)!;
let number = 0;
const reading = (id: string, value: string, more: Partial<Reading> = {}): Reading => ({
  id: `r${++number}`, when: '2026-11-26T02:00:00Z', who: '', procedure: 'assembly', step: id, state: '', points: [], quantity: 'voltage', reading: value, instrument: '', verdict: 'agrees', revision: '', restsOn: restsOn(step(id), build), replaces: '', note: '', more: [], ...more,
});
const verdictOn = (id: string, value: string, readings: readonly Reading[] = []): Verdict => {
  const read = readEntered(value, 'voltage');
  if (!read.ok) throw new Error(read.problem);
  return judging(car, ask).judge(step(id), read.value, () => ({ steps, readings }));
};

describe('the assembly as steps to be read', () => {
  it('has each module, then each joint of the best order before and after, under names that outlast another order', () => {
    const plan = assemblyPlan(car);
    if (plan.outcome !== 'planned') throw new Error(plan.outcome);
    expect(steps.map(({ id }) => id)).toEqual([...plan.battery.readings.map(({ module }) => moduleStepId(module)), ...plan.steps.flatMap(({ joint }) => Object.values(jointStepIds(joint.name)))]);
    for (const { predicted, measure } of steps) if (measure) expect(predicted!.low < predicted!.nominal && predicted!.nominal < predicted!.high).toBe(true);
  });
  it('expects what the builder’s meter read at the modules, as closely as it was read; a module by itself may stand wherever its charge may be', () => {
    const { nominal, low, high } = step('assembly.M1.voltage').predicted!;
    expect(nominal).toBeCloseTo(47.92, 6);
    expect([nominal - low > 0.5, high - nominal > 0.5, high - low < 6]).toEqual([true, true, true]);
    // 95.87 V ±0.04, and a meter that is out by 0.5 % and a digit
    const pair = steps.find(({ id, predicted }) => id.endsWith('.after') && predicted && predicted.nominal > 90 && predicted.nominal < 100)!;
    expect((pair.predicted!.high - pair.predicted!.low) / 2).toBeGreaterThan(0.47);
    expect((pair.predicted!.high - pair.predicted!.low) / 2).toBeLessThan(0.85);
  });
  it('takes what a meter picks up between ends that nothing joins for nothing, and a module’s voltage there for a joint too many', () => {
    const first = steps.find(({ id }) => id.endsWith('.before'))!.id;
    expect([verdictOn(first, '0.4 V').word, verdictOn(first, '-0.4 V').word, verdictOn(first, '47.9 V').word]).toEqual(['agrees', 'agrees', 'outside']);
  });
  it('names the module that is turned round, by its own reading', () => {
    expect(verdictOn('assembly.M4.voltage', '-47.9 V').meanings).toContainEqual({ part: 'M4', says: expect.stringMatching(/^appears reversed: -47\.9 V where \+4[78][.\d]* V is expected$/), reads: undefined, fits: true });
  });
  it('names it by what was read before: the module that was right then is not the one', () => {
    const pair = steps.find(({ id, predicted }) => id.endsWith('.after') && predicted && predicted.nominal > 90 && predicted.nominal < 100)!;
    const [a, b] = pair.measure?.is === 'voltage' ? [pair.measure.a, pair.measure.b].map((point) => point.split('.')[0]!) : [];
    const alone = verdictOn(pair.id, '0.02 V').meanings.map(({ says }) => says).join();
    expect(alone).toMatch(/One of .* appears reversed/);
    const { meanings } = verdictOn(pair.id, '0.02 V', [reading(moduleStepId(a!), '47.9 V')]);
    expect(meanings.find(({ says }) => says.includes('reversed'))).toMatchObject({ part: b, says: expect.stringContaining('where +95.') });
  });
  it('goes on behind what is joined, whatever the order would be otherwise; what is joined holds nobody up', () => {
    const last = steps.at(-2)!.id.split('.')[1]!;
    const log = [reading(`assembly.${last}.after`, 'yes', { quantity: 'observation' })];
    expect(jointsMade(log)).toEqual([last]);
    const { steps: after } = assemblySteps(car, prepared, jointsMade(log));
    const joints = after.filter(({ phase }) => phase === 'joints');
    expect(joints.slice(0, 2).map(({ id, isHoldPoint }) => `${id} ${isHoldPoint}`)).toEqual([`assembly.${last}.before false`, `assembly.${last}.after true`]);
    expect(after.map(({ id }) => id).sort()).toEqual(steps.map(({ id }) => id).sort());
    // who follows the order gets the same as if it were worked out anew
    const [first, second] = steps.filter(({ id }) => id.endsWith('.before')).map(({ id }) => id.split('.')[1]!);
    expect(assemblyStepsOnce(car, prepared)([first!, second!])).toEqual(assemblySteps(car, prepared, [first!, second!]));
    // taken apart, and read before it again
    expect(jointsMade([...log, reading(`assembly.${last}.before`, '0.1 V')])).toEqual([]);
  });
  it('holds at each joint until its reading is right, and keeps a reading when the order changes', () => {
    const isOther = (one: ReadStep, { restsOn: then }: Reading): boolean => restsOnOther(then, one, build, undefined);
    const [first] = steps;
    const passed = [reading(first!.id, `${first!.predicted!.nominal} V`)];
    const progress = progressOf(steps, passed, isOther, 'assembly');
    expect([progress.passed, progress.goOn, holdBefore(steps, progress, 3)]).toEqual([1, 1, 1]);
    expect(progressOf(steps, passed, isOther, 'power-up').passed).toBe(0);
    const joint = steps.find(({ id }) => id.endsWith('.before'))!;
    const others = assemblySteps(car, prepared, [steps.at(-2)!.id.split('.')[1]!]).steps;
    expect(restsOn(others.find(({ id }) => id === joint.id)!, build).split('/')[0]).toBe(restsOn(joint, build).split('/')[0]);
  });
  it.each(examples)('has no words of ours in any step of $name', ({ text: other }) => {
    const one = analyse(other, words, { only: [] });
    const { steps: all } = assemblySteps(one.car, one.prepared, []);
    expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
    for (const { action, expect: should, title, people, cautions } of all) expect([action, should, title, people, ...cautions].join()).not.toMatch(/NaN|undefined|\[object/);
  });
});
