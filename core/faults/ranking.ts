/**
 * What it may be after all that was seen: Bayes over the single faults; where none of them explains it, over more values of bad joints, and over two at once.
 */
import { betweenValues, weigh } from './between-values.ts';
import type { BetweenValue, Weighed } from './between-values.ts';
import { logLikelihood } from './engine/forecast.ts';
import type { Observed } from './engine/forecast.ts';
import { entropy, logPriors } from './engine/posterior.ts';
import type { Forecasts } from './forecasts.ts';
import { furtherJoints } from './further-joints.ts';
import type { Hypothesis } from './hypothesis.ts';
import type { Observation } from './observation.ts';
import { pairHypotheses } from './pair-hypotheses.ts';
import type { Prediction } from './predict.ts';

/** What is not in the list has at least this, or nothing that is likely explains everything: look for two faults at once. */
const UNEXPLAINED = 0.3;
/** Hypotheses of at least this share of the likeliest are asked whether they explain everything. */
const LIKELY = 0.01;
/** Likelihood of an observation this much below the best that any hypothesis gives it: not explained [nats]. */
const FAR = 5;
const MOST_PAIRS = 40;
/** Lists of hypotheses kept, each with its forecasts worked out. */
const MOST_LISTS = 30;

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

/** A list of hypotheses with what is worked out once for it. */
interface Listed { readonly hypotheses: readonly Hypothesis[]; readonly priors: Float64Array; readonly between: readonly BetweenValue[] }

/** @param hypotheses  single faults, the car with nothing wrong first, what is not in the list last @returns ranks what was seen; throws for what the car cannot be asked for */
export function ranker(made: Forecasts, hypotheses: readonly Hypothesis[]): (observations: readonly Observation[]) => Ranking {
  const observed = (observations: readonly Observation[], of: readonly Hypothesis[]): readonly Observed[] => observations.map((observation) => {
    const forecast = made.forecast(observation.state, observation.look, of, 'band' in observation ? observation.band : undefined);
    if (!forecast) throw new Error(`this car cannot be asked for ${JSON.stringify(observation.look)}`);
    return { forecast, outcome: made.outcomeOf(observation) };
  });

  const listed = (of: readonly Hypothesis[]): Listed => ({ hypotheses: of, priors: logPriors(of.map(({ weight }) => weight)), between: betweenValues(of) });
  const singles = listed(hypotheses);
  const lists = new Map<string, Listed>();
  /** Before the last, so that places of singles stay. */
  const withMore = (more: readonly Hypothesis[]): Listed => {
    const key = more.map(({ id }) => id).join('|');
    let list = lists.get(key);
    if (!list) {
      lists.set(key, (list = listed([...hypotheses.slice(0, -1), ...more, hypotheses.at(-1)!])));
      if (lists.size > MOST_LISTS) lists.delete(lists.keys().next().value!);
    }
    return list;
  };
  const judged = (observations: readonly Observation[], list: Listed): { readonly ranking: Ranking; readonly seen: readonly Observed[]; readonly isEnough: boolean } => {
    const seen = observed(observations, list.hypotheses);
    const weighed = weigh(list.priors, seen, list.between, smoothIn(observations, list.hypotheses));
    const { chances } = weighed;
    return {
      seen, isEnough: observations.length < 2 || (chances.at(-1)! < UNEXPLAINED && isExplained(seen, weighed)),
      ranking: { observations, hypotheses: list.hypotheses, chances, causes: causesOf(list.hypotheses, chances), entropy: entropy(chances), withPairs: list.hypotheses.some(({ sort }) => sort === 'pair') },
    };
  };
  /** Nothing clicks, lights or goes over between two values of one joint. */
  const smoothIn = (observations: readonly Observation[], of: readonly Hypothesis[]): (observation: number, from: number, to: number) => boolean => {
    const known = observations.map(() => new Map<number, boolean>());
    return (index, from, to) => {
      const { state, look } = observations[index]!;
      if (look.is === 'resistance') return true;
      const pair = from * of.length + to;
      let is = known[index]!.get(pair);
      if (is === undefined) {
        const { of: predicted } = made.predictionsIn(state);
        known[index]!.set(pair, (is = isAlike(predicted(of[from]!), predicted(of[to]!))));
      }
      return is;
    };
  };
  return (observations) => {
    const single = judged(observations, singles);
    if (single.isEnough) return single.ranking;
    const further = furtherJoints(hypotheses, single.seen);
    const joints = further.length > 0 ? judged(observations, withMore(further)) : single;
    if (joints.isEnough) return joints.ranking;
    const pairs = pairHypotheses(hypotheses, single.seen, MOST_PAIRS);
    return pairs.length > 0 ? judged(observations, withMore([...further, ...pairs])).ranking : joints.ranking;
  };
}

function isAlike(one: Prediction, other: Prediction): boolean {
  return one.reached === other.reached && one.fellBack === other.fellBack && one.sight !== undefined && other.sight !== undefined && (one.sight.does === other.sight.does || one.sight.does.every((does, index) => does === other.sight!.does[index]));
}

/** Whether some likely hypothesis leaves no observation to a wild reading. */
function isExplained(observed: readonly Observed[], { chances, explains }: Weighed): boolean {
  const most = chances.reduce((top, chance) => Math.max(top, chance), 0);
  const likely = [...chances.keys()].filter((h) => chances[h]! > LIKELY * most).map(explains);
  const best = observed.map(({ forecast, outcome }, index) => likely.reduce((top, logs) => Math.max(top, logs[index]!), chances.reduce((top, _, h) => Math.max(top, logLikelihood(forecast, h, outcome)), -Infinity)));
  return likely.some((logs) => logs.every((log, index) => log > best[index]! - FAR));
}

/** One line a cause, whatever its ohms. */
export function causesOf(hypotheses: readonly Hypothesis[], chances: Float64Array): readonly RankedCause[] {
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
