/**
 * What can be seen, heard or read off without a meter: contacts that click, lamps that light, motors and units that run.
 */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';

export type ThingSort = 'closes' | 'lights' | 'runs' | 'gives';

export interface Thing {
  readonly what: ThingSort;
  /** part */
  readonly of: string;
  /** elements of the network; a contact is judged by its position, everything else by its current */
  readonly elements: readonly string[];
  /** least current that counts [A] */
  readonly least: number;
}

/** A lamp or buzzer that takes this share of what it takes at its best is seen; common practice, no source. */
const SHARE = 0.3;
const LEAST = 0.005;

/** Things of a car; the same list for the life of the car. */
export const thingsOf = remembered((car: Car, ask: Network): readonly Thing[] => {
  const solved = [...car.modes.keys()].flatMap((mode) => { const result = ask.solve({ mode }); return result.outcome === 'solved' ? [result] : []; });
  const most = (element: string): number => Math.max(0, ...solved.map((result) => Math.abs(result.currentOf(element))));
  const byCurrent = (what: ThingSort, of: string, element: string): readonly Thing[] => {
    const usual = most(element);
    return usual > LEAST ? [{ what, of, elements: [element], least: Math.max(LEAST, SHARE * usual) }] : [];
  };
  return [...car.parts.values()].flatMap((part): readonly Thing[] => {
    const { name, names, roles } = part;
    if (part.missing.length > 0) return [];
    const coils = (roles.switching ?? []).filter(({ by }) => by === 'coil').slice(0, 1);
    const consumer = roles.consumers?.find(() => roles.switching?.some(({ by }) => by === 'coil') !== true);
    const charges = roles.feedsPack && [...car.runs.values()].find(({ from, to }) => [from, to].includes(names.of(roles.feedsPack!.positive)));
    return [
      ...coils.map(({ element }): Thing => ({ what: 'closes', of: name, elements: [names.of(element)], least: 0 })),
      ...(roles.indicator ? byCurrent('lights', name, names.of(roles.indicator.element)) : consumer && !roles.lowVoltageSupply ? byCurrent('runs', name, names.of(consumer.element)) : []),
      ...(roles.traction ? (roles.rated ?? []).flatMap(({ elements }) => elements.slice(0, 1).flatMap((element) => byCurrent('gives', name, names.of(element)))) : []),
      ...(charges ? byCurrent('gives', name, charges.name) : []),
      ...(roles.lowVoltageSupply ? byCurrent('gives', name, names.of(roles.lowVoltageSupply.element)) : []),
    ];
  });
});

/** A question about a thing that a builder can answer. */
export function questionOf({ what, of }: Pick<Thing, 'what' | 'of'>): string {
  switch (what) {
    case 'closes': return `does ${of} click and stay in`;
    case 'lights': return `does ${of} light or sound`;
    case 'runs': return `does ${of} run, or is it awake`;
    case 'gives': return `does ${of} give current`;
  }
}
