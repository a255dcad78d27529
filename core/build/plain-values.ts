/**
 * Field values with every quantity turned into the plain number that it takes in a draw.
 */
import type { Quantity } from '../quantity/quantity.ts';
import type { FieldValue, FieldValues } from './build.ts';

/** One draw: the number a quantity takes. */
export type ValueOf = (quantity: Quantity) => number;
/** The nominal draw: every quantity at its best value. */
export const nominal: ValueOf = (quantity) => quantity.nominal;

export type Plain = Readonly<Record<string, unknown>>;

/** Quantities become the numbers of the draw; everything else stays. */
export function plainValues(values: FieldValues, valueOf: ValueOf): Plain {
  const plain: Record<string, unknown> = {};
  for (const name in values) plain[name] = plainValue(values[name] as FieldValue, valueOf);
  return plain;
}

export function plainValue(value: FieldValue, valueOf: ValueOf): unknown {
  if (typeof value !== 'object') return value;
  if (isQuantity(value)) return valueOf(value);
  if (Array.isArray(value)) return value.map((item: FieldValue) => plainValue(item, valueOf));
  return plainValues(value as FieldValues, valueOf);
}

/** A quantity, as against a group or map whose keys the builder may have chosen. */
export function isQuantity(value: FieldValue | undefined): value is Quantity {
  if (typeof value !== 'object') return false;
  const { nominal: best, basis, path } = value as Partial<Quantity>;
  return typeof best === 'number' && typeof basis === 'string' && typeof path === 'string';
}
