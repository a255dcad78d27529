/**
 * Fields with every quantity at its best value, as a kind's port function wants them.
 */
import type { Quantity } from '../quantity/quantity.ts';
import type { FieldValue, FieldValues } from './build.ts';

export function nominalFields(fields: FieldValues): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(fields).map(([name, value]) => [name, nominalValue(value)]));
}

function nominalValue(value: FieldValue): unknown {
  if (typeof value !== 'object') return value;
  if (Array.isArray(value)) return value.map((item: FieldValue) => nominalValue(item));
  return isQuantity(value as Quantity | FieldValues) ? (value as Quantity).nominal : nominalFields(value as FieldValues);
}

function isQuantity(value: Quantity | FieldValues): value is Quantity {
  return typeof value['nominal'] === 'number' && typeof value['basis'] === 'string' && typeof value['path'] === 'string';
}
