/**
 * Bayes over a list of hypotheses, in logarithms.
 *
 *     P(h | o1 … on) = P(h) Π P(oi | h) / Σ
 *
 * Observations count as independent given a hypothesis.
 *
 * Source:  Bayes' rule; its use for diagnosis from measurements: J. de Kleer and B. C. Williams, “Diagnosing multiple faults” (1987)
 * Checked: checks/reference/diagnosis.medical-test.check.ts, checks/reference/diagnosis.polybox.check.ts
 */
import { logLikelihood } from './forecast.ts';
import type { Observed } from './forecast.ts';

/** @param weights  relative, > 0, in any scale @returns logarithms of chances that add up to 1 */
export function logPriors(weights: ArrayLike<number>): Float64Array {
  let sum = 0;
  for (let h = 0; h < weights.length; h++) {
    const weight = weights[h]!;
    if (!(weight > 0 && Number.isFinite(weight))) throw new Error(`a weight must be above 0, got ${weight}`);
    sum += weight;
  }
  return Float64Array.from(weights, (weight) => Math.log(weight / sum));
}

/** @returns chances that add up to 1, in the order of the hypotheses */
export function posterior(priors: Float64Array, observed: readonly Observed[]): Float64Array {
  const logs = priors.slice();
  for (const { forecast, outcome } of observed) for (let h = 0; h < logs.length; h++) logs[h]! += logLikelihood(forecast, h, outcome);
  let most = -Infinity;
  for (const log of logs) if (log > most) most = log;
  if (most === -Infinity) throw new Error('no hypothesis allows what was observed: keep one that does not say');
  let sum = 0;
  for (let h = 0; h < logs.length; h++) sum += logs[h] = Math.exp(logs[h]! - most);
  for (let h = 0; h < logs.length; h++) logs[h]! /= sum;
  return logs;
}

/** Entropy of chances that add up to 1 [bit]. */
export function entropy(chances: ArrayLike<number>): number {
  let bits = 0;
  for (let h = 0; h < chances.length; h++) if (chances[h]! > 0) bits -= chances[h]! * Math.log2(chances[h]!);
  return bits;
}
