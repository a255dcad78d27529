/**
 * The car's network in a state, with every point tied weakly to where a meter would pull it: so that a wire that parts leaves a dead end
 * at 0 V and no loose island, and every single fault stays a low-rank change of one solved network.
 */
import type { Car } from '../car/car.ts';
import type { State } from '../car/state.ts';
import { settingsIn, wireCar } from '../car/wire-car.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import type { Element, Network } from '../solve/element.ts';
import { sidesOf } from './sides.ts';

/** What the meter itself would be [ohm]. */
const LOW_TIE = 1e7;
/** Far more than any insulation that counts, to the pack's negative end: it must not be seen as a leak [ohm]. */
const HIGH_TIE = 10e9;
/** Ids of ties begin so. */
export const TIE = 'tie ';
export const tieId = (node: string): string => `${TIE}${node}`;

export interface TiedNetwork { readonly network: Network; /** nodes on the high-voltage side */ readonly isHigh: (node: string) => boolean }

export function tiedNetwork(car: Car, state: State): TiedNetwork {
  const { network } = wireCar(car, state);
  const { high, hub } = highSide(car, network);
  const ties = network.nodes.flatMap((node): Element[] => {
    if (node === REFERENCE_NODE || node === hub) return [];
    return [high.has(node) ? { type: 'resistor', id: tieId(node), a: node, b: hub, resistance: HIGH_TIE } : { type: 'resistor', id: tieId(node), a: node, b: REFERENCE_NODE, resistance: LOW_TIE }];
  });
  if (hub !== REFERENCE_NODE) ties.push({ type: 'resistor', id: tieId(hub), a: hub, b: REFERENCE_NODE, resistance: HIGH_TIE });
  return { network: { nodes: network.nodes, elements: [...network.elements, ...ties] }, isHigh: (node) => high.has(node) };
}

/** Nodes that conductors join to a high-voltage port, not by way of the chassis; and the negative end of the pack. */
function highSide(car: Car, network: Network): { readonly high: ReadonlySet<string>; readonly hub: string } {
  const sideOf = sidesOf(network);
  // the mains share the earth with everything and are a side of their own
  const ports = [...car.parts.values()].flatMap(({ ports: all, names, roles }) => all.filter(({ carries, name }) => carries === 'high_voltage' && roles.mains?.lines.includes(name) !== true && roles.mains?.neutral !== name).map(({ name }) => names.of(name)));
  const roots = new Set(ports.map(sideOf));
  const cells = [...car.parts.values()].find(({ roles }) => roles.cells);
  return { high: new Set(network.nodes.filter((node) => node !== REFERENCE_NODE && roots.has(sideOf(node)))), hub: cells ? cells.names.of(cells.roles.cells!.negative) : REFERENCE_NODE };
}

/** The state without what messages would have asked of parts that are not reached: they stay as they are at rest. */
export function unheard(car: Car, state: State, parts: readonly string[]): State {
  const settings = settingsIn(car, state);
  const set: Record<string, Readonly<Record<string, unknown>>> = { ...state.set };
  for (const name of parts) {
    const worked = car.parts.get(name)?.kind.worked ?? [];
    const told = Object.keys(settings(name)).filter((setting) => !worked.includes(setting));
    if (told.length > 0) set[name] = { ...set[name], ...Object.fromEntries(told.map((setting) => [setting, undefined])) };
  }
  return { ...state, set };
}
