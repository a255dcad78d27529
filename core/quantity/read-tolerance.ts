import type { QuantityName } from './quantity-table.ts';
import { readNumber } from './read-number.ts';
import { readingProblem, type ReadingProblem } from './reading-problem.ts';
import { siOf } from './unit-conversion.ts';
import { readUnit, skipSpaces } from './unit-spelling.ts';
import type { UnitRow } from './unit-table.ts';

export type ToleranceReading =
  /** distances to the limits; as a share of the value when `isShare`, else [SI] */
  | { readonly ok: true; readonly form: 'distance'; readonly below: number; readonly above: number; readonly isShare: boolean; readonly unit: UnitRow | undefined; readonly end: number }
  /** the limits themselves [SI] */
  | { readonly ok: true; readonly form: 'range'; readonly low: number; readonly high: number; readonly unit: UnitRow | undefined; readonly end: number }
  | { readonly ok: false; readonly problem: ReadingProblem };

/** True where a tolerance begins: `±`, `+/-`, `+0.2`, `(`. */
export function startsTolerance(text: string, at: number): boolean {
  const code = text.charCodeAt(at);
  return code === 0xb1 || code === 0x2b || code === 0x28;
}

/**
 * Reads the tolerance at `at`: `±0.5`, `±2 %`, `+/-0.5 kg`, `+0.2/-0.1`, `(0.1..0.5 mΩ)`. Call only where `startsTolerance`.
 *
 * @param valueUnit  unit of the value before it, the default here; undefined when the value had none, then the tolerance's
 *                   own unit holds for both and comes back as `unit`
 */
export function readTolerance(text: string, at: number, quantity: QuantityName, valueUnit: UnitRow | undefined): ToleranceReading {
  if (text.charCodeAt(at) === 0x28) return readBracketed(text, at, quantity, valueUnit);
  const sign = signLength(text, at);
  if (sign === 0) return readUnlike(text, at, quantity, valueUnit);
  const one = readOne(text, skipSpaces(text, at + sign), quantity, at);
  if (!one.ok) return one;
  const size = sizeOf(text, at, one, one.unit ?? valueUnit);
  if (!size.ok) return size;
  return { ok: true, form: 'distance', below: size.size, above: size.size, isShare: one.isShare, unit: bringsUnit(one, quantity), end: one.end };
}

interface One { readonly ok: true; readonly number: number; readonly isShare: boolean; readonly unit: UnitRow | undefined; readonly end: number }
type Failed = Extract<ToleranceReading, { ok: false }>;

/** one number with its unit or % */
function readOne(text: string, at: number, quantity: QuantityName, from: number): One | Failed {
  const number = readNumber(text, at);
  if (!number.ok) return readingProblem(number.reason === 'decimal_comma' ? 'decimal_comma' : 'tolerance', text, number.at, number.at + number.length, number.expected === 'a number' ? 'a tolerance such as ±0.5 or ±2 %' : number.expected);
  const sign = text.charCodeAt(at);
  if (sign === 0x2d || sign === 0x2212) return readingProblem('tolerance', text, from, number.end, 'a tolerance that is not negative');
  const afterNumber = skipSpaces(text, number.end);
  if (quantity !== 'ratio' && text.charCodeAt(afterNumber) === 0x25) {
    if (quantity === 'temperature') return readingProblem('tolerance', text, from, afterNumber + 1, 'a tolerance in K: a temperature has no zero to take a share from', { nearest: 'K' });
    return { ok: true, number: number.value / 100, isShare: true, unit: undefined, end: afterNumber + 1 };
  }
  // °C ±2 °C is how people write it; as a tolerance it can only be a difference
  for (const candidate of differencesOf(quantity)) {
    const unit = readUnit(text, afterNumber, candidate);
    if (unit.outcome === 'found') return { ok: true, number: number.value, isShare: false, unit: unit.unit, end: unit.end };
  }
  return { ok: true, number: number.value, isShare: false, unit: undefined, end: number.end };
}

/** `+0.2/-0.1 mm`, `+0.2 -0.1` */
function readUnlike(text: string, at: number, quantity: QuantityName, valueUnit: UnitRow | undefined): ToleranceReading {
  const expected = 'a tolerance such as ±0.5, ±2 % or +0.2/-0.1';
  const above = readOneUp(text, skipSpaces(text, at + 1), quantity, at);
  if (!above.ok) return above;
  let p = skipSpaces(text, above.end);
  if (text.charCodeAt(p) === 0x2f) p = skipSpaces(text, p + 1);
  if (text.charCodeAt(p) !== 0x2d && text.charCodeAt(p) !== 0x2212) return readingProblem('tolerance', text, at, above.end, expected);
  const below = readOne(text, skipSpaces(text, p + 1), quantity, at);
  if (!below.ok) return below;
  if (above.isShare !== below.isShare) return readingProblem('tolerance', text, at, below.end, 'both limits in % or both in a unit');
  const up = sizeOf(text, at, above, above.unit ?? below.unit ?? valueUnit);
  if (!up.ok) return up;
  const down = sizeOf(text, at, below, below.unit ?? valueUnit ?? above.unit);
  if (!down.ok) return down;
  return { ok: true, form: 'distance', below: down.size, above: up.size, isShare: above.isShare, unit: bringsUnit(below.unit ? below : above, quantity), end: below.end };
}

/** as `readOne`, for the upper limit, after which a slash may follow at once (`+0.2/-0.1`) */
function readOneUp(text: string, at: number, quantity: QuantityName, from: number): One | Failed {
  const slash = text.indexOf('/', at);
  const isJoined = slash >= 0 && slash - at < 40 && (text.charCodeAt(skipSpaces(text, slash + 1)) === 0x2d || text.charCodeAt(skipSpaces(text, slash + 1)) === 0x2212);
  return isJoined ? readOne(text.slice(0, slash), at, quantity, from) : readOne(text, at, quantity, from);
}

/** `(0.1..0.5 mΩ)` */
function readBracketed(text: string, at: number, quantity: QuantityName, valueUnit: UnitRow | undefined): ToleranceReading {
  const expected = 'a range in brackets such as (0.1..0.5)';
  const low = readNumber(text, skipSpaces(text, at + 1));
  if (!low.ok) return readingProblem(low.reason === 'decimal_comma' ? 'decimal_comma' : 'tolerance', text, low.at, low.at + low.length, low.expected === 'a number' ? expected : low.expected);
  let p = skipSpaces(text, low.end);
  const dots = text.charCodeAt(p) === 0x2026 ? 1 : text.startsWith('..', p) ? 2 : 0;
  if (dots === 0) return readingProblem('tolerance', text, at, p, expected);
  const high = readNumber(text, skipSpaces(text, p + dots));
  if (!high.ok) return readingProblem(high.reason === 'decimal_comma' ? 'decimal_comma' : 'tolerance', text, high.at, high.at + high.length, high.expected === 'a number' ? expected : high.expected);
  p = skipSpaces(text, high.end);
  const own = readUnit(text, p, quantity);
  const unit = own.outcome === 'found' ? own.unit : valueUnit;
  if (own.outcome === 'found') p = skipSpaces(text, own.end);
  if (text.charCodeAt(p) !== 0x29) return readingProblem('tolerance', text, at, p, `${expected}, closed by a bracket`);
  if (unit === undefined) return readingProblem('unit_missing', text, at, p, 'a unit after the value', { said: 'no unit' });
  if (unit.scale === 'wire_gauge') return readingProblem('tolerance', text, at, p + 1, 'the range of a wire gauge in mm²');
  if (low.value > high.value) return readingProblem('range_order', text, at, p + 1, 'the smaller number first');
  const limits = [siOf(unit, low.value), siOf(unit, high.value)] as const;
  if (!limits.every(Number.isFinite)) return readingProblem('number', text, at, p + 1, 'finite numbers');
  return { ok: true, form: 'range', low: limits[0], high: limits[1], unit, end: p + 1 };
}

function sizeOf(text: string, at: number, one: One, unit: UnitRow | undefined): { ok: true; size: number } | Failed {
  if (one.isShare) return { ok: true, size: one.number };
  if (unit === undefined) return readingProblem('unit_missing', text, at, at, 'a unit after the value', { said: 'no unit' });
  if (unit.scale === 'wire_gauge') return readingProblem('tolerance', text, at, one.end, 'a tolerance of a wire gauge in % or mm²');
  return { ok: true, size: one.number * unit.factor };
}

/** A tolerance gives its unit to a bare value, except where it could be a mere difference. */
function bringsUnit(one: One, quantity: QuantityName): UnitRow | undefined {
  if (one.unit === undefined || !one.unit.serves.includes(quantity)) return undefined;
  return quantity === 'temperature' && one.unit.key === 'K' ? undefined : one.unit;
}

function differencesOf(quantity: QuantityName): readonly QuantityName[] {
  if (quantity === 'temperature') return ['temperature_difference', 'temperature'];
  if (quantity === 'temperature_difference') return ['temperature_difference', 'temperature'];
  if (quantity === 'pressure_absolute' || quantity === 'pressure_gauge') return [quantity, 'pressure_difference'];
  return [quantity];
}

/** length of `±`, `+/-`, `+-` at `at`, else 0 */
function signLength(text: string, at: number): number {
  if (text.charCodeAt(at) === 0xb1) return 1;
  const isMinus = (code: number): boolean => code === 0x2d || code === 0x2212;
  if (text.charCodeAt(at + 1) === 0x2f && isMinus(text.charCodeAt(at + 2))) return 3;
  return isMinus(text.charCodeAt(at + 1)) ? 2 : 0;
}
