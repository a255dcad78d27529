/**
 * A reading against what the network predicts for its step: it agrees, lies outside, or cannot be told. The meter's own share is in the
 * predicted band already (`core/power-up/bands.ts`); what is added here is how finely the reading was written down.
 *
 * - A limit that the reading passes is `outside`, whatever was predicted.
 * - A reading within half its last digit of an edge cannot be told.
 * - Isolation and insulation above the prediction are better, and agree where their limit is kept.
 */
import type { Cause } from '../power-up/causes.ts';
import type { Band, Limit } from '../power-up/step.ts';
import { printValue } from '../quantity/print-value.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import { printEntered } from './entered.ts';
import type { Entered, EnteredValue } from './entered.ts';
import type { ReadStep } from './read-step.ts';
import type { VerdictWord } from './reading.ts';

export interface Meaning {
  /** undefined: the meter or the hand, not a part */
  readonly part: string | undefined;
  readonly says: string;
  /** what the step would read then [SI]; undefined: not computed, or nothing conducts */
  readonly reads: number | undefined;
  /** it explains what was read */
  readonly fits: boolean;
}

export interface Verdict {
  readonly word: VerdictWord;
  /** what was read against what was expected, in a sentence */
  readonly says: string;
  /** what to do now, in sentences */
  readonly next: string;
  /** how far beyond the band or limit [SI]; undefined when not outside, or not a number */
  readonly outsideBy: number | undefined;
  /** it would agree with the other sign */
  readonly isReversed: boolean;
  /** the likeliest first */
  readonly meanings: readonly Meaning[];
}

export interface Suspicions {
  /** failures that move the reading out of its band, the heaviest first (`core/power-up/causes.ts`) */
  readonly causes: (step: ReadStep) => readonly Cause[];
  /** what all readings of the battery so far say of the way it is put together (`mistakes.ts`) */
  readonly mistakes: (step: ReadStep, entered: EnteredValue) => readonly Meaning[];
}

const MOST_MEANINGS = 3;
/** A cause fits when what it would read lies as near to the reading as this share of it, or as the prediction is wide; our choice. */
const NEAR = 0.1;
/** The same for resistances, as a factor: they are known by their order of magnitude; our choice. */
const NEAR_FACTOR = 2;
/** A band must lie this far from zero, in its own half widths, for its sign to say anything; our choice. */
const CLEAR_OF_ZERO = 2;

type Where = 'within' | 'edge' | 'below' | 'above';

/** What is read in a step; undefined: nothing. A limit without a measure is one of insulation. */
export function quantityOfStep({ quantity, limit }: Pick<ReadStep, 'quantity' | 'limit'>): QuantityName | undefined {
  return quantity ?? (limit ? 'resistance' : undefined);
}

/** Shape: pure. Time: what the suspicions take, and only for a reading that lies outside. */
export function judge(step: ReadStep, entered: Entered, suspicions?: Suspicions): Verdict {
  if (entered.is === 'answer') return judgeAnswer(step, entered.yes);
  const { predicted, limit } = step;
  const quantity = quantityOfStep(step) ?? 'voltage';
  const reads = printEntered(entered, quantity);
  const inLimit = limit && whereIn(entered, limit.sense === 'at_most' ? -Infinity : limit.value, limit.sense === 'at_least' ? Infinity : limit.to ?? limit.value);
  const isBetterAbove = step.measure?.is === 'insulation' || step.measure?.is === 'isolation';
  const found = predicted && whereIn(entered, predicted.low, predicted.high);
  const inBand: Where | undefined = isBetterAbove && found === 'above' && inLimit === 'within' ? 'within' : found;
  const plain = { outsideBy: undefined, isReversed: false, meanings: [] } as const;
  if (inLimit === 'below' || inLimit === 'above' || inBand === 'below' || inBand === 'above') return outside(step, entered, { inLimit, inBand, reads, quantity }, suspicions);
  if (inLimit === 'edge' || inBand === 'edge') {
    return { ...plain, word: 'cannot be told', says: `${reads} lies at the edge of what ${inLimit === 'edge' ? 'the limit asks for' : 'is expected'} (${inLimit === 'edge' ? limitText(limit!, quantity) : bandText(predicted!, quantity)}); it is written down too coarsely to tell.`, next: 'Read again with one more digit, or on a finer range, and write down all digits.' };
  }
  if (!predicted && !limit) {
    return { ...plain, word: 'cannot be told', says: `${reads} is written down. There is no prediction for it: ${step.notPredicted ?? 'the file does not say enough'}.`, next: `${step.expect === '' ? 'Decide yourself whether it is as it should be' : `Compare it yourself: ${step.expect}`}${step.isHoldPoint ? ' This is a hold point: answer whether it is so before you go on.' : ''}` };
  }
  const than = [predicted ? `expected ${bandText(predicted, quantity)}` : '', limit ? `limit ${limitText(limit, quantity)}` : ''].filter((text) => text !== '').join('; ');
  const isBetter = found === 'above' && inBand === 'within';
  return { ...plain, word: 'agrees', says: `${reads} agrees (${than}).`, next: isBetter ? 'It is better than predicted. Make sure that the tester was on the part: short its leads, it must read zero.' : '' };
}

function judgeAnswer(step: ReadStep, yes: boolean): Verdict {
  const plain = { outsideBy: undefined, isReversed: false, meanings: [] } as const;
  if (yes) return { ...plain, word: 'agrees', says: 'Written down: it is so.', next: '' };
  return { ...plain, word: 'outside', says: 'Written down: it is not so.', next: step.isHoldPoint ? 'This is a hold point: do not go on until it is so.' : 'Find out why before you go on.' };
}

/** Where an interval lies against a range. An open reading that could lie within does, unless the range is a limit that it does not settle. */
function whereIn({ best, low, high }: EnteredValue, from: number, to: number): Where {
  if (high === Infinity) return best > to ? 'above' : best >= from || to !== Infinity ? 'within' : 'edge';
  if (low === -Infinity || (low === 0 && high === best && best !== 0)) return best < from ? 'below' : best <= to || from !== -Infinity ? 'within' : 'edge';
  if (best >= from && best <= to) return 'within';
  if (best < from) return high >= from ? 'edge' : 'below';
  return low <= to ? 'edge' : 'above';
}

interface Found { readonly inLimit: Where | undefined; readonly inBand: Where | undefined; readonly reads: string; readonly quantity: QuantityName }

function outside(step: ReadStep, entered: EnteredValue, { inLimit, inBand, reads, quantity }: Found, suspicions: Suspicions | undefined): Verdict {
  const { predicted, limit } = step;
  const { best } = entered;
  const passesLimit = inLimit === 'below' || inLimit === 'above';
  const side = inBand === 'below' || inBand === 'above' ? inBand : inLimit;
  const edge = inBand === 'below' || inBand === 'above' ? (side === 'below' ? predicted!.low : predicted!.high) : side === 'below' ? limit!.value : limit!.to ?? limit!.value;
  const by = Math.abs(best - edge);
  const isReversed = predicted !== undefined && (quantity === 'voltage' || quantity === 'current') && isClearOfZero(predicted) && -best >= predicted.low && -best <= predicted.high;
  const where = inBand === 'below' || inBand === 'above'
    ? `${printValue(by, quantity, { digits: 3 })} ${side} what is expected (${bandText(predicted!, quantity)})`
    : `${side} the limit`;
  const says = isReversed
    ? `${reads} has the wrong sign: ${printValue(predicted.nominal, quantity, { digits: 4 })} is expected.`
    : `${reads} is ${where}${passesLimit ? `, and passes the limit: ${limitText(limit!, quantity)}` : ''}.`;
  const mistakes = suspicions?.mistakes(step, entered) ?? [];
  const meanings = isReversed ? reversedMeanings(step, best, mistakes) : [...mistakes, ...causesThatFit(step, entered, suspicions)];
  return {
    word: 'outside', says, isReversed, outsideBy: by, meanings: meanings.slice(0, MOST_MEANINGS),
    next: [
      isReversed ? (quantity === 'current' ? 'Look which way the clamp points, and read again.' : 'Look which lead is on which point, and read again before you touch anything.') : passesLimit && (step.hazard === 'class_b' || step.hazard === 'moving') ? 'Switch off and open the disconnect before you look for it.' : '',
      step.isHoldPoint ? 'This is a hold point: do not go on until the cause is found and a new reading agrees.' : 'Find out why before you go on.',
    ].filter((text) => text !== '').join(' '),
  };
}

function isClearOfZero({ nominal, low, high }: Band): boolean {
  return (low > 0 || high < 0) && Math.abs(nominal) > (CLEAR_OF_ZERO * (high - low)) / 2;
}

function reversedMeanings(step: ReadStep, best: number, mistakes: readonly Meaning[]): readonly Meaning[] {
  if (step.measure?.is === 'current') return [{ part: undefined, says: 'The arrow on the clamp points the other way; or the current flows the other way', reads: best, fits: true }];
  const named = mistakes.filter(({ part }) => part !== undefined);
  return [{ part: undefined, says: 'The leads are swapped, at the meter or at the points', reads: best, fits: true }, ...(named.length > 0 ? named : [{ part: undefined, says: 'Something between the two points is in the wrong way round', reads: best, fits: true }])];
}

/** Those that explain the reading first; then, where none does, what else moves it. */
function causesThatFit(step: ReadStep, entered: EnteredValue, suspicions: Suspicions | undefined): readonly Meaning[] {
  const { predicted } = step;
  const quantity = quantityOfStep(step) ?? 'voltage';
  const all = (suspicions?.causes(step) ?? []).map(({ part, meaning, reads }) => withFit({ part, says: meaning, reads, fits: false }, entered, predicted, quantity));
  const fitting = all.filter(({ fits }) => fits);
  const isOver = (reads: number | undefined): boolean => reads !== undefined && predicted !== undefined && (reads > predicted.high) === (entered.best > predicted.high);
  return fitting.length > 0 ? fitting : all.filter(({ reads }) => isOver(reads));
}

function withFit(meaning: Meaning, { best, high }: EnteredValue, predicted: Band | undefined, quantity: QuantityName): Meaning {
  const { reads } = meaning;
  if (reads === undefined) return { ...meaning, fits: quantity === 'resistance' ? high === Infinity : Math.abs(best) < NEAR * Math.abs(predicted?.nominal ?? 0) };
  if (quantity === 'resistance' && best > 1 && reads > 1) return { ...meaning, fits: high === Infinity ? reads >= best / NEAR_FACTOR : Math.max(reads / best, best / reads) <= NEAR_FACTOR };
  const wide = predicted ? (predicted.high - predicted.low) / 2 : 0;
  return { ...meaning, fits: Math.abs(reads - best) <= Math.max(wide, NEAR * Math.abs(best)) };
}

const plainZero = (value: number): number => (Math.abs(value) < 1e-5 ? 0 : value);

/** `327 V to 345 V`. */
export function bandText({ low, high }: Pick<Band, 'low' | 'high'>, quantity: QuantityName): string {
  return `${printValue(plainZero(low), quantity)} to ${printValue(plainZero(high), quantity)}`;
}

export function limitText({ sense, value, to }: Limit, quantity: QuantityName): string {
  if (sense === 'between') return bandText({ low: value, high: to ?? value }, quantity);
  return `${sense === 'at_least' ? 'at least' : 'at the most'} ${printValue(value, quantity)}`;
}
