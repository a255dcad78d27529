/**
 * Pieces of wire one behind the other with nothing between them: wherever such a chain parts, the rest of the car sees the same.
 */
import type { Element } from '../solve/element.ts';
import { REFERENCE_NODE } from '../solve/element.ts';

export interface Link { /** first element of the chain: one name for all of it */ readonly chain: string; /** nodes of the chain on the side of its start, up to the element; the start first */ readonly before: readonly string[]; /** on the other side, the end last */ readonly after: readonly string[] }

/** Pieces of a chain carry all its current with little of the voltage [ohm]. */
const PIECE = 0.5;

/**
 * @param elements  of the network, without its ties
 * @returns by element; elements that are no piece of a chain of two at least are not in it
 */
export function chainsOf(elements: readonly Element[]): ReadonlyMap<string, Link> {
  const at = new Map<string, string[]>();
  const pieces = new Map<string, Element & { readonly a: string; readonly b: string }>();
  const touch = (node: string, id: string): void => { const list = at.get(node); if (list) list.push(id); else at.set(node, [id]); };
  for (const element of elements) {
    if (element.type === 'converter') { for (const node of [...element.input, ...element.output]) touch(node, element.id); continue; }
    touch(element.a, element.id);
    touch(element.b, element.id);
    if (element.type === 'relay') for (const node of element.coil) touch(node, `${element.id} coil`);
    if (element.type === 'resistor' && element.resistance <= PIECE) pieces.set(element.id, element);
  }
  const isInner = (node: string): boolean => node !== REFERENCE_NODE && at.get(node)?.length === 2 && at.get(node)!.every((id) => pieces.has(id));
  const links = new Map<string, Link>();
  for (const first of pieces.values()) {
    if (links.has(first.id) || (!isInner(first.a) && !isInner(first.b))) continue;
    const ids = [first.id], nodes = [first.a, first.b];
    for (const end of ['start', 'end'] as const) {
      for (;;) {
        const node = end === 'end' ? nodes.at(-1)! : nodes[0]!;
        const here = end === 'end' ? ids.at(-1)! : ids[0]!;
        if (!isInner(node)) break;
        const next = at.get(node)!.find((id) => id !== here);
        const piece = next === undefined ? undefined : pieces.get(next);
        if (!piece || ids.includes(piece.id)) break;
        const other = piece.a === node ? piece.b : piece.a;
        if (end === 'end') { ids.push(piece.id); nodes.push(other); } else { ids.unshift(piece.id); nodes.unshift(other); }
      }
    }
    ids.forEach((id, index) => links.set(id, { chain: ids[0]!, before: nodes.slice(0, index + 1), after: nodes.slice(index + 1) }));
  }
  return links;
}
