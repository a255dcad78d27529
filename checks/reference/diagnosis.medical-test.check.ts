/**
 * Bayes and entropy of the diagnosis engine on textbook examples with printed results.
 *
 * Source:    test of a disease: prevalence 1 in 1000, false positives 5 %, no false negatives, answer “about 2 %”: W. Casscells, A. Schoenberger and
 *            T. B. Graboys, New England Journal of Medicine 299 (1978); mammography: prevalence 1 %, sensitivity 80 %, false positives 9.6 %,
 *            answer 7.8 %: D. M. Eddy (1982). Entropies: C. E. Shannon (1948): a fair coin 1 bit, (1/2, 1/4, 1/8, 1/8) 1.75 bit; the
 *            binary symmetric channel with error 0.11 carries 0.5 bit. All from memory
 * Tolerance: half of the last printed digit
 */
import { describe, expect, it } from 'vitest';
import type { YesNoForecast } from '../../core/faults/engine/forecast.ts';
import { expectedGain } from '../../core/faults/engine/information.ts';
import { entropy, logPriors, posterior } from '../../core/faults/engine/posterior.ts';

const test = (ill: number, healthy: number): YesNoForecast => ({ is: 'yes_no', chances: Float64Array.of(ill, healthy) });

describe('a positive test', () => {
  it('of a rare disease means it in about 2 % of cases', () => expect(posterior(logPriors([1, 999]), [{ forecast: test(1, 0.05), outcome: true }])[0]).toBeCloseTo(0.0196, 4));
  it('of the breast means cancer in 7.8 % of cases', () => expect(posterior(logPriors([0.01, 0.99]), [{ forecast: test(0.8, 0.096), outcome: true }])[0]).toBeCloseTo(0.078, 3));
  it('twice means it far oftener, and a negative one after it takes it back', () => {
    const one = { forecast: test(0.8, 0.096), outcome: true };
    const [twice] = posterior(logPriors([0.01, 0.99]), [one, one]);
    // odds 1 : 99 times (0.8 / 0.096) squared
    expect(twice).toBeCloseTo(1 / (1 + 99 / (0.8 / 0.096) ** 2), 9);
    expect(posterior(logPriors([0.01, 0.99]), [one, { ...one, outcome: false }])[0]).toBeLessThan(0.02);
  });
});

describe('entropy', () => {
  it('of a fair coin is 1 bit', () => expect(entropy([0.5, 0.5])).toBeCloseTo(1, 12));
  it('of halves, quarters and eighths is 1.75 bit', () => expect(entropy([0.5, 0.25, 0.125, 0.125])).toBeCloseTo(1.75, 12));
  it('of a sure thing is none', () => expect(entropy([1, 0])).toBe(0));
});

describe('the gain of a look', () => {
  const even = Float64Array.of(0.5, 0.5);
  it('that never errs is the whole bit', () => expect(expectedGain(test(1, 0), even)).toBeCloseTo(1, 12));
  it('with 11 % of errors is half a bit', () => expect(expectedGain(test(0.89, 0.11), even)).toBeCloseTo(0.5, 2));
  it('that says the same either way is none', () => expect(expectedGain(test(0.7, 0.7), even)).toBeCloseTo(0, 12));
});
