import type { Element, Network } from './element.ts';

/** One difference from a solved network. */
export type Change =
  /** another resistance [ohm] of any element that has one */
  | { readonly kind: 'resistance'; readonly element: string; readonly resistance: number }
  /** another voltage [V] of a source, supply or converter */
  | { readonly kind: 'voltage'; readonly element: string; readonly voltage: number }
  /** a switch made or not made; a relay: held so, whatever its coil says */
  | { readonly kind: 'closed'; readonly element: string; readonly closed: boolean }
  /** the element is cut out: nothing flows through it */
  | { readonly kind: 'open'; readonly element: string }
  /** a further resistor [ohm] between two nodes; its id in the result is `id`, or `JOIN_ID` */
  | { readonly kind: 'join'; readonly a: string; readonly b: string; readonly resistance: number; readonly id?: string };

export const JOIN_ID = '+';

/** The network with one change made; element order is kept and a further resistor comes last. */
export function changedNetwork(network: Network, change: Change): Network {
  if (change.kind === 'join') {
    return { nodes: network.nodes, elements: [...network.elements, { type: 'resistor', id: change.id ?? JOIN_ID, a: change.a, b: change.b, resistance: change.resistance }] };
  }
  let found = false;
  const elements = network.elements.map((element) => {
    if (element.id !== change.element) return element;
    found = true;
    return changed(element, change);
  });
  if (!found) throw new Error(`the network has no element ${change.element}`);
  return { nodes: network.nodes, elements };
}

function changed(element: Element, change: Exclude<Change, { kind: 'join' }>): Element {
  switch (change.kind) {
    case 'resistance':
      if (!('resistance' in element)) throw new Error(`${element.type} ${element.id} has no resistance`);
      return { ...element, resistance: change.resistance };
    case 'voltage':
      if (!('voltage' in element)) throw new Error(`${element.type} ${element.id} has no voltage`);
      return { ...element, voltage: change.voltage };
    case 'closed':
      if (element.type !== 'switch' && element.type !== 'relay') throw new Error(`${element.type} ${element.id} cannot be closed`);
      return { type: 'switch', id: element.id, a: element.a, b: element.b, closed: change.closed, resistance: element.resistance };
    case 'open':
      if (element.type === 'converter') return { ...element, minimumInput: Number.MAX_VALUE };
      return { type: 'switch', id: element.id, a: element.a, b: element.b, closed: false, resistance: 0 };
  }
}
