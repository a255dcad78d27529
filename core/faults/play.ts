/**
 * One fault-finding conversation with a car that has a known fault, played to its end: for the bench and the checks.
 */
import { answerTest } from './answer-test.ts';
import type { CandidateTest } from './candidate-tests.ts';
import type { FaultFinder, Verdict } from './fault-finder.ts';
import type { Ranking } from './ranking.ts';
import type { FaultyCar } from './faulty-car.ts';
import type { Observation } from './observation.ts';
import type { RestResult } from '../solve/rest-result.ts';
import type { Network } from '../solve/element.ts';

/** Picks the next test; undefined gives up. */
export type Strategy = (ranking: Ranking, symptom: Observation, done: readonly Observation[]) => CandidateTest | undefined;

export interface Played {
  readonly verdict: Verdict;
  /** the symptom first */
  readonly observations: readonly Observation[];
  readonly tests: readonly CandidateTest[];
  /** the cause is in the group that was named */
  readonly isFound: boolean;
}

/** Standard normal numbers from numbers in [0, 1) (Box and Muller). */
export function normalNoise(random: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** What a builder notices from the seat: the first look whose answer is another one than on the car with nothing wrong; undefined: nothing. */
export function symptomOf(finder: FaultFinder, faulty: FaultyCar, healthy: FaultyCar): Observation | undefined {
  for (const { state, look } of finder.tests) {
    if (look.is !== 'thing' && look.is !== 'reached') continue;
    const predictions = finder.forecasts.predictionsIn(state);
    const [seen, usual] = [answerTest(predictions, faulty, state, look, quiet), answerTest(predictions, healthy, state, look, quiet)];
    if (seen && usual && seen.value !== usual.value) return seen;
  }
  return undefined;
}

const quiet = (): number => 0;

/** @param causes  what the fault is called: any of them in the group counts as found */
export function play(finder: FaultFinder, faulty: FaultyCar, causes: readonly string[], symptom: Observation, strategy: Strategy, noise: () => number, most: number, solve?: (network: Network) => RestResult): Played {
  const observations: Observation[] = [symptom];
  const tests: CandidateTest[] = [];
  for (;;) {
    const ranking = finder.rank(observations);
    const verdict = finder.verdict(ranking);
    const test = verdict.isSettled || tests.length >= most ? undefined : strategy(ranking, symptom, observations);
    if (!test) return { verdict, observations, tests, isFound: verdict.isSettled && verdict.group.some(({ cause }) => causes.includes(cause)) };
    tests.push(test);
    const answer = answerTest(finder.forecasts.predictionsIn(test.state), faulty, test.state, test.look, noise, solve);
    if (answer) observations.push(answer);
    else return { verdict, observations, tests, isFound: false };
  }
}
