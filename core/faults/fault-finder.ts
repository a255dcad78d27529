/**
 * A fault-finding conversation: what has been seen -> what it may be -> what to look at next.
 *
 * Pure and without memory of its own besides what has been solved: the same observations in any order give the same answer.
 */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';
import type { CandidateTest } from './candidate-tests.ts';
import { candidateTests } from './candidate-tests.ts';
import { outcomesOf, rateTests } from './engine/choose-test.ts';
import type { Outcome } from './engine/choose-test.ts';
import { logLikelihood } from './engine/forecast.ts';
import type { Forecast, Observed } from './engine/forecast.ts';
import { groupsOf } from './engine/groups.ts';
import { entropy, logPriors, posterior } from './engine/posterior.ts';
import { forecasts } from './forecasts.ts';
import type { Forecasts } from './forecasts.ts';
import type { Hypothesis } from './hypothesis.ts';
import { listHypotheses } from './list-hypotheses.ts';
import { lookKey } from './observation.ts';
import type { Observation } from './observation.ts';
import { offeredStates } from './offered-states.ts';
import type { OfferedStates } from './offered-states.ts';
import { pairHypotheses } from './pair-hypotheses.ts';

/** One cause, or one group of causes that no test on offer off the exposed high voltage tells apart, has at least this: stop. */
export const SURE = 0.95;
/** Hypotheses below this are not grouped or shown. */
const SHOWN = 2e-3;
const MOST_SHOWN = 60;
/** What is not in the list has at least this, or nothing that is likely explains everything: look for two faults at once. */
const UNEXPLAINED = 0.3;
const MOST_PAIRS = 40;
/** Hypotheses of at least this share of the likeliest are asked whether they explain everything. */
const LIKELY = 0.01;
/** Likelihood of an observation this much below the best that any hypothesis gives it: not explained [nats]. */
const FAR = 5;
/** A strange reading is taken again before a rare fault is believed; not oftener. */
const MOST_TIMES = 3;
/** Rankings kept: a conversation asks for its newest again, and for the one before when an answer is taken back. */
const MOST_KEPT = 30;
/** Each time again costs so much more: two answers of one observer are not as independent as they count. */
const AGAIN = 4;

export interface RankedCause {
  /** the likeliest hypothesis of the cause */
  readonly hypothesis: Hypothesis;
  readonly cause: string;
  readonly chance: number;
}

export interface Ranking {
  readonly observations: readonly Observation[];
  readonly hypotheses: readonly Hypothesis[];
  /** by hypothesis */
  readonly chances: Float64Array;
  /** likeliest first, what is not in the list among them */
  readonly causes: readonly RankedCause[];
  /** what is left to find out [bit] */
  readonly entropy: number;
  /** pairs of faults were looked for */
  readonly withPairs: boolean;
}

export interface Verdict {
  /** causes that nothing on offer tells apart, likeliest first; readings at exposed high voltage are left to the builder's own judgement */
  readonly group: readonly RankedCause[];
  readonly chance: number;
  readonly isSettled: boolean;
}

export interface NextTest {
  readonly test: CandidateTest;
  /** expected [bit] */
  readonly gain: number;
  /** it was made before: what it said is so strange that it must be seen again */
  readonly isAgain: boolean;
  readonly outcomes: readonly Outcome[];
  /** the next best, for whoever cannot make this one */
  readonly instead: readonly CandidateTest[];
}

export interface FaultFinder {
  readonly states: OfferedStates;
  readonly hypotheses: readonly Hypothesis[];
  readonly forecasts: Forecasts;
  readonly tests: readonly CandidateTest[];
  /**
   * Works ahead what `rank` and `next` would have to work out at the first question, so that a screen can do it in pieces: `count` hypotheses in the
   * states on offer, then what they say about `count` tests.
   * @returns whether anything is left
   */
  readonly prepare: (count: number) => boolean;
  /** everything was worked ahead */
  readonly isPrepared: boolean;
  /** Errors: throws for an observation that the car cannot be asked for: see `readObservation` */
  readonly rank: (observations: readonly Observation[]) => Ranking;
  readonly verdict: (ranking: Ranking) => Verdict;
  /** undefined: nothing on offer tells more */
  readonly next: (ranking: Ranking) => NextTest | undefined;
}

/** @param mode  what was asked for when it did not do it */
export function faultFinder(car: Car, ask: Network, mode: string | undefined): FaultFinder {
  const states = offeredStates(car, mode);
  const hypotheses = listHypotheses(car);
  const made = forecasts(car, ask, states.asked);
  let tests: readonly CandidateTest[] | undefined;
  const testsNow = (): readonly CandidateTest[] => (tests ??= candidateTests(car, states, made.predictionsIn, made.packVoltage, floats));
  const whole = ask.solve(mode === undefined ? {} : { mode });
  const floats = (point: string): boolean => whole.outcome === 'solved' && whole.islandOf(point) !== -1;
  let forecastsOf: { readonly hypotheses: readonly Hypothesis[]; readonly list: readonly Forecast[]; readonly tests: readonly CandidateTest[] } | undefined;
  const testForecasts = (of: readonly Hypothesis[]): NonNullable<typeof forecastsOf> => {
    if (forecastsOf?.hypotheses === of) return forecastsOf;
    const kept = testsNow().flatMap((test) => { const forecast = made.forecast(test.state, test.look, of); return forecast ? [{ test, forecast }] : []; });
    return (forecastsOf = { hypotheses: of, list: kept.map(({ forecast }) => forecast), tests: kept.map(({ test }) => test) });
  };
  const observed = (observations: readonly Observation[], of: readonly Hypothesis[]): readonly Observed[] => observations.map((observation) => {
    const forecast = made.forecast(observation.state, observation.look, of, 'band' in observation ? observation.band : undefined);
    if (!forecast) throw new Error(`this car cannot be asked for ${JSON.stringify(observation.look)}`);
    return { forecast, outcome: made.outcomeOf(observation) };
  });
  const priors = logPriors(hypotheses.map(({ weight }) => weight));
  const withPairs = new Map<string, readonly Hypothesis[]>();
  const ranked = (observations: readonly Observation[], of: readonly Hypothesis[], chances: Float64Array): Ranking => ({ observations, hypotheses: of, chances, causes: causesOf(of, chances), entropy: entropy(chances), withPairs: of !== hypotheses });
  let isPrepared = false;
  const rankings = new Map<string, Ranking>();
  const finder: FaultFinder = {
    states, hypotheses, forecasts: made,
    prepare: (count) => {
      for (let n = 0; n < count; n++) if (ahead.next().done === true) { isPrepared = true; return false; }
      return true;
    },
    get isPrepared() { return isPrepared; },
    get tests() { return testsNow(); },
    rank: (observations) => {
      const key = JSON.stringify(observations, endlessToo);
      let ranking = rankings.get(key);
      if (!ranking) {
        rankings.set(key, (ranking = rank(observations)));
        if (rankings.size > MOST_KEPT) rankings.delete(rankings.keys().next().value!);
      }
      return ranking;
    },
    verdict: remembered(verdictOf),
    next: remembered(nextOf),
  };
  function rank(observations: readonly Observation[]): Ranking {
    const single = observed(observations, hypotheses);
    const chances = posterior(priors, single);
    if (observations.length < 2 || (chances.at(-1)! < UNEXPLAINED && isExplained(single, chances))) return ranked(observations, hypotheses, chances);
    const pairs = pairHypotheses(hypotheses, single, MOST_PAIRS);
    if (pairs.length === 0) return ranked(observations, hypotheses, chances);
    const key = pairs.map(({ id }) => id).join('|');
    let all = withPairs.get(key);
    if (!all) withPairs.set(key, (all = [...hypotheses.slice(0, -1), ...pairs, hypotheses.at(-1)!]));
    return ranked(observations, all, posterior(logPriors(all.map(({ weight }) => weight)), observed(observations, all)));
  }
  function verdictOf(ranking: Ranking): Verdict {
    const shown = shownOf(ranking);
    const { list: all, tests: offered } = testForecasts(ranking.hypotheses);
    const list = all.filter((_, index) => offered[index]!.danger !== 'high');
    const groups = groupsOf(list, shown).map((members) => ({ members, chance: members.reduce((sum, h) => sum + ranking.chances[h]!, 0) })).sort((a, b) => b.chance - a.chance);
    const [first] = groups;
    if (!first) return { group: [], chance: 0, isSettled: false };
    const group = causesOf(first.members.map((h) => ranking.hypotheses[h]!), Float64Array.from(first.members, (h) => ranking.chances[h]!));
    // one cause with several values (a bad joint of some ohms) counts as one
    const [top] = ranking.causes;
    if (top && top.chance >= SURE) return { group: [top], chance: top.chance, isSettled: top.hypothesis.sort !== 'unlisted' };
    return { group, chance: first.chance, isSettled: first.chance >= SURE && group[0]!.hypothesis.sort !== 'unlisted' };
  }
  function nextOf(ranking: Ranking): NextTest | undefined {
    const { list, tests: offered } = testForecasts(ranking.hypotheses);
    const times = new Map<string, number>();
    for (const { state, look } of ranking.observations) { const key = lookKey(state, look); times.set(key, (times.get(key) ?? 0) + 1); }
    const timesOf = ({ state, look }: CandidateTest): number => times.get(lookKey(state, look)) ?? 0;
    const rated = rateTests(list, offered.map((test) => test.cost * AGAIN ** timesOf(test)), ranking.chances).filter(({ index }) => timesOf(offered[index]!) < MOST_TIMES);
    const [best] = rated;
    if (!best) return undefined;
    return { test: offered[best.index]!, gain: best.gain, isAgain: timesOf(offered[best.index]!) > 0, outcomes: outcomesOf(list[best.index]!, ranking.chances), instead: rated.slice(1, 4).map(({ index }) => offered[index]!) };
  }
  /** A step a hypothesis, then a step a test, then all that is left. */
  function* workAhead(): Generator<undefined, void> {
    const offered = states.packOpen ? [states.asked, states.packOpen] : [states.asked];
    for (const hypothesis of hypotheses) {
      for (const state of offered) made.predictionsIn(state).of(hypothesis);
      yield;
    }
    for (const { state, look } of testsNow()) {
      made.forecast(state, look, hypotheses);
      yield;
    }
    finder.next(finder.rank([]));
  }
  const ahead = workAhead();
  return finder;
}

/** What JSON alone writes as null. */
const endlessToo = (_: string, value: unknown): unknown => (typeof value === 'number' && !Number.isFinite(value) ? String(value) : value);

/** Whether some likely hypothesis leaves no observation to a wild reading. */
function isExplained(observed: readonly Observed[], chances: Float64Array): boolean {
  const most = chances.reduce((top, chance) => Math.max(top, chance), 0);
  const likely = [...chances.keys()].filter((h) => chances[h]! > LIKELY * most);
  const best = observed.map(({ forecast, outcome }) => chances.reduce((top, _, h) => Math.max(top, logLikelihood(forecast, h, outcome)), -Infinity));
  return likely.some((h) => observed.every(({ forecast, outcome }, index) => logLikelihood(forecast, h, outcome) > best[index]! - FAR));
}

function shownOf({ chances }: Ranking): readonly number[] {
  return [...chances.keys()].filter((h) => chances[h]! > SHOWN).sort((a, b) => chances[b]! - chances[a]!).slice(0, MOST_SHOWN);
}

/** One line a cause, whatever its ohms. */
function causesOf(hypotheses: readonly Hypothesis[], chances: Float64Array): readonly RankedCause[] {
  const causes = new Map<string, { hypothesis: Hypothesis; chance: number; best: number }>();
  hypotheses.forEach((hypothesis, h) => {
    const known = causes.get(hypothesis.cause);
    const chance = chances[h]!;
    if (!known) causes.set(hypothesis.cause, { hypothesis, chance, best: chance });
    else {
      known.chance += chance;
      if (chance > known.best) { known.best = chance; known.hypothesis = hypothesis; }
    }
  });
  return [...causes].map(([cause, { hypothesis, chance }]) => ({ cause, hypothesis, chance })).sort((a, b) => b.chance - a.chance);
}
