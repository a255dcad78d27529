/**
 * Who hears whom on the CAN bus when wires, pins or terminations fail.
 *
 * A unit is reached when both bus wires lead to it from a unit that commands, neither is tied to the other or to a supply or the
 * body, and at least one termination is left (with one, most short buses still run; with none, they do not). Bits, bit rates and
 * error counters are not modelled.
 */
import type { Car, CarPart } from '../car/car.ts';
import { unionFind } from '../car/metal-graph.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import type { Network } from '../solve/element.ts';

/** A wire on the bus with more than this in its way carries no bits; less than this across it drowns them [ohm]. Common practice, no source. */
export const LOST = 100;
const DROWNED = 20;

export function busNodes(car: Car): readonly CarPart[] {
  return [...car.parts.values()].filter(({ ports, roles }) => roles.consumers && ports.some(({ name }) => name === 'can_h') && ports.some(({ name }) => name === 'can_l'));
}

/** Units that command others over the bus: they have outputs of their own and are no supply or drive. */
export function commanders(car: Car): readonly CarPart[] {
  return busNodes(car).filter(({ roles }) => roles.switching?.some(({ by }) => by === 'electronics') && !roles.traction && !roles.feedsPack);
}

/** @returns units on the bus that no commanding unit reaches; none for a car in which nothing commands */
export function unreached(car: Car, network: Network): readonly string[] {
  const nodes = busNodes(car), from = commanders(car);
  if (from.length === 0) return [];
  const nets = unionFind();
  for (const element of network.elements) {
    if (element.type === 'resistor' && element.resistance <= LOST || (element.type === 'switch' && element.closed && element.resistance <= LOST)) {
      if (element.a !== REFERENCE_NODE && element.b !== REFERENCE_NODE && !isAcross(element.a, element.b)) nets.join(element.a, element.b);
    }
  }
  const of = (part: CarPart): readonly [string, string] => [nets.find(part.names.of('can_h')), nets.find(part.names.of('can_l'))];
  const pairs = new Set(nodes.map((part) => of(part).join(' ')));
  const isDrowned = (high: string, low: string): boolean => {
    let conductance = 0;
    let isTied = high === low;
    for (const element of network.elements) {
      if (element.type !== 'resistor' || isTied) continue;
      const [a, b] = [element.a, element.b].map((node) => (node === REFERENCE_NODE ? node : nets.find(node)));
      if ((a === high && b === low) || (a === low && b === high)) conductance += 1 / Math.max(element.resistance, 1e-3);
      else if (element.resistance < DROWNED && [a, b].some((net) => net === high || net === low) && [a, b].includes(REFERENCE_NODE)) isTied = true;
    }
    return isTied || conductance > 1 / DROWNED || conductance < TERMINATED;
  };
  const good = new Map([...pairs].map((pair) => { const [high, low] = pair.split(' ') as [string, string]; return [pair, !isDrowned(high, low)]; }));
  const heard = new Set(from.map((part) => of(part).join(' ')).filter((pair) => good.get(pair) === true));
  return nodes.filter((part) => !heard.has(of(part).join(' '))).map(({ name }) => name);
}

/** Who hears nobody when some units say nothing: those units themselves, and everybody where nobody is left who commands. */
export function silencedBy(car: Car, silent: readonly string[]): readonly string[] {
  const isLeaderless = silent.length > 0 && commanders(car).every(({ name }) => silent.includes(name));
  return isLeaderless ? busNodes(car).map(({ name }) => name) : silent;
}

/** Less conductance than this between the wires: no termination is left [S]. */
const TERMINATED = 1 / 500;

/** A resistor between the two bus pins of one part is a termination, not a way along the bus. */
function isAcross(a: string, b: string): boolean {
  const [one, other] = [a.split('.'), b.split('.')];
  return one[0] === other[0] && ((one[1] === 'can_h' && other[1] === 'can_l') || (one[1] === 'can_l' && other[1] === 'can_h'));
}
