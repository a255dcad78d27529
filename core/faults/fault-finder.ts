/**
 * A fault-finding conversation: what has been seen -> what it may be -> what to look at next.
 *
 * Pure and without memory of its own besides what has been solved: the same observations in any order give the same ranking;
 * what comes next depends on the last of them as well, which says how the car stands.
 */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';
import type { AskedState } from './asked-state.ts';
import { offeredTests } from './candidate-tests.ts';
import type { CandidateTest, OfferedTest } from './candidate-tests.ts';
import { outcomesOf, rateTests } from './engine/choose-test.ts';
import type { Outcome } from './engine/choose-test.ts';
import type { Forecast } from './engine/forecast.ts';
import { groupsOf } from './engine/groups.ts';
import { isAllButCertain, isForegone } from './foregone.ts';
import { forecasts } from './forecasts.ts';
import type { Forecasts } from './forecasts.ts';
import { hazardsOf } from './hazards.ts';
import type { Hypothesis } from './hypothesis.ts';
import { listHypotheses } from './list-hypotheses.ts';
import { lookKey } from './observation.ts';
import type { Observation } from './observation.ts';
import { offeredStates } from './offered-states.ts';
import type { OfferedStates } from './offered-states.ts';
import { causesOf, ranker } from './ranking.ts';
import type { RankedCause, Ranking } from './ranking.ts';
import { asItStands, priceOf, standingAfter, statePrecautions } from './standing.ts';
import type { Hazards } from './standing.ts';

/** One cause, or one group of causes that no test on offer off the exposed high voltage tells apart, has at least this: stop. */
export const SURE = 0.95;
/** Hypotheses below this are not grouped or shown. */
const SHOWN = 2e-3;
const MOST_SHOWN = 60;
/** A strange reading is taken again before a rare fault is believed; not oftener. */
const MOST_TIMES = 3;
/** Rankings kept: a conversation asks for its newest again, and for the one before when an answer is taken back. */
const MOST_KEPT = 30;
/** Each time again costs so much more: two answers of one observer are not as independent as they count. */
const AGAIN = 4;

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
  /** of the car with nothing wrong */
  readonly ask: Network;
  readonly states: OfferedStates;
  readonly hypotheses: readonly Hypothesis[];
  readonly forecasts: Forecasts;
  /** as they stand while nothing has been looked at */
  readonly tests: readonly CandidateTest[];
  /** a test as it stands after what has been seen: its danger, cost and precautions */
  readonly afterwards: (test: OfferedTest, observations: readonly Observation[]) => CandidateTest;
  /** what to mind while the car is in a state */
  readonly precautionsIn: (state: AskedState, observations: readonly Observation[]) => readonly string[];
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
  let tests: readonly OfferedTest[] | undefined, begun: readonly CandidateTest[] | undefined, hazards: Hazards | undefined;
  const testsNow = (): readonly OfferedTest[] => (tests ??= offeredTests(car, states, made.predictionsIn, made.packVoltage, floats));
  const hazardsNow = (): Hazards => (hazards ??= hazardsOf(car, ask, states, made.predictionsIn(states.asked), made.packVoltage));
  const whole = ask.solve(mode === undefined ? {} : { mode });
  const floats = (point: string): boolean => whole.outcome === 'solved' && whole.islandOf(point) !== -1;
  const forecastsOf = new Map<boolean, TestForecasts>();
  /** @param isBolted  with a bolted joint of the pack off; without it nobody has to undo one */
  const testForecasts = (of: readonly Hypothesis[], isBolted: boolean): TestForecasts => {
    const known = forecastsOf.get(isBolted);
    if (known?.hypotheses === of) return known;
    const kept = testsNow().flatMap((test) => { const forecast = (test.state === states.packOpen) === isBolted ? made.forecast(test.state, test.look, of) : undefined; return forecast ? [{ test, forecast }] : []; });
    const found = { hypotheses: of, list: kept.map(({ forecast }) => forecast), tests: kept.map(({ test }) => test) };
    forecastsOf.set(isBolted, found);
    return found;
  };
  const afterwards = (test: OfferedTest, observations: readonly Observation[]): CandidateTest => ({ ...test, ...asItStands(test, standingAfter(observations, car, states), states, hazardsNow()) });
  const rank = ranker(made, hypotheses);
  let isPrepared = false;
  const rankings = new Map<string, Ranking>();
  const finder: FaultFinder = {
    ask, states, hypotheses, forecasts: made,
    prepare: (count) => {
      for (let n = 0; n < count; n++) if (ahead.next().done === true) { isPrepared = true; return false; }
      return true;
    },
    get isPrepared() { return isPrepared; },
    get tests() { return (begun ??= testsNow().map((test) => afterwards(test, []))); },
    afterwards,
    precautionsIn: (state, observations) => statePrecautions(state, standingAfter(observations, car, states), states, hazardsNow()),
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
  function verdictOf(ranking: Ranking): Verdict {
    const shown = shownOf(ranking);
    const standing = standingAfter(ranking.observations, car, states);
    const list = (standing.at === states.packOpen ? [false, true] : [false]).flatMap((isBolted) => {
      const { list: all, tests: offered } = testForecasts(ranking.hypotheses, isBolted);
      return all.filter((_, index) => priceOf(offered[index]!, standing, states, hazardsNow()).danger !== 'high');
    });
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
    const isParted = standingAfter(ranking.observations, car, states).at === states.packOpen;
    return bestOf(ranking, isParted ? [false, true] : [false]) ?? (!isParted ? bestOf(ranking, [true]) : undefined);
  }
  function bestOf(ranking: Ranking, which: readonly boolean[]): NextTest | undefined {
    const { observations, chances, hypotheses: of } = ranking;
    const standing = standingAfter(observations, car, states);
    const list = which.flatMap((isBolted) => testForecasts(of, isBolted).list), offered = which.flatMap((isBolted) => testForecasts(of, isBolted).tests);
    const times = new Map<string, number>();
    for (const { state, look } of observations) { const key = lookKey(state, look); times.set(key, (times.get(key) ?? 0) + 1); }
    const timesOf = ({ state, look }: OfferedTest): number => times.get(lookKey(state, look)) ?? 0;
    const prices = offered.map((test) => priceOf(test, standing, states, hazardsNow()));
    const mayAsk = (index: number): boolean => { const test = offered[index]!, count = timesOf(test); return count < MOST_TIMES && (count > 0 || !(isForegone(test.state, test.look, made.predictionsIn(test.state).way, observations) || isAllButCertain(list[index]!, chances))); };
    const all = rateTests(list, offered.map((test, index) => prices[index]!.cost * AGAIN ** timesOf(test)), chances).filter(({ index }) => mayAsk(index));
    // a leak or a short that the high voltage would be put on again: whatever else tells anything comes first
    const rated = standing.warning === undefined ? all : [...all].sort((a, b) => Number(prices[a.index]!.danger === 'high') - Number(prices[b.index]!.danger === 'high'));
    const [best] = rated;
    if (!best) return undefined;
    return { test: afterwards(offered[best.index]!, observations), gain: best.gain, isAgain: timesOf(offered[best.index]!) > 0, outcomes: outcomesOf(list[best.index]!, chances), instead: rated.slice(1, 4).map(({ index }) => afterwards(offered[index]!, observations)) };
  }
  /** A step a hypothesis, then a step a test, then all that is left. */
  function* workAhead(): Generator<undefined, void> {
    const offered = states.disconnected ? [states.asked, states.disconnected] : [states.asked];
    for (const hypothesis of hypotheses) {
      for (const state of offered) made.predictionsIn(state).of(hypothesis);
      yield;
    }
    for (const { state, look } of testsNow()) {
      if (state === states.packOpen) continue;
      made.forecast(state, look, hypotheses);
      yield;
    }
    finder.next(finder.rank([]));
  }
  const ahead = workAhead();
  return finder;
}

interface TestForecasts { readonly hypotheses: readonly Hypothesis[]; readonly list: readonly Forecast[]; readonly tests: readonly OfferedTest[] }

/** What JSON alone writes as null. */
const endlessToo = (_: string, value: unknown): unknown => (typeof value === 'number' && !Number.isFinite(value) ? String(value) : value);

function shownOf({ chances }: Ranking): readonly number[] {
  return [...chances.keys()].filter((h) => chances[h]! > SHOWN).sort((a, b) => chances[b]! - chances[a]!).slice(0, MOST_SHOWN);
}
