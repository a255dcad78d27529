import { describe, expect, it } from 'vitest';
import { outcomesOf, rateTests } from './choose-test.ts';
import { logLikelihood } from './forecast.ts';
import type { ValueForecast } from './forecast.ts';
import { groupsOf } from './groups.ts';
import { expectedGain } from './information.ts';
import { entropy, logPriors, posterior } from './posterior.ts';

const volts = (...means: number[]): ValueForecast => ({ is: 'value', means: Float64Array.from(means), spread: (mean) => 0.1 + 0.02 * Math.abs(mean), range: [-20, 20] });

describe('the likelihood of a reading', () => {
  it('is a density: it adds up to one over the range', () => {
    let sum = 0;
    for (let at = -20; at < 20; at += 0.001) sum += Math.exp(logLikelihood(volts(3), 0, at)) * 0.001;
    expect(sum).toBeCloseTo(1, 2);
  });
  it('never rules a hypothesis out for good', () => expect(logLikelihood(volts(0), 0, 12)).toBeGreaterThan(Math.log(1e-4)));
  it('of one that does not say is flat', () => expect(logLikelihood(volts(NaN), 0, 7)).toBeCloseTo(Math.log(1 / 40), 12));
  it('is a density too where only two ends are known: likely at both, possible between, not beyond', () => {
    const wide: ValueForecast = { ...volts(2), until: Float64Array.of(9) };
    let sum = 0;
    for (let at = -20; at < 20; at += 0.001) sum += Math.exp(logLikelihood(wide, 0, at)) * 0.001;
    expect(sum).toBeCloseTo(1, 2);
    expect(logLikelihood(wide, 0, 4)).toBeCloseTo(logLikelihood(wide, 0, 7), 2);
    expect(logLikelihood(wide, 0, 7)).toBeGreaterThan(logLikelihood(wide, 0, 14) + 2);
    for (const end of [2, 9]) expect(logLikelihood(wide, 0, end)).toBeGreaterThan(logLikelihood(wide, 0, 6) + 0.5);
    // ends that lie together are one mean
    expect(logLikelihood({ ...volts(2), until: Float64Array.of(2.1001 + 0.04) }, 0, 2.4)).toBeCloseTo(logLikelihood(volts(2.05 + 0.02), 0, 2.4), 1);
  });
  it('refuses an answer of the wrong kind', () => expect(() => logLikelihood(volts(1), 0, true)).toThrow());
});

describe('the posterior', () => {
  it('goes to what predicted the reading, and to the unlisted one when nothing did', () => {
    const priors = logPriors([1, 1, 0.1]);
    const right = posterior(priors, [{ forecast: volts(12, 0, NaN), outcome: 11.9 }]);
    expect(right[0]).toBeGreaterThan(0.95);
    const strange = posterior(priors, [5, 6, 7].map((outcome) => ({ forecast: volts(12, 0, NaN), outcome })));
    expect(strange[2]).toBeGreaterThan(0.95);
  });
  it('does not depend on the order of the readings', () => {
    const priors = logPriors([3, 2, 1]);
    const seen = [{ forecast: volts(12, 6, 0), outcome: 6.2 }, { forecast: volts(1, 1, 5), outcome: 1.1 }];
    posterior(priors, seen).forEach((chance, h) => expect(chance).toBeCloseTo(posterior(priors, [...seen].reverse())[h]!, 12));
  });
  it('refuses weights that are none', () => expect(() => logPriors([1, 0])).toThrow());
});

describe('the expected gain', () => {
  it('of readings far apart is the entropy of the hypotheses, less what wild readings blur', () => {
    const chances = Float64Array.of(0.5, 0.25, 0.125, 0.125);
    const gain = expectedGain(volts(0, 4, 8, 12), chances);
    expect(gain).toBeLessThan(entropy(chances));
    expect(gain).toBeGreaterThan(0.9 * entropy(chances));
  });
  it('is none where all read the same, and little where the meter can hardly tell', () => {
    const even = Float64Array.of(0.5, 0.5);
    expect(expectedGain(volts(12, 12), even)).toBe(0);
    expect(expectedGain(volts(12, 12.1), even)).toBeLessThan(0.25);
  });
  it('of what may read anywhere is less than of what reads somewhere, and more than nothing', () => {
    const even = Float64Array.of(0.5, 0.5);
    const gain = (until: number): number => expectedGain({ ...volts(0, 4), until: Float64Array.of(0, until) }, even);
    expect(gain(12)).toBeGreaterThan(0.8);
    const inside = (until: number): number => expectedGain({ ...volts(4, 0), until: Float64Array.of(4, until) }, even);
    expect(inside(12)).toBeLessThan(inside(0));
    expect(inside(12)).toBeGreaterThan(0.3);
  });
  it('asks whether the list is right at all only when what is not in it is a serious rival', () => {
    expect(expectedGain(volts(12, NaN), Float64Array.of(0.5, 0.5))).toBeGreaterThan(0.5);
    expect(expectedGain(volts(12, NaN), Float64Array.of(0.96, 0.04))).toBe(0);
  });
});

describe('the choice of a test', () => {
  it('takes the cheap one of two that tell the same, and leaves out what tells nothing', () => {
    const chances = Float64Array.of(0.5, 0.5);
    const rated = rateTests([volts(0, 12), volts(0, 12), volts(5, 5)], [10, 1, 0.1], chances);
    expect(rated.map(({ index }) => index)).toEqual([1, 0]);
  });
  it('says what each outcome leaves', () => {
    const outcomes = outcomesOf(volts(12, 12.05, 0, NaN), Float64Array.of(0.4, 0.3, 0.2, 0.1));
    expect(outcomes.map(({ remain }) => remain.map(({ hypothesis }) => hypothesis))).toEqual([[0, 1], [2]]);
    expect(outcomes[0]!.chance).toBeCloseTo(0.7, 12);
    const wide = outcomesOf({ ...volts(0, 4, 11), until: Float64Array.of(0, 12, 11) }, Float64Array.of(0.4, 0.3, 0.3));
    expect(wide.map(({ outcome, remain }) => [outcome, remain.map(({ hypothesis }) => hypothesis)])).toEqual([[[4, 12], [1, 2]], [[0, 0], [0]]]);
  });
});

describe('groups', () => {
  it('hold together what no test tells apart', () => expect(groupsOf([volts(12, 12, 0), volts(5, 5, 5)], [0, 1, 2])).toEqual([[0, 1], [2]]));
  it('hold together what one of them may read anyway', () => expect(groupsOf([{ ...volts(4, 8, 0), until: Float64Array.of(12, 8, 0) }], [0, 1, 2])).toEqual([[0, 1], [2]]));
});
