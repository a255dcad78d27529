/**
 * How each DC link comes to the pack: in which modes it is live, in which it is being filled, and from which mode to which
 * the main contactor closes onto it. Found from the positions of the contacts in each mode, never from a mode's name.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import { remembered } from '../../car/remembered.ts';
import type { DcLinkRole, PrechargeConverterRole, PrechargeResistorRole } from '../../part/role.ts';
import type { Picture } from './metal-paths.ts';
import { metalPaths } from './metal-paths.ts';

export interface Link { readonly part: string; readonly positive: string; readonly negative: string; readonly role: DcLinkRole }

export interface ResistorPath { readonly by: 'resistor'; readonly part: string; readonly role: PrechargeResistorRole; readonly a: string; readonly b: string }
export interface ConverterPath { readonly by: 'converter'; readonly part: string; readonly role: PrechargeConverterRole; readonly positive: string; readonly negative: string }
export type PrechargePath = ResistorPath | ConverterPath;

export type LinkState =
  /** both poles on the pack by metal */
  | { readonly is: 'live' }
  | { readonly is: 'filling'; readonly paths: readonly PrechargePath[] }
  | { readonly is: 'dead' };

/** Links that a precharge path fills in a mode. */
export interface Filling { readonly mode: string; readonly path: PrechargePath; readonly links: readonly Link[] }

/** The step from one mode to a mode in which links are live that were not. `from` undefined: from everything off. */
export interface Closing {
  readonly from: string | undefined; readonly to: string;
  /** links that become live */
  readonly links: readonly Link[];
  /** those of them that the mode before fills */
  readonly filled: readonly { readonly filling: Filling; readonly links: readonly Link[] }[];
  /** those that nothing filled */
  readonly empty: readonly Link[];
}

export interface LinkTransitions {
  readonly links: readonly Link[];
  readonly fillings: readonly Filling[];
  readonly closings: readonly Closing[];
  /** modes in which a link is live, in the order of the file */
  readonly liveModes: (link: Link) => readonly string[];
}

const transitionsIn = remembered((ask: Network, car: Car) => findTransitions(car, ask));

/** All DC links of the car and their ways onto the pack. */
export function linkTransitions(car: Car, ask: Network): LinkTransitions {
  return transitionsIn(ask, car);
}

export function linksOf(car: Car): readonly Link[] {
  return [...car.parts.values()].flatMap((part) => {
    const role = part.roles.dcLink;
    return role && role.capacitance > 0 ? [{ part: part.name, positive: part.names.of(role.positive), negative: part.names.of(role.negative), role }] : [];
  });
}

function findTransitions(car: Car, ask: Network): LinkTransitions {
  const paths = metalPaths(car, ask);
  const links = linksOf(car);
  const ways = prechargePathsOf(car);
  const states = new Map<string, LinkState>();
  const stateIn = (mode: string | undefined, link: Link): LinkState => {
    const key = `${mode ?? ''}|${link.part}`;
    let state = states.get(key);
    if (!state) {
      const here = paths.pictureOf(mode);
      state = here ? linkState(here, link, ways) : { is: 'dead' };
      states.set(key, state);
    }
    return state;
  };
  const modes = [...car.modes.keys()].filter((mode) => paths.pictureOf(mode) !== undefined);

  const fillings: Filling[] = [];
  for (const mode of modes) {
    for (const path of ways) {
      const filled = links.filter((link) => {
        const state = stateIn(mode, link);
        return state.is === 'filling' && state.paths.includes(path);
      });
      if (filled.length > 0) fillings.push({ mode, path, links: filled });
    }
  }

  const closings: Closing[] = [];
  for (const to of modes) {
    const liveHere = links.filter((link) => stateIn(to, link).is === 'live');
    if (liveHere.length === 0) continue;
    for (const from of modesBefore(car, to, modes, liveHere, fillings)) {
      const becoming = liveHere.filter((link) => stateIn(from, link).is !== 'live');
      if (becoming.length === 0) continue;
      // a link that several paths fill counts with the first of them
      const taken = new Set<Link>();
      const filled = fillings.filter(({ mode }) => mode === from).map((filling) => {
        const own = filling.links.filter((link) => becoming.includes(link) && !taken.has(link));
        for (const link of own) taken.add(link);
        return { filling, links: own };
      }).filter((entry) => entry.links.length > 0);
      closings.push({ from, to, links: becoming, filled, empty: becoming.filter((link) => !taken.has(link)) });
    }
  }
  return { links, fillings, closings, liveModes: (link) => modes.filter((mode) => stateIn(mode, link).is === 'live') };
}

/** The modes that the file says come before; where it says nothing, those that fill one of the links, else everything off. */
function modesBefore(car: Car, to: string, modes: readonly string[], live: readonly Link[], fillings: readonly Filling[]): readonly (string | undefined)[] {
  const written = (car.build.modes.get(to)?.from ?? []).filter((mode) => modes.includes(mode));
  if (written.length > 0) return written;
  const filling = [...new Set(fillings.filter(({ links }) => links.some((link) => live.includes(link))).map(({ mode }) => mode))];
  return filling.length > 0 ? filling : [undefined];
}

function prechargePathsOf(car: Car): readonly PrechargePath[] {
  return [...car.parts.values()].flatMap((part): PrechargePath[] => {
    const { prechargeResistor: resistor, prechargeConverter: converter } = part.roles;
    return [
      ...(resistor ? [{ by: 'resistor' as const, part: part.name, role: resistor, a: part.names.of(resistor.a), b: part.names.of(resistor.b) }] : []),
      ...(converter ? [{ by: 'converter' as const, part: part.name, role: converter, positive: part.names.of(converter.positive), negative: part.names.of(converter.negative) }] : []),
    ];
  });
}

function linkState(here: Picture, link: Link, ways: readonly PrechargePath[]): LinkState {
  const { metal, live } = here;
  if (metal.same(link.positive, link.negative)) return { is: 'dead' };
  if (live.same(link.positive, link.negative)) return { is: 'live' };
  const paths = ways.filter((way) => (way.by === 'resistor' ? fillsByResistor(here, link, way) : fillsByConverter(here, link, way)));
  return paths.length > 0 ? { is: 'filling', paths } : { is: 'dead' };
}

/** Its contact is closed, and the loop from the pack through the link is whole but for the resistor. */
function fillsByResistor({ live, solved }: Picture, link: Link, way: ResistorPath): boolean {
  if (solved.stateOf(`${way.part}.${way.role.contactElement}`) !== 'closed') return false;
  const [a, b, positive, negative] = [live.of(way.a), live.of(way.b), live.of(link.positive), live.of(link.negative)];
  return a !== b && ((a === positive && b === negative) || (a === negative && b === positive));
}

/** It holds a voltage, and its poles are those of the link (either way round: the polarity is a check of its own). */
function fillsByConverter({ metal, solved }: Picture, link: Link, way: ConverterPath): boolean {
  const [positive, negative] = [metal.of(way.positive), metal.of(way.negative)];
  const [a, b] = [metal.of(link.positive), metal.of(link.negative)];
  if (!((positive === a && negative === b) || (positive === b && negative === a))) return false;
  return Math.abs(solved.voltageOf(way.positive) - solved.voltageOf(way.negative)) > SIGNIFICANT * way.role.outputVoltage;
}

/** Less than this share of its set voltage, and the converter is off. */
const SIGNIFICANT = 0.05;
