/**
 * A catalogue row as a quantity: its value is the middle of what is drawn, the range of the trade holds 19 of 20 draws.
 */
import type { Quantity } from '../quantity/quantity.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import { readQuantity } from '../quantity/read-quantity.ts';
import type { Catalogue } from '../part/catalogue.ts';

/**
 * @param row       key of the catalogue row
 * @param quantity  the quantity that the field expects
 * @returns the quantity with basis `handbook` and path `handbook:<row>`: all readers of one row share one uncertain variable
 * Errors: throws when the row is missing, cannot be read or is another quantity (the catalogue is part of the program)
 */
export function handbookValue(catalogue: Catalogue, row: string, quantity: QuantityName): Quantity {
  let known = valuesRead.get(catalogue);
  if (!known) valuesRead.set(catalogue, (known = new Map()));
  const key = `${row} ${quantity}`;
  let value = known.get(key);
  if (!value) known.set(key, (value = readRow(catalogue, row, quantity)));
  return value;
}

/** Rows do not change: each is read once for a catalogue. */
const valuesRead = new WeakMap<Catalogue, Map<string, Quantity>>();

function readRow(catalogue: Catalogue, row: string, quantity: QuantityName): Quantity {
  const found = catalogue.rows.get(row);
  if (!found) throw new Error(`a field names handbook row ${row}, which the catalogue does not have`);
  if (found.quantity !== quantity) throw new Error(`handbook row ${row} is a ${found.quantity}, its field expects a ${quantity}`);
  const path = `handbook:${row}`;
  const value = readQuantity(found.value, quantity, path);
  const range = readQuantity(found.range, quantity, path);
  if (!value.ok) throw new Error(`handbook row ${row} has the value ${found.value}: ${value.problem.expected}`);
  if (!range.ok) throw new Error(`handbook row ${row} has the range ${found.range}: ${range.problem.expected}`);
  const { nominal, unit } = value.value;
  const { low, high } = range.value;
  if (nominal < low || nominal > high) throw new Error(`handbook row ${row}: the value ${found.value} lies outside its range ${found.range}`);
  return { quantity, nominal, low, high, shape: low === high ? 'exact' : 'normal', basis: 'handbook', toleranceIsStated: true, unit, path };
}
