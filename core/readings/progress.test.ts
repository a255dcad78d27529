import { describe, expect, it } from 'vitest';
import { isolationRead } from './isolation-readings.ts';
import { holdBefore, progressOf } from './progress.ts';
import type { ReadStep } from './read-step.ts';
import type { Reading } from './reading.ts';

const step = (id: string, more: Partial<ReadStep> = {}): ReadStep => ({
  id, title: id, action: '', about: [], hazard: 'none', isHoldPoint: false, state: undefined, measure: undefined, quantity: undefined, instrument: undefined, expect: '',
  predicted: undefined, willFail: false, limit: undefined, notPredicted: undefined, unknown: [], people: '', cautions: [], lost: [], ...more,
});
const volts = { measure: { is: 'voltage', a: 'M1.pos', b: 'M1.neg' }, quantity: 'voltage', predicted: { nominal: 48, low: 47, high: 49 } } as const;
let number = 0;
const reading = (of: string, value: string, more: Partial<Reading> = {}): Reading => ({
  id: `r${++number}`, when: '2026-11-25T14:30:00Z', who: '', procedure: 'power-up', step: of, state: '', points: [], quantity: value === 'yes' || value === 'no' ? 'observation' : 'voltage', reading: value,
  instrument: '', verdict: 'agrees', revision: '', restsOn: 'same', replaces: '', note: '', more: [], ...more,
});
const steps = [step('a', { isHoldPoint: true }), step('b'), step('c', { isHoldPoint: true, ...volts }), step('d')];
const isOther = (_: ReadStep, { restsOn }: Reading): boolean => restsOn !== 'same';
const statuses = (readings: readonly Reading[]): string => progressOf(steps, readings, isOther).steps.map(({ status }) => status).join(' ');
const goOn = (readings: readonly Reading[]): number => progressOf(steps, readings, isOther).goOn;

describe('how far the procedure is', () => {
  it('begins at the first step, goes on behind the last reading, and never beyond a hold point that is not passed', () => {
    expect([goOn([]), goOn([reading('a', 'yes')]), goOn([reading('a', 'yes'), reading('b', 'yes')]), goOn([reading('d', 'yes')])]).toEqual([0, 1, 2, 0]);
    const whole = [reading('a', 'yes'), reading('b', 'yes'), reading('c', '48.1 V'), reading('d', 'yes')];
    expect([statuses(whole), goOn(whole)]).toEqual(['passed passed passed passed', 3]);
    expect(holdBefore(steps, progressOf(steps, [reading('a', 'yes')], isOther), 3)).toBe(2);
    expect(holdBefore(steps, progressOf(steps, [], isOther), 0)).toBeUndefined();
  });
  it('a wrong reading stands until another one agrees; an answer does not put it right', () => {
    const wrong = reading('c', '40 V', { verdict: 'outside' });
    expect(statuses([wrong, reading('c', 'yes')])).toContain('outside');
    expect(statuses([wrong, reading('c', '48 V')])).toBe('open open passed open');
    expect(statuses([wrong, reading('c', '48 V', { replaces: wrong.id })])).toBe('open open passed open');
    expect(statuses([reading('c', 'yes')])).toBe('open open untold open');
    expect(statuses([reading('a', 'yes'), reading('a', 'no')])).toBe('outside open open open');
  });
  it('where it cannot be told, the builder answers, behind the reading', () => {
    const told = (readings: readonly Reading[]): string => progressOf([step('u', { ...volts, predicted: undefined })], readings, isOther).steps[0]!.status;
    expect([told([reading('u', '48 V')]), told([reading('u', '48 V'), reading('u', 'yes')]), told([reading('u', 'yes'), reading('u', '48 V')]), told([reading('u', '48 V'), reading('u', 'no')])]).toEqual(['untold', 'passed', 'untold', 'outside']);
  });
  it('is done again when what it rests on has changed, or its reading agrees no more', () => {
    expect(statuses([reading('c', '48 V', { restsOn: 'other' })])).toContain('repeat');
    expect(statuses([reading('c', '52 V', { verdict: 'agrees' })])).toContain('repeat');
  });
});

describe('isolation from the readings before', () => {
  // published example of UN R100 annex 4B arithmetic: see checks/reference/isolation.un-r100.check.ts
  const result = step('isolation.x.result', { measure: { is: 'isolation', positive: 'p', negative: 'n', added: 200e3 }, quantity: 'resistance' });
  const all = (['pack', 'negative', 'positive', 'with-resistor'] as const).map((name, index) => reading(`isolation.x.${name}`, `${[400, -250, 150, -129.03][index]} V`));
  it('needs all four, and gives the resistance and the place of a single leak', () => {
    const found = isolationRead(result, [result], all);
    if (found?.outcome !== 'resistance') throw new Error(String(found?.outcome));
    expect(found.resistance).toBeCloseTo(200e3 * 400 * (1 / 129.03 - 1 / 250), -1);
    expect(found.leakAt).toBeCloseTo(0.625, 12);
    expect(isolationRead(result, [result], all.slice(1))).toMatchObject({ outcome: 'missing', steps: ['isolation.x.pack'] });
    expect(isolationRead(result, [result], [...all.slice(0, 3), reading('isolation.x.with-resistor', '300 V')])).toMatchObject({ outcome: 'inconsistent' });
    expect(isolationRead(steps[0]!, steps, all)).toBeUndefined();
  });
});
