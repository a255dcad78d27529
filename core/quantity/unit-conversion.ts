import type { QuantityName } from './quantity-table.ts';
import { unitOf, type UnitRow } from './unit-table.ts';
import { areaOfWireGauge, wireGaugeOfArea } from './wire-gauge.ts';

/**
 * The number that a value in SI has in a unit: 293.15 in `°C` is 20.
 *
 * @param si  value in the coherent SI unit of the quantity
 * @returns number in the unit; for `AWG` the gauge number, -1 for 2/0
 * Errors:  throws if the unit does not exist or does not serve the quantity
 */
export function toUnit(si: number, unitKey: string, quantity: QuantityName): number {
  return numberIn(unitOf(unitKey, quantity), si);
}

/** The value in SI of a number in a unit: the inverse of `toUnit`. */
export function fromUnit(number: number, unitKey: string, quantity: QuantityName): number {
  return siOf(unitOf(unitKey, quantity), number);
}

/** As `toUnit`, with the row at hand. */
export function numberIn(unit: UnitRow, si: number): number {
  return unit.scale === 'wire_gauge' ? wireGaugeOfArea(si) : (si - unit.offset) / unit.factor;
}

/** As `fromUnit`, with the row at hand. */
export function siOf(unit: UnitRow, number: number): number {
  return unit.scale === 'wire_gauge' ? areaOfWireGauge(number) : number * unit.factor + unit.offset;
}
