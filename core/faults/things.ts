/**
 * What can be seen, heard or read off without a meter: contacts that click, lamps that light, motors and units that run.
 */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';
import type { Observable } from '../part/failure.ts';

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
/** Of what gives as much as it is asked for: below this share of its most it rests. */
const RESTS = 0.02;

/** Things of a car; the same list for the life of the car. */
export const thingsOf = remembered((car: Car, ask: Network): readonly Thing[] => {
  const solved = [...car.modes.keys()].flatMap((mode) => { const result = ask.solve({ mode }); return result.outcome === 'solved' ? [result] : []; });
  const most = (element: string): number => Math.max(0, ...solved.map((result) => Math.abs(result.currentOf(element))));
  const byCurrent = (what: ThingSort, of: string, element: string): readonly Thing[] => {
    const usual = most(element);
    return usual > LEAST ? [{ what, of, elements: [element], least: Math.max(LEAST, SHARE * usual) }] : [];
  };
  /** a motor that is asked for little gives all the same */
  const asAsked = (of: string, element: string): readonly Thing[] => {
    const given = solved.map((result) => Math.abs(result.currentOf(element))), usual = Math.max(0, ...given);
    return usual > LEAST ? [{ what: 'gives', of, elements: [element], least: Math.max(LEAST, SHARE * Math.min(...given.filter((amps) => amps > RESTS * usual))) }] : [];
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
      ...(roles.traction ? (roles.rated ?? []).flatMap(({ elements }) => elements.slice(0, 1).flatMap((element) => asAsked(name, names.of(element)))) : []),
      ...(charges ? asAsked(name, charges.name) : []),
      ...(roles.lowVoltageSupply ? byCurrent('gives', name, names.of(roles.lowVoltageSupply.element)) : []),
    ];
  });
});

/** A question about a thing that a builder can answer from the seat; undefined: nobody sees or hears it, a meter only. */
export function questionOf(car: Car, { what, of }: Pick<Thing, 'what' | 'of'>): string | undefined {
  switch (what) {
    case 'closes': return `does ${of} click and stay in`;
    case 'lights': return `does ${of} light or sound`;
    case 'runs': return asked(`does ${of} run`, noticed(car, of, what));
    case 'gives': return asked(`does ${of} give current`, noticed(car, of, what));
  }
}

function asked(question: string, signs: readonly Observable[]): string | undefined {
  if (signs.length === 0) return undefined;
  // a kind may have no other word for it than that it runs
  return signs.some(({ name }) => question.endsWith(` ${name.replace(/s$/, '')}`)) ? question : `${question} (${signs.map(({ name, meaning }) => `${name}: ${meaning}`).join('; ')})`;
}

/** What its kind says may be seen or heard of it: of what gives current that it gives; of what only warns, nothing about its running. */
function noticed(car: Car, of: string, what: 'runs' | 'gives'): readonly Observable[] {
  const part = car.parts.get(of);
  if (!part || part.roles.isolationMonitor) return [];
  const isGiver = part.roles.traction !== undefined || part.roles.feedsPack !== undefined || part.roles.lowVoltageSupply !== undefined;
  return isGiver === (what === 'gives') ? part.kind.observables.filter(({ sense }) => sense === 'hear' || sense === 'see') : [];
}
