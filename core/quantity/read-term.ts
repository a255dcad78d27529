import { examplePhrase } from './quantity-phrase.ts';
import type { QuantityName } from './quantity-table.ts';
import { readNumber } from './read-number.ts';
import { readingProblem, type ReadingProblem } from './reading-problem.ts';
import { endOfWord, skipSpaces } from './unit-spelling.ts';
import { units, type UnitRow } from './unit-table.ts';

export interface Term {
  readonly ok: true;
  readonly at: number;
  readonly end: number;
  readonly value: number;
  readonly isNegative: boolean;
  /** written as `2/0` or `000`, which only a wire gauge is */
  readonly isGauge: boolean;
  /** set when the unit stood before the number: `AWG 6` */
  readonly unit: UnitRow | undefined;
}

interface Failed { readonly ok: false; readonly problem: ReadingProblem }

/**
 * Reads the number of a quantity at `at`, and for an area the gauge of a wire as well: `6`, `2/0`, `000`, `AWG 6`.
 * Whether a gauge is followed by AWG is for the caller to see (`isGauge`).
 */
export function readTerm(text: string, at: number, quantity: QuantityName): Term | Failed {
  if (quantity === 'area') {
    const gauge = readGauge(text, at);
    if (gauge !== undefined) return gauge;
  }
  const number = readNumber(text, at);
  if (!number.ok) return readingProblem(number.reason, text, number.at, number.at + number.length, number.expected === 'a number' ? examplePhrase(quantity) : number.expected);
  const next = text.charCodeAt(number.end);
  if ((next === 0x2d || next === 0x2013) && isDigit(text.charCodeAt(number.end + 1))) {
    const word = endOfWord(text, number.end + 1);
    return readingProblem('number', text, at, word, `a range written with two points: ${text.slice(at, number.end).slice(0, 20)}..${text.slice(number.end + 1, word).slice(0, 20)}`);
  }
  const sign = text.charCodeAt(at);
  return { ok: true, at, end: number.end, value: number.value, isNegative: sign === 0x2d || sign === 0x2212, isGauge: false, unit: undefined };
}

/** `AWG 6`, `AWG 2/0`, `2/0`, `000`; undefined when the text is none of them. */
function readGauge(text: string, at: number): Term | undefined {
  const isNamed = text.slice(at, at + 3).toUpperCase() === 'AWG';
  const start = isNamed ? skipSpaces(text, at + 3) : at;
  let digits = start;
  while (digits - start < 3 && isDigit(text.charCodeAt(digits))) digits++;
  const isSlashed = digits > start && text.charCodeAt(digits) === 0x2f && text.charCodeAt(digits + 1) === 0x30 && !continuesNumber(text, digits + 2);
  let zeros = start;
  while (text.charCodeAt(zeros) === 0x30) zeros++;
  const areZeros = zeros - start >= 2 && zeros - start <= 4 && !continuesNumber(text, zeros);
  const unit = isNamed ? units.get('AWG')! : undefined;
  const term = { ok: true, at, isNegative: false, unit } as const;
  if (isSlashed) return { ...term, end: digits + 2, value: 1 - Number(text.slice(start, digits)), isGauge: true };
  if (areZeros) return { ...term, end: zeros, value: 1 - (zeros - start), isGauge: true };
  if (isNamed && digits > start && !continuesNumber(text, digits)) return { ...term, end: digits, value: Number(text.slice(start, digits)), isGauge: true };
  return undefined;
}

export const isDigit = (code: number): boolean => code >= 0x30 && code <= 0x39;
export const continuesNumber = (text: string, at: number): boolean => isDigit(text.charCodeAt(at)) || (text.charCodeAt(at) === 0x2e && isDigit(text.charCodeAt(at + 1)));
