/** An axis of a plot: a unit that reads well, ends and ticks at round numbers. Plain data. */
import { chooseUnit, printNumber } from '../../core/quantity/print-value.ts';
import type { QuantityName } from '../../core/quantity/quantity-table.ts';
import { numberIn, siOf } from '../../core/quantity/unit-conversion.ts';
import { unitOf } from '../../core/quantity/unit-table.ts';
import type { UnitChoice } from '../unit-choice.ts';

export interface Axis {
  /** what it measures, without the unit */
  readonly label: string;
  readonly unit: string;
  /** ends [SI] */
  readonly from: number; readonly to: number;
  readonly ticks: readonly { /** [SI] */ readonly at: number; readonly text: string }[];
}

/**
 * @param from, to  what must be on it [SI]; equal or reversed ends are widened
 * @param count     about how many ticks
 */
export function niceAxis(label: string, quantity: QuantityName, from: number, to: number, units: UnitChoice, count = 7): Axis {
  const reach = Math.max(Math.abs(from), Math.abs(to)) || 1;
  const key = units.byQuantity?.[quantity];
  const unit = key === undefined ? chooseUnit(reach, quantity, units.system) : unitOf(key, quantity);
  const [low, high] = [numberIn(unit, from), numberIn(unit, to)];
  const span = high > low ? high - low : Math.max(Math.abs(low), 1);
  const step = niceStep(span / count);
  const first = Math.floor(low / step + 1e-9);
  const last = Math.max(first + 1, Math.ceil((low + span) / step - 1e-9));
  const si = (shown: number): number => siOf(unit, shown);
  return {
    label, unit: unit.printed, from: si(first * step), to: si(last * step),
    ticks: Array.from({ length: last - first + 1 }, (_, index) => { const shown = Number(((first + index) * step).toPrecision(12)); return { at: si(shown), text: printNumber(shown, 4) }; }),
  };
}

/** The next of 1, 2, 5 times a power of ten. > 0 for a size > 0 */
export function niceStep(size: number): number {
  const power = 10 ** Math.floor(Math.log10(size));
  const share = size / power;
  return power * (share <= 1 + 1e-9 ? 1 : share <= 2 + 1e-9 ? 2 : share <= 5 + 1e-9 ? 5 : 10);
}
