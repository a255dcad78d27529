import { describe, expect, it } from 'vitest';
import { carOf, changed, checksOf, highVoltageCar, verdict } from '../../../checks/fixtures/high-voltage-car.ts';
import { checkModes, continuousCurrent, largestCurrent, modeAnswers, shortCurrents, whyNot } from './mode-currents.ts';

const answersOf = (text: string) => {
  const { car, ask } = carOf(text);
  return modeAnswers(car, ask);
};

describe('currents of the modes', () => {
  it('are none in a car without modes', () => {
    const answers = answersOf('halfshaft: 1\nname: t\n');
    expect(answers).toEqual([]);
    expect(continuousCurrent(answers, 'W1')).toBeUndefined();
    expect(largestCurrent(answers, 'W1')).toBeUndefined();
    expect(shortCurrents(answers, 'W1')).toEqual([]);
    expect(checkModes(answers)).toEqual([]);
  });

  it('take the largest mode that may last as the continuous current, whatever its direction', () => {
    const answers = answersOf(highVoltageCar);
    const forwards = continuousCurrent(answers, 'W1')!;
    expect(forwards.mode).toBe('drive');
    // 40 kW from 96 cells at about 3.72 V less the drop of the string
    expect(forwards.current).toBeGreaterThan(40e3 / 360);
    expect(forwards.current).toBeLessThan(40e3 / 345);
    expect(continuousCurrent(answers, 'W2')!.current).toBeCloseTo(forwards.current, 3);
  });

  it('take a short-time mode with its pause as one period, the continuous current in the pause', () => {
    const answers = answersOf(highVoltageCar);
    const steady = continuousCurrent(answers, 'W1')!.current;
    const [boost] = shortCurrents(answers, 'W1');
    expect(boost).toMatchObject({ mode: 'boost', lasts: 10, every: 120 });
    expect(boost!.duty).toEqual([{ current: boost!.current, time: 10 }, { current: steady, time: 110 }]);
    expect(boost!.rms).toBeCloseTo(Math.sqrt((boost!.current ** 2 * 10 + steady ** 2 * 110) / 120), 9);
    expect(largestCurrent(answers, 'W1')).toEqual({ current: boost!.current, mode: 'boost' });
  });

  it('count a mode that may come again at once as lasting', () => {
    const [boost] = shortCurrents(answersOf(changed('every: 120 s', 'every: 10 s')), 'W1');
    expect(boost!.duty).toHaveLength(1);
    expect(boost!.rms).toBeCloseTo(boost!.current, 9);
  });

  it('ask how soon a short-time mode may come again when the file is silent', () => {
    const answers = answersOf(changed(', every: 120 s', ''));
    expect(shortCurrents(answers, 'W1')[0]).toMatchObject({ duty: undefined, rms: undefined });
    const [check] = checksOf(checkModes(answers), 'mode-repetition-known', 'boost');
    expect(check).toMatchObject({ needs: ['modes.boost.every'] });
    expect(checksOf(checkModes(answersOf(highVoltageCar)), 'mode-repetition-known')).toEqual([]);
  });

  it('say that a mode has an operating point, or name what has none', () => {
    expect(checksOf(checkModes(answersOf(highVoltageCar)), 'mode-computed').map(verdict)).toEqual(['holds', 'holds', 'holds']);
    const failed = checkModes([{ mode: 'drive', lasts: undefined, every: undefined, solved: undefined, failure: { outcome: 'not_converged', iterations: 50, residual: 3, node: 'INV.pos', element: 'INV.stage' } }]);
    expect(verdict(failed[0])).toBe('broken');
    expect(failed[0]!.details).toMatchObject({ reason: expect.stringContaining('INV.stage') as string });
  });

  it('word every way in which a solve fails', () => {
    expect(whyNot({ outcome: 'chatter', relays: ['KP.contact'], iterations: 9 })).toContain('KP.contact would buzz');
    expect(whyNot({ outcome: 'contradiction', elements: ['A.cells', 'B.cells'] })).toContain('A.cells, B.cells contradict');
    expect(whyNot({ outcome: 'not_converged', iterations: 9, residual: 1, node: 'X.a', element: undefined })).toContain('X.a');
  });

  it('count what leaks through insulation as nothing', () => {
    const answers = answersOf(highVoltageCar);
    const solved = { ...answers[1]!.solved!, currentOf: () => 4e-7 };
    expect(largestCurrent([{ ...answers[1]!, solved }], 'W1')).toMatchObject({ current: 0 });
    expect(continuousCurrent([{ ...answers[1]!, solved }], 'W1')).toMatchObject({ current: 0 });
  });
});
