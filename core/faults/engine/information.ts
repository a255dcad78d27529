/**
 * How much an observation is expected to tell: the mutual information between the hypotheses and its outcome [bit].
 *
 *     gain = H(outcome) - Σ P(h) H(outcome | h)
 *
 * Readings are sorted into cells as wide as a reading can be told apart from another; each hypothesis fills the cell of its mean and,
 * by its place between the two, the next one, or its two ends and the cells between them. What a hypothesis does not predict may come out as any of the readings that the others do.
 *
 * Source:  C. E. Shannon (1948); as the choice of the next measurement: J. de Kleer and B. C. Williams (1987)
 * Checked: core/faults/engine/engine.test.ts (against the entropy of small examples)
 */
import { BETWEEN, endOf, WILD } from './forecast.ts';
import type { Forecast, ValueForecast } from './forecast.ts';

/** Readings so many standard deviations apart can be told apart by one look. */
const APART = 4;
/** Hypotheses below this are not counted. */
const NEGLIGIBLE = 1e-7;
/** Most steps between the least and the greatest mean that are laid out finely. */
const MOST_CELLS = 4096;

const plogp = (p: number): number => (p > 0 ? -p * Math.log2(p) : 0);

/** @param chances  of the hypotheses, adding up to 1 @returns [bit], >= 0 */
export function expectedGain(forecast: Forecast, chances: Float64Array): number {
  return forecast.is === 'yes_no' ? yesNoGain(forecast.chances, chances) : valueGain(forecast, chances);
}

function yesNoGain(yes: Float64Array, chances: Float64Array): number {
  let sum = 0, within = 0;
  for (let h = 0; h < chances.length; h++) {
    const p = chances[h]!;
    if (p < NEGLIGIBLE) continue;
    const chance = Number.isNaN(yes[h]!) ? 0.5 : yes[h]!;
    sum += p * chance;
    within += p * (plogp(chance) + plogp(1 - chance));
  }
  return Math.max(0, plogp(sum) + plogp(1 - sum) - within);
}

/** Cells of a forecast: where each mean stands on a scale on which one step is a reading apart. */
export interface Scale { readonly placeOf: (mean: number) => number; readonly cells: number }

const scratch = new Float64Array(MOST_CELLS + 2);
/** Entropy of a reading that falls n/64 of a cell beyond its own [bit]. */
const smear = Float64Array.from({ length: 65 }, (_, n) => plogp(n / 64) + plogp(1 - n / 64));

function valueGain(forecast: ValueForecast, chances: Float64Array): number {
  const { means } = forecast;
  let least = Infinity, most = -Infinity, silent = 0;
  for (let h = 0; h < means.length; h++) {
    if (chances[h]! < NEGLIGIBLE) continue;
    const mean = means[h]!;
    if (Number.isNaN(mean)) { silent += chances[h]!; continue; }
    if (mean < least) least = mean;
    const end = endOf(forecast, h);
    if (end > most) most = end;
  }
  const contest = contestGain(silent);
  if (!(most > least)) return contest;
  const { placeOf, cells } = scaleOf(forecast, least, most);
  if (cells < 1e-3) return contest;
  scratch.fill(0, 0, Math.ceil(cells) + 2);
  let within = 0, told = 0;
  for (let h = 0; h < means.length; h++) {
    const p = chances[h]!, mean = means[h]!;
    if (p < NEGLIGIBLE || Number.isNaN(mean)) continue;
    told += p;
    const place = placeOf(mean), end = endOf(forecast, h);
    if (end > mean) {
      const wide = placeOf(end) - place;
      if (wide > 1) { within += spreadOver(place, wide, p); continue; }
    }
    const cell = Math.floor(place), beyond = Math.round((place - cell) * 64);
    scratch[cell]! += p * (1 - beyond / 64);
    scratch[cell + 1]! += (p * beyond) / 64;
    within += p * smear[beyond]!;
  }
  let between = 0, occupied = 0;
  for (let cell = 0; cell < Math.ceil(cells) + 2; cell++) if (scratch[cell]! > 0) { between += plogp(scratch[cell]! / told); occupied++; }
  const plain = Math.max(0, between - within / told);
  // a wild or unpredicted reading may be any: it blurs every outcome alike
  const blurred = Math.min(1, WILD + silent);
  return contest + Math.max(0, (1 - silent) * plain - (occupied > 1 ? plogp(blurred) * Math.min(1, plain) : 0));
}

/** A reading that may lie at either end of a piece of the scale, or anywhere on it. @returns entropy that it brings with it [bit] */
function spreadOver(place: number, wide: number, p: number): number {
  const first = Math.floor(place), last = Math.floor(place + wide);
  scratch[first]! += p * BETWEEN.first;
  scratch[last]! += p * BETWEEN.last;
  for (let cell = first; cell <= last; cell++) scratch[cell]! += (p * BETWEEN.anywhere * (Math.min(cell + 1, place + wide) - Math.max(cell, place))) / wide;
  return p * (plogp(BETWEEN.first) + plogp(BETWEEN.last) + plogp(BETWEEN.anywhere) + BETWEEN.anywhere * Math.log2(wide));
}

/**
 * Whether anything on the list is right at all is worth knowing too, once what does not say has become a serious rival: any reading that the others
 * predict sharply tells that. Below `RIVAL` it does not count, or the cheapest look of all would always come first.
 */
function contestGain(silent: number): number {
  const weight = Math.min(1, Math.max(0, (silent - RIVAL) / RIVAL));
  return silent >= 1 ? 0 : weight * SHARP * (plogp(silent) + plogp(1 - silent));
}
const RIVAL = 0.05;
/** Share of that question which one sharp reading settles. */
const SHARP = 0.8;

/** Spread grows with the mean: the scale is the integral of 1 / (APART spread), taken in as many pieces as it is long. */
export function scaleOf({ spread }: ValueForecast, least: number, most: number): Scale {
  const step = (most - least) / PIECES;
  const places = new Float64Array(PIECES + 1);
  for (let n = 0; n < PIECES; n++) places[n + 1] = places[n]! + step / (APART * spread(least + (n + 0.5) * step));
  const cells = Math.min(MOST_CELLS, places[PIECES]!);
  const shrink = places[PIECES]! > 0 ? cells / places[PIECES]! : 0;
  return {
    cells,
    placeOf: (mean) => {
      const at = Math.min(PIECES, Math.max(0, (mean - least) / step)), n = Math.min(PIECES - 1, Math.floor(at));
      return shrink * (places[n]! + (at - n) * (places[n + 1]! - places[n]!));
    },
  };
}
const PIECES = 64;
