/**
 * What every hypothesis says about one thing that could be observed. Numbers only: no car is known here.
 */

/** A number on a meter. The outcomes are reals; a hypothesis that says nothing about it has the mean NaN. */
export interface ValueForecast {
  readonly is: 'value';
  /** by hypothesis; NaN: it does not say */
  readonly means: Float64Array;
  /** by hypothesis: a reading may lie at its mean, here, or anywhere between (`BETWEEN`); >= its mean; absent: at its mean */
  readonly until?: Float64Array;
  /** standard deviation of a reading whose mean is this, meter and model together; > 0, and the same sense for all hypotheses */
  readonly spread: (mean: number) => number;
  /** readings that are possible at all; what is not predicted lies anywhere in it */
  readonly range: readonly [number, number];
}

/** Something that is or is not so. */
export interface YesNoForecast {
  readonly is: 'yes_no';
  /** by hypothesis: chance that the answer is yes, mistakes of the observer included; NaN: it does not say */
  readonly chances: Float64Array;
}

export type Forecast = ValueForecast | YesNoForecast;

export interface Observed { readonly forecast: Forecast; /** a number for a value, true or false for a yes-or-no */ readonly outcome: number | boolean }

/** Share of readings that are wrong in some way nobody models: probe on the wrong pin, digit misread. Common practice, no source. */
export const WILD = 0.01;

/**
 * Where only two ends are known: chances of a reading at the first, at the last, and of one anywhere between. Were it even, several readings of one
 * unknown thing would each count against it anew. Ours, no source.
 */
export const BETWEEN = { first: 0.4, last: 0.2, anywhere: 0.4 };

/**
 * Logarithm of the likelihood of an outcome under a hypothesis.
 *
 * A value: Student's t with four degrees of freedom around the mean, so that a reading a little outside its band does not rule a
 * hypothesis out, mixed with a flat part (`WILD`) that no reading can undercut. Where only two ends are known it is that density at
 * both of them, and its mean over all places between. Not predicted: flat over the range.
 */
export function logLikelihood(forecast: Forecast, hypothesis: number, outcome: number | boolean): number {
  if (forecast.is === 'yes_no') {
    if (typeof outcome !== 'boolean') throw new Error('a yes-or-no has the outcome true or false');
    const chance = forecast.chances[hypothesis]!;
    return Number.isNaN(chance) ? Math.log(0.5) : Math.log(outcome ? chance : 1 - chance);
  }
  if (typeof outcome !== 'number' || !Number.isFinite(outcome)) throw new Error('a value has a number as its outcome');
  const [low, high] = forecast.range;
  const flat = 1 / (high - low);
  const mean = forecast.means[hypothesis]!;
  if (Number.isNaN(mean)) return Math.log(flat);
  const spread = forecast.spread(mean);
  const until = endOf(forecast, hypothesis);
  const at = (place: number): number => studentDensity((outcome - place) / spread) / spread;
  const density = until - mean > spread ? BETWEEN.first * at(mean) + BETWEEN.last * at(until) + BETWEEN.anywhere * ((studentShare((outcome - mean) / spread) - studentShare((outcome - until) / spread)) / (until - mean)) : at(mean);
  return Math.log((1 - WILD) * density + WILD * flat);
}

/** Where the readings that a hypothesis allows end. */
export function endOf({ means, until }: ValueForecast, hypothesis: number): number {
  return until?.[hypothesis] ?? means[hypothesis]!;
}

/** Density of Student's t with four degrees of freedom: 3/8 (1 + t2/4)^(-5/2). */
function studentDensity(t: number): number {
  return 0.375 * (1 + (t * t) / 4) ** -2.5;
}

/** Share of it below t: the integral of the density. */
function studentShare(t: number): number {
  const u = 1 + (t * t) / 4;
  return 0.5 + 0.375 * (t / Math.sqrt(u)) * (1 - (t * t) / u / 12);
}
