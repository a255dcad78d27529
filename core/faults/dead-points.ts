/** High-voltage points that are dead once the service disconnects are out and nothing is asked for: an ohmmeter looks there for what leaks to the body. */
import type { Car } from '../car/car.ts';
import { unionFind } from '../car/metal-graph.ts';
import { wireCar } from '../car/wire-car.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import { stateOf } from './asked-state.ts';
import type { AskedState } from './asked-state.ts';

/** One point of each net that nothing but insulation leads to cells from, against the chassis. */
export function deadPairs(car: Car, dead: AskedState, isHigh: (node: string) => boolean): readonly (readonly [string, string])[] {
  const nets = unionFind();
  const join = (a: string, b: string): void => { if (a !== REFERENCE_NODE && b !== REFERENCE_NODE) nets.join(a, b); };
  // whatever leads to cells, a converter's input or a monitor too, brings their voltage to the meter when something leaks
  for (const element of wireCar(car, stateOf(dead)).network.elements) {
    if (element.type === 'converter') { join(...element.input); continue; }
    const isOpen = (element.type === 'switch' && !element.closed) || (element.type === 'relay' && element.contact !== 'breaks') || element.type === 'capacitor';
    if (!isOpen) join(element.a, element.b);
  }
  const live = new Set([...car.parts.values()].flatMap(({ names, roles }) => (roles.cells ? [names.of(roles.cells.positive), names.of(roles.cells.negative)] : [])).map((node) => nets.find(node)));
  const found = new Map<string, string>();
  for (const { ports, names, roles, missing } of car.parts.values()) {
    if (missing.length > 0 || roles.cells) continue;
    for (const { name, carries } of ports) {
      const node = names.of(name), net = carries === 'high_voltage' && isHigh(node) ? nets.find(node) : undefined;
      if (net !== undefined && !live.has(net) && !found.has(net)) found.set(net, node);
    }
  }
  return [...found.values()].map((node) => [node, REFERENCE_NODE] as const);
}
