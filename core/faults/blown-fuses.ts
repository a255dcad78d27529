/** Which fuses there are, and what opens them. A fuse that carries more than `BLOWS` times its rating counts as blown: how long that takes is another question, and the builder comes later. */
import type { Car } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import type { Network } from '../solve/element.ts';
import type { FaultChange } from './fault-change.ts';
import { sidesOf } from './sides.ts';

/** Share of its rating at which a fuse opens within a minute or so; common practice, no source. */
export const BLOWS = 1.6;
/** A path of less than this may blow a fuse [ohm]. */
const SHORT = 5;

/** Ratings by the element of the network [A]. */
export const fusesOf = remembered((car: Car): ReadonlyMap<string, number> => new Map([...car.parts.values()].flatMap(({ names, roles }) => (roles.protection ?? []).filter(({ style }) => style !== 'pyrotechnic').map(({ element, rating }) => [names.of(element), rating] as const))));

/** It lets more flow. */
export const isShort = (change: FaultChange): boolean => (change.is === 'joined' || change.is === 'shorted') && change.resistance <= SHORT;

/**
 * The fuses that a fault may open: those of the sides that it touches, where it lets more flow. A load that has more to carry because
 * another way is open is asked for by the mode, which may last seconds only: that opens none.
 * @returns of a fault: whether a fuse may open; undefined: none may
 */
export function fusesAtRisk(network: Network): (changes: readonly FaultChange[]) => ((fuse: string) => boolean) | undefined {
  let sides: ((node: string) => string) | undefined;
  let ends: ReadonlyMap<string, readonly string[]> | undefined;
  const endsOf = (id: string): readonly string[] => (ends ??= new Map(network.elements.map((element) => [element.id, element.type === 'converter' ? [...element.input, ...element.output] : [element.a, element.b]]))).get(id) ?? [];
  return (changes) => {
    const shorts = changes.filter((change) => isShort(change) || change.is === 'moved' || change.is === 'stuck_closed');
    if (shorts.length === 0) return undefined;
    const sideOf = (sides ??= sidesOf(network));
    const touched = (nodes: readonly string[]): string[] => nodes.flatMap((node) => (node === REFERENCE_NODE ? [] : [sideOf(node)]));
    const struck = new Set(shorts.flatMap((change) => touched([...(change.is === 'joined' ? [] : endsOf(change.element)), ...(change.is === 'joined' || change.is === 'moved' ? [change.a, change.b] : [])])));
    return (fuse) => touched(endsOf(fuse)).some((side) => struck.has(side));
  };
}
