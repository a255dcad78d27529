import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { words } from '../../../catalogue/words.ts';
import { analyse } from '../../../core/analyse.ts';
import { keptAnalysis } from '../../../study/kept-analysis.ts';
import { answerMeter } from './meter.ts';

const van = readFileSync('examples/bakery-van/build.yaml', 'utf8');
const kept = keptAnalysis(words);
const ask = { text: van, draws: 6, seed: 3 } as const;

test('reads what the network says, in rest and in a mode', () => {
  const { ask: network } = analyse(van, words);
  for (const [state, a, b] of [[{}, 'M1.pos', 'M1.neg'], [{ mode: 'full_power' }, 'DU.pos', 'DU.neg'], [{}, 'M1.pos', 'chassis']] as const) {
    const reading = answerMeter({ ...ask, state, a, b }, kept);
    const expected = network.meter(state, a, b);
    expect(expected.outcome).toBe('reads');
    expect(reading.outcome).toBe('reads');
    if (expected.outcome !== 'reads') continue;
    expect(reading.voltage).toBe(expected.voltage);
    expect(reading.isFloating).toBe(expected.isFloating);
    expect(reading.drawn).toHaveLength(6);
  }
});

test('the same seed reads the same, another seed something else near it', () => {
  const once = answerMeter({ ...ask, state: {}, a: 'M1.pos', b: 'M1.neg' }, kept);
  expect(answerMeter({ ...ask, state: {}, a: 'M1.pos', b: 'M1.neg' }, kept).drawn).toEqual(once.drawn);
  expect(answerMeter({ ...ask, seed: 4, state: {}, a: 'M1.pos', b: 'M1.neg' }, kept).drawn).not.toEqual(once.drawn);
  for (const voltage of once.drawn) expect(Math.abs(voltage - (once.voltage ?? 0))).toBeLessThan(5);
});

test('a wrong point or state is said, with the nearest right spelling', () => {
  expect(answerMeter({ ...ask, state: {}, a: 'M1.poss', b: 'chassis' }, kept)).toMatchObject({ outcome: 'wrong_state', problems: ['There is no point M1.poss; did you mean M1.pos?'] });
  expect(answerMeter({ ...ask, state: { mode: 'full_powr' }, a: 'M1.pos', b: 'chassis' }, kept).problems.join()).toMatch(/full_power/);
});
