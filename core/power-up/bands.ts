/**
 * The band of every reading from the tolerances of the file: draws of the whole car, the same for all steps.
 *
 * Half width: spread of the draws times Student's factor for one more reading, t(0.975, n - 1) √(1 + 1/n), and what the meter may be
 * out by, as two independent parts. Few draws are enough, because the factor grows with their fewness. Resistances and times are taken
 * by their logarithms, because what is known of an insulation is its decade. A side on which no draw lies far ends twice as far out as
 * the furthest of them, and a reading that never changed its sign keeps it.
 *
 * Source:  prediction interval for one further observation of a normal distribution (ISO 16269-8, from memory)
 * Checked: core/power-up/bands.test.ts
 */
import { answerStore, askNetwork } from '../car/ask-network.ts';
import type { PreparedCar } from '../car/realise.ts';
import { realise } from '../car/realise.ts';
import type { State } from '../car/state.ts';
import { drawTable } from '../chance/draw-table.ts';
import { carAsRead } from './as-read.ts';
import type { Instrument } from './instruments.ts';
import { readMeasure } from './read-measure.ts';
import type { Band, Measure } from './step.ts';

export interface Draws { readonly count: number; readonly seed: number }
/** 12 are enough for a factor of 2.29 where infinitely many would give 1.96. */
export const USUAL_DRAWS: Draws = { count: 12, seed: 1 };

/** t(0.975, n - 1) for n = 2, 3, …; from tables, from memory, recomputed in the test. */
const STUDENT = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131, 2.12, 2.11, 2.101, 2.093];

/** Factor on the standard deviation of `count` draws. @param count >= 2 */
export function spreadFactor(count: number): number {
  if (!Number.isInteger(count) || count < 2) throw new RangeError(`a spread needs two draws at least, got ${count}`);
  return (STUDENT[count - 2] ?? 1.96 + 2.4 / (count - 1)) * Math.sqrt(1 + 1 / count);
}

export interface Asked {
  readonly state: State; readonly measure: Measure;
  /** see `readMeasure` */
  readonly isUnloaded: boolean;
  /** a draw that reads as if the thing did not work is a car in which it does not: it widens no band of those in which it does */
  readonly noEffect?: { readonly reading: number; readonly instrument: Instrument };
}

/** What the draws of one reading say. */
export interface Spread { readonly count: number; readonly deviation: number; readonly least: number; readonly most: number; /** of the logarithm; undefined when some draw was not above 0 */ readonly logDeviation: number | undefined }

/** The draws of some readings. Those that could not be read in two draws at least have no spread. */
export function spreads(prepared: PreparedCar, asked: readonly Asked[], draws: Draws): readonly (Spread | undefined)[] {
  const table = drawTable([...prepared.build.quantities.values()], draws.count, draws.seed);
  const store = answerStore();
  const read = asked.map((): number[] => []);
  for (let draw = 0; draw < draws.count; draw++) {
    const car = carAsRead(realise(prepared, table.valueOf(draw), { isForMargins: true }));
    const ask = askNetwork(car, store);
    asked.forEach(({ state, measure, isUnloaded, noEffect }, index) => {
      const value = readMeasure(car, ask, state, measure, isUnloaded);
      if (value !== undefined && (noEffect === undefined || isApart(value, noEffect.reading, noEffect.instrument))) read[index]!.push(value);
    });
  }
  return read.map(spreadOf);
}

/** @returns undefined for fewer than two values */
export function spreadOf(values: readonly number[]): Spread | undefined {
  if (values.length < 2) return undefined;
  return { count: values.length, deviation: deviation(values), least: Math.min(...values), most: Math.max(...values), logDeviation: values.every((value) => value > 0) ? deviation(values.map(Math.log)) : undefined };
}

function deviation(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}

/** Prediction with the meter's own share. @param isPositive  a resistance or a time: never below 0 */
export function bandOf(nominal: number, spread: Spread | undefined, { share, fixed }: Instrument, isPositive: boolean): Band {
  const meter = share * Math.abs(nominal) + fixed;
  let [below, above] = [0, 0];
  if (spread) {
    const factor = spreadFactor(spread.count);
    if (isPositive && nominal > 0 && spread.logDeviation !== undefined) {
      const ratio = Math.exp(factor * spread.logDeviation);
      [below, above] = [nominal - nominal / ratio, nominal * ratio - nominal];
    } else {
      below = Math.min(factor * spread.deviation, 2 * Math.max(0, nominal - spread.least));
      above = Math.min(factor * spread.deviation, 2 * Math.max(0, spread.most - nominal));
    }
  }
  const [low, high] = [nominal - Math.hypot(below, meter), nominal + Math.hypot(above, meter)];
  const neverBelow = isPositive || (spread !== undefined && nominal > 0 && spread.least >= 0);
  const neverAbove = !isPositive && spread !== undefined && nominal < 0 && spread.most <= 0;
  return { nominal, low: neverBelow ? Math.max(0, low) : low, high: neverAbove ? Math.min(0, high) : high };
}

/** So many times what the meter may be out by must lie between what works and what does not: its error at each of the two. */
const APART = 2;

const apartBy = (noEffect: number, { share, fixed }: Pick<Instrument, 'share' | 'fixed'>): number => APART * (share * Math.abs(noEffect) + fixed);

/** Whether a meter tells a reading from the one that there is when the thing does not work. */
export const isApart = (reading: number, noEffect: number, instrument: Instrument): boolean => Math.abs(reading - noEffect) > apartBy(noEffect, instrument);

/**
 * A band that ends before the reading which the meter shows when the thing does not work: however widely the tolerances spread, that reading
 * proves nothing.
 * @returns undefined when the meter cannot tell the two apart at all
 */
export function besideNoEffect({ nominal, low, high }: Band, noEffect: number, { share, fixed }: Instrument): Band | undefined {
  const apart = apartBy(noEffect, { share, fixed });
  if (Math.abs(nominal - noEffect) <= apart) return undefined;
  return nominal > noEffect ? { nominal, low: Math.max(low, noEffect + apart), high } : { nominal, low, high: Math.min(high, noEffect - apart) };
}
