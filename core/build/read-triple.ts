/**
 * Positions and sizes: three lengths that share what only one of them says.
 * `[980, -310, 340 mm ±2 measured]`: the unit, tolerance and basis of the last item hold for every item without its own.
 */
import { bases } from '../quantity/basis.ts';

interface Split { readonly number: string; readonly unit: string; readonly tolerance: string; readonly basis: string }

/**
 * @param items  the three items as typed
 * @returns the three items, each a whole quantity
 */
export function wholeTriple(items: readonly string[]): readonly string[] {
  const last = items[items.length - 1];
  if (last === undefined) return items;
  const tail = split(last);
  return items.map((item) => {
    const own = split(item);
    const unit = own.unit || tail.unit;
    const tolerance = own.tolerance ? withUnit(own.tolerance, unit) : withUnit(tail.tolerance, tail.unit);
    return [`${own.number}${unit === '"' || unit === "'" ? '' : ' '}${unit}`, tolerance, own.basis || tail.basis].filter((word) => word !== '').join(' ');
  });
}

/** The three pieces of `385 x 150 x 110 mm`, each with its offset in the text; undefined when there are not three. */
export function sizePieces(text: string): readonly { readonly text: string; readonly at: number }[] | undefined {
  const pieces: { text: string; at: number }[] = [];
  const separator = /\s*[x×]\s*/g;
  let from = 0;
  for (const found of text.matchAll(separator)) {
    pieces.push({ text: text.slice(from, found.index), at: from });
    from = found.index + found[0].length;
  }
  pieces.push({ text: text.slice(from), at: from });
  return pieces.length === 3 && pieces.every((piece) => piece.text !== '') ? pieces : undefined;
}

function split(item: string): Split {
  const basisFound = /(?:^|\s)([a-z]+)\s*$/.exec(item);
  const basis = basisFound?.[1] !== undefined && Object.hasOwn(bases, basisFound[1]) ? basisFound[1] : '';
  const rest = basis === '' ? item.trim() : item.slice(0, basisFound?.index).trim();
  const toleranceAt = rest.search(/±|\+\/-|\+-/);
  const tolerance = toleranceAt === -1 ? '' : rest.slice(toleranceAt).trim();
  const size = toleranceAt === -1 ? rest : rest.slice(0, toleranceAt).trim();
  const number = /^[+\-−]?[\d\s.,/]*(?:\d[eE][+-]?\d+)?(?:\.\.\s*[+\-−]?[\d\s.,/]*)?/.exec(size)?.[0] ?? '';
  return { number: number.trim(), unit: size.slice(number.length).trim(), tolerance, basis };
}

/** `±2` means two of the unit it was written behind, also once it stands behind another item. */
function withUnit(tolerance: string, unit: string): string {
  return /\d\s*$/.test(tolerance) && unit !== '' ? `${tolerance} ${unit}` : tolerance;
}
