/**
 * Which fuses a fault takes with it. A fuse that carries more than `BLOWS` times its rating counts as blown: how long that takes is
 * another question, and the builder comes later.
 */
import { leastResistance } from '../car/metal-graph.ts';
import type { PathLink } from '../car/metal-graph.ts';
import type { Car } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';
import type { Network } from '../solve/element.ts';
import type { RestSolved } from '../solve/rest-result.ts';

/** Share of its rating at which a fuse opens within a minute or so; common practice, no source. */
export const BLOWS = 1.6;
/** Ways through more than this are loads, not short circuits [ohm]. */
const WAY = 1;

/** Ratings by the element of the network [A]. */
export const fusesOf = remembered((car: Car): ReadonlyMap<string, number> => new Map([...car.parts.values()].flatMap(({ names, roles }) => (roles.protection ?? []).filter(({ style }) => style !== 'pyrotechnic').map(({ element, rating }) => [names.of(element), rating] as const))));

export interface FuseFinder {
  /** elements of fuses that open when `current` [A] flows from `a` to `b`, one after the other */
  readonly blownBy: (a: string, b: string, current: number) => readonly string[];
  /** nodes joined by little resistance, fuses apart, have one name */
  readonly links: ReadonlyMap<string, readonly PathLink[]>;
}

/** @param solved  the network as it stands before the fault: it says which contacts are closed */
export function fuseFinder(car: Car, network: Network, solved: RestSolved): FuseFinder {
  const links = new Map<string, PathLink[]>();
  const fuses = fusesOf(car);
  for (const element of network.elements) {
    if (element.type !== 'resistor' && element.type !== 'source' && element.type !== 'switch' && element.type !== 'relay' && element.type !== 'inductor' && element.type !== 'diode') continue;
    if (element.type === 'diode' && solved.stateOf(element.id) !== 'conducting') continue;
    if (element.resistance > WAY || ((element.type === 'switch' || element.type === 'relay') && solved.stateOf(element.id) !== 'closed')) continue;
    const link = { id: element.id, a: element.a, b: element.b, resistance: element.resistance };
    for (const node of [element.a, element.b]) { const list = links.get(node); if (list) list.push(link); else links.set(node, [link]); }
  }
  const known = new Map<string, readonly string[]>();
  return {
    links,
    blownBy: (a, b, current) => {
      const key = `${a} ${b}`;
      let blown = known.get(key);
      if (blown) return blown;
      const open: string[] = [];
      for (let round = 0; round < 4; round++) {
        const path = leastResistance((node) => (links.get(node) ?? []).filter(({ id }) => !open.includes(id)), a, b);
        const weakest = path?.links.flatMap(({ id }) => { const rating = fuses.get(id); return rating === undefined ? [] : [{ id, rating }]; }).sort((one, other) => one.rating - other.rating)[0];
        if (weakest === undefined || current < BLOWS * weakest.rating) break;
        open.push(weakest.id);
      }
      known.set(key, (blown = open));
      return blown;
    },
  };
}
