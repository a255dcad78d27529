/** Which units on the bus hear nobody any more after a fault: asked of the part of the network that hangs on the bus, and of no more. */
import type { Car } from '../car/car.ts';
import { unionFind } from '../car/metal-graph.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import type { Element, Network } from '../solve/element.ts';
import { busNodes, LOST, silencedBy, unreached } from './bus.ts';
import { faultyNetwork } from './fault-change.ts';
import type { FaultChange } from './fault-change.ts';

/** @returns units that are not reached with the changes made, beyond those that are not with nothing wrong; silent ones among them */
export type LostOnBus = (changes: readonly FaultChange[], silent: readonly string[]) => readonly string[];

export function lostOnBus(car: Car, network: Network): LostOnBus {
  // not reached even with nothing wrong: the file does not draw who commands them
  const before = new Set(unreached(car, network));
  const nodes = new Set([...car.parts.values()].flatMap(({ ports, names }) => ports.filter(({ name }) => /can_[hl]$/.test(name)).map(({ name }) => names.of(name))));
  if (nodes.size === 0 && busNodes(car).length === 0) return (_, silent) => silent;
  const nets = unionFind();
  const endsOf = (element: Element): readonly string[] => (element.type === 'converter' ? [] : [element.a, element.b].filter((node) => node !== REFERENCE_NODE));
  for (const element of network.elements) if ((element.type === 'resistor' || (element.type === 'switch' && element.closed)) && element.resistance <= LOST) { const [a, b] = endsOf(element); if (a !== undefined && b !== undefined) nets.join(a, b); }
  const byNet = new Map<string, Element[]>();
  const netOfElement = new Map<string, readonly string[]>();
  for (const element of network.elements) {
    const own = [...new Set(endsOf(element).map((node) => nets.find(node)))];
    netOfElement.set(element.id, own);
    for (const net of own) { const list = byNet.get(net); if (list) list.push(element); else byNet.set(net, [element]); }
  }
  const busNets = new Set([...nodes].map((node) => nets.find(node)));
  const netsOf = (change: FaultChange): readonly string[] => (change.is === 'joined' ? [change.a, change.b].filter((node) => node !== REFERENCE_NODE).map((node) => nets.find(node))
    : [...(netOfElement.get(change.element) ?? []), ...(change.is === 'moved' ? [change.a, change.b].filter((node) => node !== REFERENCE_NODE).map((node) => nets.find(node)) : [])]);
  const onBus = new Set([...busNets].flatMap((net) => byNet.get(net) ?? []).map(({ id }) => id));
  const isOnBus = (node: string): boolean => node !== REFERENCE_NODE && busNets.has(nets.find(node));
  const NOBODY: readonly string[] = [];
  return (changes, silent) => {
    let lost = NOBODY;
    if (changes.some((change) => (change.is === 'joined' || change.is === 'moved' ? isOnBus(change.a) || isOnBus(change.b) : false) || (change.is !== 'joined' && onBus.has(change.element)))) {
      const touched = changes.map(netsOf);
      const elements = new Set([...busNets, ...touched.flat()].flatMap((net) => byNet.get(net) ?? []));
      lost = unreached(car, faultyNetwork({ nodes: [], elements: [...elements] }, changes)).filter((name) => !before.has(name));
    }
    if (silent.length === 0) return lost;
    return [...new Set([...lost, ...silencedBy(car, silent)])];
  };
}
