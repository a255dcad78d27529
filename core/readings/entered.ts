/**
 * A reading as the builder wrote it, as an interval: what the meter may have meant. `12.4 V` is good to half its last digit, `12.4 V ±0.1` to
 * what it says, `> 550 MΩ` (the end of the tester's range) is open upwards.
 */
import { printValue } from '../quantity/print-value.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import { readQuantity } from '../quantity/read-quantity.ts';
import { fromUnit } from '../quantity/unit-conversion.ts';
import { OBSERVATION } from './reading.ts';
import type { ReadQuantity } from './reading.ts';

/** [SI]; `low` or `high` is infinite for an open one, `best` never */
export interface EnteredValue { readonly is: 'value'; readonly best: number; readonly low: number; readonly high: number }
export interface EnteredAnswer { readonly is: 'answer'; readonly yes: boolean }
export type Entered = EnteredValue | EnteredAnswer;
export type EnteredReading = { readonly ok: true; readonly value: Entered } | { readonly ok: false; /** a sentence */ readonly problem: string };

/** Shape: pure; never throws on a text */
export function readEntered(text: string, quantity: ReadQuantity): EnteredReading {
  const written = text.trim();
  if (quantity === OBSERVATION) {
    const word = written.toLowerCase();
    return word === 'yes' || word === 'no' ? { ok: true, value: { is: 'answer', yes: word === 'yes' } } : { ok: false, problem: `Found ${written || 'nothing'}, expected yes or no.` };
  }
  if (/^(ol|o\.l\.?|open|over(load)?|inf(inity)?|∞)$/i.test(written)) return { ok: false, problem: 'The meter is beyond its range. Write the end of that range: > 40 MΩ, as it stands on the meter.' };
  const sense = /^[<>≥≤]=?/.exec(written)?.[0] ?? '';
  const rest = written.slice(sense.length);
  const read = readQuantity(rest, quantity, 'reading');
  if (!read.ok) {
    const { found, expected, nearest } = read.problem;
    return { ok: false, problem: `Found ${found}, expected ${expected}${nearest === undefined ? '' : `; did you mean ${nearest}?`}.` };
  }
  const { nominal, low, high, toleranceIsStated, unit } = read.value;
  if (/^[>≥]/.test(sense)) return { ok: true, value: { is: 'value', best: nominal, low: nominal, high: Infinity } };
  if (/^[<≤]/.test(sense)) return { ok: true, value: { is: 'value', best: nominal, low: quantity === 'voltage' || quantity === 'current' ? -Infinity : 0, high: nominal } };
  if (toleranceIsStated) return { ok: true, value: { is: 'value', best: nominal, low, high } };
  const decimals = /\d+\.(\d+)/.exec(rest)?.[1]?.length ?? 0;
  const half = Math.abs(fromUnit(0.5 * 10 ** -decimals, unit, quantity) - fromUnit(0, unit, quantity));
  return { ok: true, value: { is: 'value', best: nominal, low: nominal - half, high: nominal + half } };
}

/** Quantity of a reading that is not of a step, by its unit. */
export function quantityOfText(text: string): QuantityName | undefined {
  const rest = text.trim().replace(/^[<>≥≤]=?/, '');
  return (['voltage', 'resistance', 'current', 'time'] as const).find((quantity) => readQuantity(rest, quantity, 'reading').ok);
}

/** As a sentence says it. */
export function printEntered(value: EnteredValue, quantity: QuantityName): string {
  const sign = value.high === Infinity ? '> ' : Number.isFinite(value.low) && (value.low !== 0 || value.best !== value.high || value.high === 0) ? '' : '< ';
  return `${sign}${printValue(value.best, quantity, { digits: 4 })}`;
}
