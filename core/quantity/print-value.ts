import { quantities, type QuantityName } from './quantity-table.ts';
import { numberIn } from './unit-conversion.ts';
import { unitOf, type UnitRow } from './unit-table.ts';
import { isWireGauge, nameOfWireGauge } from './wire-gauge.ts';

export interface PrintOptions {
  /** whose preferred units to choose from; metric when absent */
  readonly system?: 'metric' | 'imperial' | undefined;
  /** key of the unit table; goes before `system` */
  readonly unit?: string | undefined;
  /** significant digits; absent: three, or four when the first is a 1. Digits before the point are never dropped */
  readonly digits?: number | undefined;
  /** `up` or `down` where a limit is near and the rounding must stay on the cautious side; absent: nearest */
  readonly rounding?: 'nearest' | 'up' | 'down' | undefined;
}

/**
 * A value with its unit, for a sentence: `31.5 kg`, `-12 °C`, `45°`, `85 %`, `2/0 AWG`.
 * The unit is the one that keeps the number between 1 and 1000 (seconds, minutes and hours change over at 120, 120 and 48).
 *
 * @param si  [SI]
 * Errors:  throws if the value is not finite, or the unit does not serve the quantity
 */
export function printValue(si: number, quantity: QuantityName, options: PrintOptions = {}): string {
  const { number, unit } = splitValue(si, quantity, options);
  return joinUnit(number, unit);
}

/** As `printValue`, in two pieces, for columns in which numbers and units are aligned; the unit of a plain number is ''. */
export function splitValue(si: number, quantity: QuantityName, options: PrintOptions = {}): { readonly number: string; readonly unit: string } {
  mustBeFinite(si, quantity);
  const unit = options.unit === undefined ? chooseUnit(si, quantity, options.system ?? 'metric') : usableUnit(unitOf(options.unit, quantity), si);
  if (unit.scale === 'wire_gauge') return { number: nameOfWireGauge(Math.round(numberIn(unit, si))), unit: unit.printed };
  return { number: printNumber(numberIn(unit, si), options.digits, options.rounding), unit: unit.printed };
}

/** Unit of the quantity's list in which the value reads best. */
export function chooseUnit(si: number, quantity: QuantityName, system: 'metric' | 'imperial'): UnitRow {
  const rows = quantities[quantity][system].map((key) => unitOf(key, quantity));
  const first = rows[0]!;
  if (rows.length === 1) return first;
  if (si === 0) return rows.reduce((best, row) => (Math.abs(Math.log(row.factor)) < Math.abs(Math.log(best.factor)) ? row : best), first);
  for (const row of rows) {
    const size = Math.abs(Number(numberIn(row, si).toPrecision(4)));
    if (size < (changeOver[row.key] ?? 1000)) return row;
  }
  return rows.at(-1)!;
}

/** The unit itself, or mm² where an area is no whole wire gauge. */
export function usableUnit(unit: UnitRow, si: number): UnitRow {
  return unit.scale === 'linear' || isWholeGauge(unit, si) ? unit : unitOf('mm²', 'area');
}

/** Significant digits of a number, without noise, exponent only far from 1, `-` for minus. */
export function printNumber(number: number, digits?: number, rounding: 'nearest' | 'up' | 'down' = 'nearest'): string {
  mustBeFinite(number, 'number');
  if (number === 0) return '0';
  const size = Math.abs(number);
  const places = digits ?? (size.toExponential(2).startsWith('1') ? 4 : 3);
  const exponent = Number(size.toExponential(Math.min(places - 1, 15)).split('e')[1]);
  if (exponent >= 7 || exponent < -4) {
    const [mantissa, power] = number.toExponential(15).split('e') as [string, string];
    return `${decimal(Number(mantissa) * 10 ** (Number(power) - exponent), Math.max(0, places - 1), rounding)}e${exponent}`;
  }
  return decimal(number, Math.max(0, places - 1 - exponent), rounding);
}

/** A number to so many decimals, zeros at the end dropped. */
export function decimal(number: number, decimals: number, rounding: 'nearest' | 'up' | 'down' = 'nearest'): string {
  const count = Math.min(decimals, 20);
  let text = number.toFixed(count);
  if (rounding !== 'nearest') {
    const step = 10 ** -count;
    const miss = Number(text) - number;
    // a rounding that is only the noise of the conversion is none
    if (rounding === 'up' && miss < -1e-9 * step - 1e-12 * Math.abs(number)) text = (Number(text) + step).toFixed(count);
    if (rounding === 'down' && miss > 1e-9 * step + 1e-12 * Math.abs(number)) text = (Number(text) - step).toFixed(count);
  }
  if (text.includes('.')) text = text.replace(/0+$/, '').replace(/\.$/, '');
  return text === '-0' ? '0' : text;
}

/** `31.5` and `kg` as one text; the degree of an angle stands close, as in SI. */
export function joinUnit(number: string, unit: string): string {
  return unit === '' ? number : unit === '°' ? `${number}°` : `${number} ${unit}`;
}

function isWholeGauge(unit: UnitRow, si: number): boolean {
  if (si <= 0) return false;
  const gauge = numberIn(unit, si);
  return Math.abs(gauge - Math.round(gauge)) < 1e-6 && isWireGauge(Math.round(gauge));
}

function mustBeFinite(value: number, quantity: string): void {
  if (!Number.isFinite(value)) throw new RangeError(`only finite values are printed; this ${quantity} is ${value}`);
}

/** from this number on the next larger unit reads better; 1000 where nothing is said */
const changeOver: Readonly<Record<string, number>> = { s: 120, min: 120, h: 48, 'US fl oz': 128 };
