/**
 * A fault as changes of the car's network: plain data that can be kept, compared and applied to any state of the car.
 */
import { REFERENCE_NODE } from '../solve/element.ts';
import type { Element, Network } from '../solve/element.ts';
import type { ElementChange } from '../part/failure.ts';

/** Elements and points by their names in the network. An element that a state does not have (a run left off) is left alone. */
export type FaultChange =
  | { readonly is: 'open'; readonly element: string }
  /** [ohm] */
  | { readonly is: 'shorted'; readonly element: string; readonly resistance: number }
  /** more resistance in the way of the element's current [ohm] */
  | { readonly is: 'resistive'; readonly element: string; readonly more: number }
  | { readonly is: 'stuck_open' | 'stuck_closed'; readonly element: string }
  /** a new path [ohm]; `id` is its element */
  | { readonly is: 'joined'; readonly id: string; readonly a: string; readonly b: string; readonly resistance: number }
  /** an element whose ends lie at other points than the file says */
  | { readonly is: 'moved'; readonly element: string; readonly a: string; readonly b: string }
  /** a source that gives less [V] */
  | { readonly is: 'weak'; readonly element: string; readonly voltage: number };

/** Changes of a part's failure, as its kind declares them, by the names of the network. */
export function changesOfPart(part: string, changes: readonly ElementChange[]): readonly FaultChange[] {
  return changes.map((change): FaultChange => {
    if ('add' in change) {
      const at = (point: string): string => (point === REFERENCE_NODE ? point : `${part}.${point}`);
      return { is: 'joined', id: `${part}.${change.add}`, a: at(change.a), b: at(change.b), resistance: change.resistance };
    }
    const element = `${part}.${change.element}`;
    switch (change.becomes) {
      case 'open': return { is: 'open', element };
      case 'shorted': return { is: 'shorted', element, resistance: change.resistance };
      case 'resistive': return { is: 'resistive', element, more: change.resistance };
      case 'stuck_open':
      case 'stuck_closed': return { is: change.becomes, element };
    }
  });
}

/** The network with a fault in it. Element order is kept, new paths come last. */
export function faultyNetwork(network: Network, changes: readonly FaultChange[]): Network {
  const elements = [...network.elements];
  for (const change of changes) {
    if (change.is === 'joined') {
      if (change.a !== change.b) elements.push({ type: 'resistor', id: change.id, a: change.a, b: change.b, resistance: change.resistance });
      continue;
    }
    const index = elements.findIndex(({ id }) => id === change.element);
    if (index >= 0) elements[index] = changedElement(elements[index]!, change);
  }
  return { nodes: network.nodes, elements };
}

function changedElement(element: Element, change: Exclude<FaultChange, { is: 'joined' }>): Element {
  const { id } = element;
  const [a, b] = element.type === 'converter' ? element.output : [element.a, element.b];
  switch (change.is) {
    case 'open':
    case 'stuck_open': return { type: 'switch', id, a, b, closed: false, resistance: 0 };
    case 'shorted': return { type: 'resistor', id, a, b, resistance: change.resistance };
    case 'stuck_closed': return { type: 'switch', id, a, b, closed: true, resistance: 'resistance' in element ? element.resistance : 0 };
    case 'resistive':
      if (!('resistance' in element)) throw new Error(`element ${id} of type ${element.type} cannot take a series resistance`);
      return { ...element, resistance: element.resistance + change.more };
    case 'weak': return 'voltage' in element ? { ...element, voltage: change.voltage } as Element : element;
    case 'moved': return element.type === 'converter' ? element : { ...element, a: change.a, b: change.b };
  }
}
