import type { Quantity } from './quantity.ts';
import { chooseUnit, decimal, joinUnit, usableUnit, type PrintOptions } from './print-value.ts';
import { numberIn } from './unit-conversion.ts';
import { unitOf, type UnitRow } from './unit-table.ts';
import { nameOfWireGauge } from './wire-gauge.ts';

export { printValue, splitValue, type PrintOptions } from './print-value.ts';
export { fromUnit, toUnit } from './unit-conversion.ts';

export interface PrintQuantityOptions extends Pick<PrintOptions, 'system' | 'unit'> {
  /** `stated` (when absent): only what the builder wrote; `always`: the default one of the basis too; `never` */
  readonly tolerance?: 'stated' | 'always' | 'never';
  /** false leaves the basis out */
  readonly basis?: boolean;
}

/**
 * A quantity as the builder would write it: `31.5 kg ±0.5 measured`, `0.8..1.2 mF estimate`, `2/0 AWG label`.
 * In the unit it was written in, unless a unit or system is asked for. Numbers that were short stay as they were; longer ones
 * (another unit, 1/3 in) are cut where the tolerance makes them meaningless. `readQuantity` reads it back.
 *
 * Errors: throws if the unit does not serve the quantity
 */
export function printQuantity(q: Quantity, options: PrintQuantityOptions = {}): string {
  const tolerance = Math.max(q.high - q.nominal, q.nominal - q.low);
  return write(q, options, (number, unit) => cut(number, tolerance / unit.factor));
}

/** As `printQuantity`, with every digit that a double keeps through a conversion: reading it back gives the same quantity. */
export function rewriteQuantity(q: Quantity, options: Pick<PrintOptions, 'system' | 'unit'> = {}): string {
  return write(q, options, (number) => String(Number(number.toPrecision(14))));
}

function write(q: Quantity, options: PrintQuantityOptions, print: (number: number, unit: UnitRow) => string): string {
  const asked = options.unit !== undefined ? unitOf(options.unit, q.quantity)
    : options.system !== undefined ? chooseUnit(q.nominal, q.quantity, options.system) : unitOf(q.unit, q.quantity);
  const shows = options.tolerance === 'always' || (options.tolerance !== 'never' && q.toleranceIsStated);
  const isRange = shows && q.shape === 'uniform';
  let unit = isRange && asked.scale === 'wire_gauge' ? unitOf('mm²', 'area') : usableUnit(asked, q.nominal);
  // a bare ratio is read between 0 and 1 only
  if (unit.key === '1' && q.quantity === 'ratio' && (q.nominal < 0 || q.nominal > 1 || (isRange && (q.low < 0 || q.high > 1)))) unit = unitOf('%', 'ratio');
  const basis = options.basis === false ? '' : ` ${q.basis}`;
  const at = (si: number): string => print(numberIn(unit, si), unit);
  if (isRange && isMiddle(q)) return joinUnit(`${at(q.low)}..${at(q.high)}`, unit.printed) + basis;
  const nominal = unit.scale === 'wire_gauge' ? nameOfWireGauge(Math.round(numberIn(unit, q.nominal))) : at(q.nominal);
  const head = joinUnit(nominal, unit.printed);
  if (!shows || (q.shape === 'exact' && !q.toleranceIsStated)) return head + basis;
  if (isRange) return `${head} (${at(q.low)}..${at(q.high)})${basis}`;
  return `${head} ${limits(q, unit, print)}${basis}`;
}

/** `±0.5`, `±30 %` or `+0.2/-0.1`: % where it is the shorter of the two */
function limits(q: Quantity, unit: UnitRow, print: (number: number, unit: UnitRow) => string): string {
  const isGauge = unit.scale === 'wire_gauge';
  const own = isGauge ? unitOf('mm²', 'area') : unit;
  const [below, above] = [q.nominal - q.low, q.high - q.nominal];
  const isEven = Math.abs(above - below) <= 1e-9 * Math.max(above, below) + 1e-13 * Math.abs(q.nominal);
  const takesShare = q.quantity !== 'ratio' && q.quantity !== 'temperature' && q.nominal !== 0;
  const share = takesShare ? (100 * above) / Math.abs(q.nominal) : Number.NaN;
  const tail = isGauge ? ' mm²' : unit.key === '%' || unit.key === '‰' ? ` ${unit.key}` : '';
  if (!isEven) return `+${print(above / own.factor, own)}/-${print(below / own.factor, own)}${tail}`;
  if (above > 0 && takesShare && digitsOf(share) < digitsOf(above / own.factor)) return `±${Number(share.toPrecision(9))} %`;
  return `±${print(above / own.factor, own)}${tail}`;
}

/** A number as it stands when it is short; else to the second digit of its tolerance, six digits where there is none. */
function cut(number: number, tolerance: number): string {
  if (number === 0) return '0';
  const rounded = Number(number.toPrecision(6));
  const size = Math.floor(Math.log10(Math.abs(number)));
  const isShort = Math.abs(number - rounded) <= 1e-9 * Math.abs(number);
  const finest = tolerance > 0 ? Math.floor(Math.log10(tolerance)) - 1 : size - 5;
  // never fewer than two digits: the tolerance itself and values within it pass here too
  const decimals = isShort ? 5 - size : -Math.min(finest, size - 1);
  if (size >= 9 || size < -5) return String(Number(number.toPrecision(isShort ? 6 : Math.max(2, Math.min(15, size - finest + 1)))));
  return decimal(number, Math.max(0, decimals));
}

function digitsOf(number: number): number {
  return Number(number.toPrecision(9)).toExponential().split('e')[0]!.replace(/[-.]/g, '').length;
}

function isMiddle(q: Quantity): boolean {
  return Math.abs(q.low + (q.high - q.low) / 2 - q.nominal) <= 1e-9 * (q.high - q.low) + 1e-12 * Math.abs(q.nominal);
}
