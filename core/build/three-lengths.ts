/**
 * Positions and sizes as three quantities, each under its own path: `parts.M1.at.x`, `.y`, `.z`.
 */
import type { Quantity } from '../quantity/quantity.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import { readQuantity } from '../quantity/read-quantity.ts';
import { placeWithin, quantityAt } from './quantity-at.ts';
import { wholeTriple } from './read-triple.ts';
import type { Reading } from './reading.ts';
import type { SourceScalar } from './source-tree.ts';

export const axes = ['x', 'y', 'z'] as const;

/** Reads three pieces of the text; undefined, with what is wrong reported, when one cannot be read. */
export function threeLengths(pieces: readonly { node: SourceScalar; text: string; at: number }[], quantity: 'length' | 'coordinate', path: string, reading: Reading, example: string): readonly Quantity[] | undefined {
  const whole = wholeTriple(pieces.map((piece) => piece.text));
  const lastMistake = mistakeOf(whole.at(-1), quantity, `${path}.z`, reading);
  const lengths: Quantity[] = [];
  pieces.forEach((piece, index) => {
    const here = `${path}.${axes[index]}`;
    const text = whole[index] ?? piece.text;
    reading.places.set(here, placeWithin(piece.node, piece.at, piece.text.length));
    // What the others take over from the last one is told once, there.
    if (index < 2 && lastMistake !== undefined && mistakeOf(text, quantity, here, reading) === lastMistake) return;
    const length = quantityAt(text, quantity, here, piece.node, text === piece.text ? piece.at : undefined, reading, example);
    if (length) lengths.push(length);
  });
  if (lengths.length !== 3) return undefined;
  for (const length of lengths) reading.quantities.set(length.path, length);
  return lengths;
}

function mistakeOf(text: string | undefined, quantity: QuantityName, path: string, reading: Reading): string | undefined {
  // read before without a mistake: the same again
  if (reading.quantitiesRead?.has(`${quantity} ${path} ${text}`)) return undefined;
  const read = readQuantity(text ?? '', quantity, '');
  return read.ok ? undefined : `${read.problem.reason} ${read.problem.found}`;
}
