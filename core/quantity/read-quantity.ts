import { bases, defaultTolerance, type Basis } from './basis.ts';
import { nearest } from './nearest-spelling.ts';
import type { QuantityName } from './quantity-table.ts';
import type { Quantity, SpreadShape } from './quantity.ts';
import { examplePhrase, unitPhrase, unitsInWords, withArticle } from './quantity-phrase.ts';
import { readNumber } from './read-number.ts';
import { continuesNumber, isDigit, readTerm, type Term } from './read-term.ts';
import { readTolerance, startsTolerance } from './read-tolerance.ts';
import { readingProblem, type ReadingProblem } from './reading-problem.ts';
import { siOf } from './unit-conversion.ts';
import { endOfWord, readUnit, skipSpaces, spellingsFor } from './unit-spelling.ts';
import { units, type UnitRow } from './unit-table.ts';
import { isWireGauge } from './wire-gauge.ts';

export type { ReadingProblem } from './reading-problem.ts';
export type QuantityReading = { readonly ok: true; readonly value: Quantity } | { readonly ok: false; readonly problem: ReadingProblem };

/**
 * Reads a quantity as a builder writes it: `31.5 kg ±0.5 measured`, `0.8..1.2 mF`, `350V`, `2/0 AWG`, `1 1/2 in`, `5 ft 3 in`.
 *
 *     [~] number unit [tolerance] [basis]        tolerance:  ±0.5   ±0.5 kg   ±2 %   +0.2/-0.1   (0.1..0.5 mΩ)
 *     [~] number ±number unit [basis]
 *     number..number unit [basis]
 *
 * - No basis is `estimate`, and so is `~`. No tolerance: the one of the basis, a share of the value; for a temperature the
 *   basis has one in kelvin. A share of nothing is nothing: `0 V` is exact.
 * - `±` and `+/-` limits are a 95 % interval (normal); a range and a bracketed range are uniform; `±0` is exact.
 * - A tolerance in % is a share of the value, except for a ratio, where % is the unit: `80 % ±5 %` is 75 to 85 %.
 *   A temperature takes no %; its tolerance is a difference (`62 °C ±2`, `±2 K`, `±2 °C` are the same).
 * - Only a plain number, and a ratio between 0 and 1, may stand without a unit.
 * - `5 ft 3 in` is a length; inches below 12.
 *
 * @param path  place in the build file, kept as the identity of the quantity
 * @returns limits in SI, low <= nominal <= high, all finite; or one problem with its place in the text
 * Errors:  never throws
 * Checked: read-quantity.test.ts
 */
export function readQuantity(text: string, quantity: QuantityName, path: string): QuantityReading {
  let p = skipSpaces(text, 0);
  if (p >= text.length) return readingProblem('empty', text, 0, text.length, examplePhrase(quantity), { said: 'nothing' });
  const isApproximate = text.charCodeAt(p) === 0x7e || text.charCodeAt(p) === 0x2248;
  if (isApproximate) p = skipSpaces(text, p + 1);

  const leading = readTerm(text, p, quantity);
  if (!leading.ok) return leading;
  let first = leading;
  p = skipSpaces(text, first.end);
  let unit: UnitRow | undefined = first.unit;
  if (unit === undefined && rangeSign(text, p) === 0) {
    const reading = readUnitOf(text, p, first, quantity, undefined);
    if ('ok' in reading) return reading;
    unit = reading.unit;
    p = skipSpaces(text, reading.end);
  }

  const sign = rangeSign(text, p);
  if (sign > 0) {
    const second = readTerm(text, skipSpaces(text, p + sign), quantity);
    if (!second.ok) return second;
    p = skipSpaces(text, second.end);
    let last = second.unit;
    if (last === undefined) {
      const reading = readUnitOf(text, p, second, quantity, unit);
      if ('ok' in reading) return reading;
      last = reading.unit;
      p = skipSpaces(text, reading.end);
    }
    if (last === undefined) return unitMissing(text, second.end, second.end, quantity);
    const low = toSi(text, first, unit ?? last, quantity);
    if (!low.ok) return low;
    const high = toSi(text, second, last, quantity);
    if (!high.ok) return high;
    if (low.si > high.si) {
      return readingProblem('range_order', text, first.at, second.end, last.scale === 'wire_gauge' ? 'the smaller wire first, which has the larger gauge number' : 'the smaller number first');
    }
    return readEnd(text, p, { quantity, path, unit: last, nominal: low.si + (high.si - low.si) / 2, low: low.si, high: high.si, shape: 'uniform', isStated: true }, isApproximate);
  }

  if (unit?.key === 'ft') {
    const inches = readInches(text, p, first.value);
    if (inches !== undefined) {
      if (!inches.ok) return inches;
      first = { ...first, value: first.isNegative ? first.value - inches.feet : first.value + inches.feet };
      p = skipSpaces(text, inches.end);
    }
  }

  let tolerance: { readonly below: number; readonly above: number; readonly shape: SpreadShape; readonly end: number } | undefined;
  let nominal: number;
  if (startsTolerance(text, p)) {
    const reading = readTolerance(text, p, quantity, unit);
    if (!reading.ok) return reading.problem.reason === 'unit_missing' ? unitMissing(text, first.end, first.end, quantity) : reading;
    unit ??= reading.unit;
    if (unit === undefined) return unitMissing(text, first.end, first.end, quantity);
    const si = toSi(text, first, unit, quantity);
    if (!si.ok) return si;
    nominal = si.si;
    if (reading.form === 'range') {
      if (reading.low > nominal || reading.high < nominal) return readingProblem('range_order', text, p, reading.end, 'a range around the value before it');
      tolerance = { below: nominal - reading.low, above: reading.high - nominal, shape: 'uniform', end: reading.end };
    } else {
      const size = reading.isShare ? Math.abs(nominal) : 1;
      tolerance = { below: reading.below * size, above: reading.above * size, shape: 'normal', end: reading.end };
    }
    p = skipSpaces(text, tolerance.end);
  } else {
    if (unit === undefined) return unitMissing(text, first.end, first.end, quantity);
    const si = toSi(text, first, unit, quantity);
    if (!si.ok) return si;
    nominal = si.si;
  }
  return readEnd(text, p, {
    quantity, path, unit, nominal,
    low: tolerance === undefined ? nominal : nominal - tolerance.below,
    high: tolerance === undefined ? nominal : nominal + tolerance.above,
    shape: tolerance?.shape ?? 'normal', isStated: tolerance !== undefined,
  }, isApproximate);
}

type Failed = Extract<QuantityReading, { ok: false }>;

/** The unit at `at`, or `fallback` when none stands there, or why neither; undefined unit when a tolerance may still bring it. */
function readUnitOf(text: string, at: number, term: Term, quantity: QuantityName, fallback: UnitRow | undefined): { readonly unit: UnitRow | undefined; readonly end: number } | Failed {
  const reading = readUnit(text, at, quantity);
  if (reading.outcome === 'found') return reading;
  if (fallback !== undefined && (reading.outcome === 'missing' || isBasis(text, at))) return { unit: fallback, end: at };
  const mayBePlain = quantity === 'number' || quantity === 'ratio';
  if (reading.outcome === 'missing') {
    if (mayBePlain) return { unit: units.get('1')!, end: at };
    if (startsTolerance(text, at)) return { unit: undefined, end: at };
    return unitMissing(text, term.end, term.end, quantity);
  }
  if (isBasis(text, at)) return mayBePlain ? { unit: units.get('1')!, end: at } : unitMissing(text, term.end, term.end, quantity);
  if (reading.outcome === 'elsewhere') return wrongQuantity(text, at, reading.end, reading.unit, quantity);
  const word = text.slice(at, reading.end);
  if (isDigit(text.charCodeAt(at))) return readingProblem('number', text, term.at, reading.end, 'one number: no gaps between its digits');
  const close = spellingsFor(quantity).has(`US ${word}`) ? `US ${word}` : nearest(word, spellingsFor(quantity).keys());
  const suggestion = close === undefined ? undefined : spellingsFor(quantity).get(close)!.printed;
  if (suggestion === undefined && nearest(word, Object.keys(bases)) !== undefined) {
    if (mayBePlain) return { unit: units.get('1')!, end: at };
    return unitMissing(text, term.end, term.end, quantity);
  }
  if (mayBePlain && suggestion === undefined) return readingProblem('trailing', text, at, reading.end, quantity === 'number' ? 'a plain number without a unit' : 'a share: 0.85 or 85 %');
  return readingProblem('unit_unknown', text, at, reading.end, unitPhrase(quantity), { nearest: suggestion });
}

function unitMissing(text: string, at: number, end: number, quantity: QuantityName): Failed {
  return readingProblem('unit_missing', text, at, end, unitPhrase(quantity), { said: 'no unit' });
}

function wrongQuantity(text: string, at: number, end: number, unit: UnitRow, quantity: QuantityName): Failed {
  const word = text.slice(at, end);
  if (quantity === 'temperature_difference') {
    const twin = unit.key === '°C' ? 'K' : unit.key === '°F' ? '°F diff' : undefined;
    if (twin !== undefined) return readingProblem('wrong_quantity', text, at, end, `a temperature difference in K: a rise of 5 °C is written 5 K, one of 9 °F is written 9 °F diff or 5 K`, { nearest: twin });
  }
  if (quantity === 'pressure_absolute' && unit.serves.includes('pressure_gauge')) {
    const absolute = units.get(`${unit.key.replace('_gauge', '')}_abs`)?.printed;
    return readingProblem('wrong_quantity', text, at, end, `an absolute pressure, which says so: ${absolute ?? 'kPa abs or bar abs'}`, { nearest: absolute });
  }
  if ((quantity === 'pressure_gauge' || quantity === 'pressure_difference') && unit.serves.includes('pressure_absolute')) {
    return readingProblem('wrong_quantity', text, at, end, `${withArticle(quantity)}, not an absolute one: ${unitsInWords(quantity)}`, { nearest: units.get(unit.key.replace('_abs', ''))?.printed });
  }
  const owner = unit.serves[0]!;
  return readingProblem('wrong_quantity', text, at, end, unitPhrase(quantity), { said: `${word} (${withArticle(owner)})` });
}

function toSi(text: string, term: Term, unit: UnitRow, quantity: QuantityName): { ok: true; si: number } | Failed {
  if (unit.scale === 'wire_gauge') {
    if (!isWireGauge(term.value) || (!term.isGauge && term.value < 0)) return readingProblem('number', text, term.at, term.end, 'a wire gauge: a whole number up to 56, or 1/0 to 4/0');
  } else if (term.isGauge) {
    return readingProblem('wrong_quantity', text, term.at, term.end, `AWG after a wire gauge such as ${text.slice(term.at, term.end)}, or an area in ${unitsInWords(quantity)}`, { nearest: 'AWG' });
  }
  if (quantity === 'ratio' && unit.key === '1' && (term.value < 0 || term.value > 1)) {
    return readingProblem('unit_missing', text, term.at, term.end, 'a share between 0 and 1, or a number with %', { nearest: '%' });
  }
  const si = siOf(unit, term.value);
  if (!Number.isFinite(si)) return readingProblem('number', text, term.at, term.end, 'a finite number');
  if (quantity === 'temperature' && si < 0) return readingProblem('number', text, term.at, term.end, 'a temperature above absolute zero, -273.15 °C');
  return { ok: true, si };
}

/** The `3 in` of `5 ft 3 in`, in feet; undefined when no number follows. */
function readInches(text: string, at: number, feet: number): { ok: true; feet: number; end: number } | Failed | undefined {
  if (!continuesNumber(text, at)) return undefined;
  const number = readNumber(text, at);
  if (!number.ok) return readingProblem(number.reason, text, number.at, number.at + number.length, number.expected);
  const unit = readUnit(text, skipSpaces(text, number.end), 'length');
  if (unit.outcome !== 'found' || unit.unit.key !== 'in') return readingProblem('trailing', text, at, number.end, 'inches after feet, as in 5 ft 3 in');
  if (number.value >= 12 || !Number.isInteger(feet)) return readingProblem('number', text, at, number.end, 'whole feet and less than 12 inches, as in 5 ft 3 in');
  return { ok: true, feet: number.value / 12, end: unit.end };
}

interface Draft { quantity: QuantityName; path: string; unit: UnitRow; nominal: number; low: number; high: number; shape: SpreadShape; isStated: boolean }

/** Reads the basis and the end of the text, and fills in the tolerance of the basis when none was stated. */
function readEnd(text: string, at: number, draft: Draft, isApproximate: boolean): QuantityReading {
  let basis: Basis = 'estimate';
  if (at < text.length) {
    const end = endOfWord(text, at);
    const word = text.slice(at, Math.min(end, at + 40)).toLowerCase();
    if (end === at || !Object.hasOwn(bases, word)) {
      const close = end === at ? undefined : nearest(word, Object.keys(bases));
      const list = Object.keys(bases).join(', ');
      return close === undefined
        ? readingProblem('trailing', text, at, text.length, `nothing more, a tolerance such as ±2 %, or one of ${list}`)
        : readingProblem('basis', text, at, end, `one of ${list}`, { nearest: close });
    }
    basis = word as Basis;
    if (isApproximate && basis !== 'estimate') return readingProblem('basis', text, at, end, `either ~, which is an estimate, or ${basis}`);
    const rest = skipSpaces(text, end);
    if (rest < text.length) return readingProblem('trailing', text, rest, text.length, `nothing after ${basis}`);
  }
  let { low, high } = draft;
  if (!draft.isStated) {
    const tolerance = defaultTolerance(draft.quantity, draft.nominal, basis);
    low = draft.nominal - tolerance;
    high = draft.nominal + tolerance;
  }
  if (!Number.isFinite(low) || !Number.isFinite(high) || !Number.isFinite(draft.nominal)) return readingProblem('number', text, 0, text.length, 'finite numbers');
  const value: Quantity = {
    quantity: draft.quantity, nominal: draft.nominal, low: Math.min(low, draft.nominal), high: Math.max(high, draft.nominal),
    shape: low === high ? 'exact' : draft.shape, basis, toleranceIsStated: draft.isStated, unit: draft.unit.key, path: draft.path,
  };
  return { ok: true, value };
}

function isBasis(text: string, at: number): boolean {
  const end = endOfWord(text, at);
  return end - at <= 10 && Object.hasOwn(bases, text.slice(at, end).toLowerCase());
}

/** length of `..` or `…` at `at`, else 0 */
function rangeSign(text: string, at: number): number {
  if (text.charCodeAt(at) === 0x2026) return 1;
  return text.charCodeAt(at) === 0x2e && text.charCodeAt(at + 1) === 0x2e ? 2 : 0;
}
