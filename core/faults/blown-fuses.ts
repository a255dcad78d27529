/** Which fuses there are, and what opens them. A fuse that carries more than `BLOWS` times its rating counts as blown: how long that takes is another question, and the builder comes later. */
import type { Car } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';

/** Share of its rating at which a fuse opens within a minute or so; common practice, no source. */
export const BLOWS = 1.6;

/** Ratings by the element of the network [A]. */
export const fusesOf = remembered((car: Car): ReadonlyMap<string, number> => new Map([...car.parts.values()].flatMap(({ names, roles }) => (roles.protection ?? []).filter(({ style }) => style !== 'pyrotechnic').map(({ element, rating }) => [names.of(element), rating] as const))));
