/**
 * The next observation: the one with the most expected information for its cost, and what each of its outcomes would leave.
 */
import { endOf } from './forecast.ts';
import type { Forecast } from './forecast.ts';
import { expectedGain } from './information.ts';

export interface Rated { readonly index: number; /** [bit] */ readonly gain: number; /** gain for cost [bit a unit of cost] */ readonly worth: number }

/** Gains below this are noise of the cells [bit]. */
const LEAST_GAIN = 0.03;

/**
 * @param costs  by test, > 0
 * @returns tests that tell anything, the worthiest first
 */
export function rateTests(forecasts: readonly Forecast[], costs: ArrayLike<number>, chances: Float64Array): readonly Rated[] {
  const rated: Rated[] = [];
  forecasts.forEach((forecast, index) => {
    const gain = expectedGain(forecast, chances);
    if (gain > LEAST_GAIN) rated.push({ index, gain, worth: gain / costs[index]! });
  });
  return rated.sort((a, b) => b.worth - a.worth || a.index - b.index);
}

export interface Outcome {
  /** the answer, or the least and greatest of the readings that count as this outcome */
  readonly outcome: boolean | readonly [number, number];
  /** of this outcome */
  readonly chance: number;
  /** hypotheses that remain, likeliest first, with what each would then have */
  readonly remain: readonly { readonly hypothesis: number; readonly chance: number }[];
}

/** Hypotheses below this are not worth a word. */
const WORTH_A_WORD = 1e-4;
const APART = 4;

/** What the outcomes of a test would leave, the likeliest outcome first. Hypotheses that do not predict it are in none. */
export function outcomesOf(forecast: Forecast, chances: Float64Array): readonly Outcome[] {
  const counted = [...chances.keys()].filter((h) => chances[h]! > WORTH_A_WORD);
  if (forecast.is === 'yes_no') {
    return [true, false].map((outcome) => outcomeWith(outcome, counted.filter((h) => !Number.isNaN(forecast.chances[h]!) && (forecast.chances[h]! >= 0.5) === outcome), chances)).filter(({ chance }) => chance > 0).sort((a, b) => b.chance - a.chance);
  }
  const sorted = counted.filter((h) => !Number.isNaN(forecast.means[h]!)).sort((a, b) => forecast.means[a]! - forecast.means[b]!);
  const clusters: { readonly members: number[]; end: number }[] = [];
  for (const h of sorted) {
    const last = clusters.at(-1), mean = forecast.means[h]!, end = endOf(forecast, h);
    if (last && mean - last.end <= APART * Math.max(forecast.spread(mean), forecast.spread(last.end))) {
      last.members.push(h);
      last.end = Math.max(last.end, end);
    } else clusters.push({ members: [h], end });
  }
  return clusters.map(({ members, end }) => outcomeWith([forecast.means[members[0]!]!, end], members, chances)).sort((a, b) => b.chance - a.chance);
}

function outcomeWith(outcome: Outcome['outcome'], members: readonly number[], chances: Float64Array): Outcome {
  const chance = members.reduce((sum, h) => sum + chances[h]!, 0);
  return { outcome, chance, remain: members.map((hypothesis) => ({ hypothesis, chance: chance > 0 ? chances[hypothesis]! / chance : 0 })).sort((a, b) => b.chance - a.chance) };
}
