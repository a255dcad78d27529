/**
 * A quantity out of a stretch of the text, with its mistakes at the very characters.
 */
import type { Quantity } from '../quantity/quantity.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import { readQuantity } from '../quantity/read-quantity.ts';
import type { Place } from './place.ts';
import type { Reading } from './reading.ts';
import type { SourceScalar } from './source-tree.ts';

/**
 * @param node  scalar of the file that the text comes from
 * @param at    offset of the text in it; undefined when the text was put together and is blamed on the whole scalar
 * @returns undefined when it cannot be read, which is reported
 */
export function quantityAt(text: string, quantity: QuantityName, path: string, node: SourceScalar, at: number | undefined, reading: Reading, example: string): Quantity | undefined {
  const key = reading.quantitiesRead && `${quantity} ${path} ${text}`;
  const known = key === undefined ? undefined : reading.quantitiesRead?.get(key);
  const read = known ? { ok: true as const, value: known } : readQuantity(text, quantity, path);
  if (read.ok) {
    if (key !== undefined && !known) reading.quantitiesRead?.set(key, read.value);
    return read.value;
  }
  const { reason, found, expected, nearest: near } = read.problem;
  const place = at === undefined ? node.place : placeWithin(node, at + read.problem.at, read.problem.length);
  reading.report({ code: isWrongQuantity(reason) ? 'wrong_quantity' : 'bad_value', path, place, found, expected: `${expected}, such as ${example}`, nearest: near });
  return undefined;
}

function isWrongQuantity(reason: string): boolean {
  return reason === 'wrong_quantity';
}

/** Place of some characters inside a scalar that stands on one line; the whole scalar otherwise. */
export function placeWithin(node: SourceScalar, at: number, length: number): Place {
  const { line, column, offset, end } = node.place;
  const start = at + (node.isQuoted ? 1 : 0);
  if (end - offset !== node.text.length + (node.isQuoted ? 2 : 0) || offset + start > end) return node.place;
  return { line, column: column + start, offset: offset + start, end: Math.min(end, offset + start + Math.max(1, length)) };
}
