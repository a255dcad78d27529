/**
 * A fuse of the high-voltage side in a computed fault: what it sees, when it melts, what it lets through.
 */
import type { Car, CarPart } from '../../car/car.ts';
import { remembered } from '../../car/remembered.ts';
import type { ProtectionRole } from '../../part/role.ts';
import { ADIABATIC_TIME_LIMIT } from '../../physics/adiabatic.ts';
import type { Melting } from '../../physics/fuse-clearing.ts';
import { arcingTime, fuseMelting } from '../../physics/fuse-clearing.ts';
import { surelyOpens } from '../../physics/fuse-gates.ts';

/** A fault as far as a fuse is concerned. */
export interface FaultLoopSeen {
  /** in the short [A] */
  readonly current: number;
  /** [V] */
  readonly voltage: number;
  /** of the whole loop [ohm], [H] */
  readonly resistance: number;
  readonly inductance: number;
  readonly currentOf: (id: string) => number;
}

export interface Protection {
  /** `Part.element` */
  readonly id: string;
  readonly part: string;
  readonly role: ProtectionRole;
  /** air around it [K]: its own, else the car's */
  readonly ambient: number;
  /** false for what opens only on a command */
  readonly opensByHeat: boolean;
}

/** Every protection element on the high-voltage side, in the order of the file. */
export const protectionOf: (car: Car) => readonly Protection[] = remembered((car: Car) => findProtection(car));

function findProtection(car: Car): readonly Protection[] {
  return [...car.parts.values()].flatMap((part) => (part.roles.protection ?? [])
    .filter(({ a, b }) => carriesHighVoltage(part, a) || carriesHighVoltage(part, b))
    .map((role): Protection => ({
      id: part.names.of(role.element), part: part.name, role, ambient: role.ambient ?? car.conditions.ambient, opensByHeat: role.style !== 'pyrotechnic',
    })));
}

export function carriesHighVoltage(part: Pick<CarPart, 'ports'>, port: string): boolean {
  return part.ports.some(({ name, carries }) => name === port && carries === 'high_voltage');
}

/** A protection element that carries a fault: what becomes of it. */
export interface Opening {
  readonly fuse: Protection;
  /** prospective current through it [A] */
  readonly through: number;
  /** undefined when its melting I²t is not known */
  readonly melting: Melting | undefined;
  /** until the current is zero: melting, then the arc, or what the gates of a full-range fuse say [s]; undefined when melting or clearing I²t is not known, or nothing says how long */
  readonly clearingTime: number | undefined;
}

/** An element with less than this share of a fault's current does not count as carrying it [1]; our choice. */
export const CARRIES_SHARE = 0.005;

/**
 * Every protection element that carries a fault, with the time it takes.
 *
 * Range: each branch of the loop follows the same exponential, with the time constant of the whole
 */
export function openingsIn(fault: FaultLoopSeen, protection: readonly Protection[]): readonly Opening[] {
  const openings: Opening[] = [];
  for (const fuse of protection) {
    const through = Math.abs(fault.currentOf(fuse.id));
    if (through < CARRIES_SHARE * fault.current || !(through > 0)) continue;
    const { meltingEnergy, clearingEnergy } = fuse.role;
    const resistance = fault.voltage / through;
    const melting = meltingEnergy === undefined ? undefined : fuseMelting({ voltage: fault.voltage, resistance, inductance: (fault.inductance / fault.resistance) * resistance }, meltingEnergy);
    // an I²t so small that no current flows yet when it melts says nothing about the arc
    const clearingTime = melting === undefined || meltingEnergy === undefined || clearingEnergy === undefined ? undefined
      : melting.outcome === 'too_slow' ? slowOpening(fuse, through)
        : melting.peak ** 2 > Number.MIN_VALUE ? melting.time + arcingTime(meltingEnergy, Math.max(meltingEnergy, clearingEnergy), melting.peak) : undefined;
    openings.push({ fuse, through, melting, clearingTime });
  }
  return openings;
}

/** Time in which a fuse that melts too slowly for its I²t to hold has surely opened [s]; undefined: none is published for its style. */
function slowOpening({ role: { style, rating } }: Protection, through: number): number | undefined {
  if (style !== 'full_range') return undefined;
  const { withinTenth, within5s } = surelyOpens(rating);
  return through >= withinTenth ? 0.1 : through >= within5s ? ADIABATIC_TIME_LIMIT : undefined;
}

/** What `fusesInSeries` needs to know of a fault. */
export interface SeriesSeen {
  readonly currentOf: (id: string) => number;
  readonly openings: readonly Opening[];
  /** whether opening one element alone stops the current in another */
  readonly stops: (opener: string, id: string) => boolean;
  /** fuses that end the fault together; asked for when none in series does alone */
  readonly cut: () => readonly Opening[];
}

/** Fuses that open by heat, carry the whole of the current in a run or element, and stop it: one in a parallel string carries as much and stops nothing. */
export function fusesInSeries(fault: SeriesSeen, id: string): readonly Opening[] {
  const known = seriesKnown(fault);
  let fuses = known.get(id);
  if (!fuses) known.set(id, (fuses = findSeries(fault, id)));
  return fuses;
}

/** Asked several times for each run. */
const seriesKnown = remembered((_: SeriesSeen) => new Map<string, readonly Opening[]>());

function findSeries(fault: SeriesSeen, id: string): readonly Opening[] {
  const through = Math.abs(fault.currentOf(id));
  return fault.openings.filter((opening) => opening.fuse.opensByHeat && opening.through >= 0.99 * through && fault.stops(opening.fuse.id, id));
}

export type LetThroughTo =
  | { readonly outcome: 'energy'; /** [A2.s] through the run */ readonly energy: number; /** its name, or the names of those that end it together */ readonly fuse: string; readonly isCleared: boolean }
  | { readonly outcome: 'needs'; readonly needs: readonly string[] }
  /** nothing that melts ends it */
  | { readonly outcome: 'unprotected'; readonly hasPyrotechnic: boolean };

/**
 * I²t that a fault puts through a conductor before a fuse in series with it, or several together, have ended the fault.
 *
 * A fuse that melts too slowly for its I²t to hold (10 ms) counts with what its gates say, a tenth of a second, else as not having
 * opened within five seconds, the longest that the adiabatic withstand is defined for.
 *
 * @param id  the conductor: a run, or `Part.element`
 */
export function letThroughTo(fault: SeriesSeen, id: string): LetThroughTo {
  const through = Math.abs(fault.currentOf(id));
  const fuses = fusesInSeries(fault, id);
  if (fuses.length === 0) {
    const together = fault.cut();
    if (together.length > 0) return letThroughTogether(through, together);
    return { outcome: 'unprotected', hasPyrotechnic: fault.openings.some((opening) => !opening.fuse.opensByHeat && opening.through >= 0.99 * through && fault.stops(opening.fuse.id, id)) };
  }
  let least: { energy: number; fuse: string; isCleared: boolean } | undefined;
  const needs: string[] = [];
  for (const opening of fuses) {
    const own = energyOf(opening);
    needs.push(...own.needs);
    if (own.energy === undefined) continue;
    // a fuse that carries more than this conductor lets through the same share squared
    const share = through / opening.through;
    const energy = own.energy * share * share;
    if (!least || energy < least.energy) least = { energy, fuse: opening.fuse.part, isCleared: own.isCleared };
  }
  return least ? { outcome: 'energy', ...least } : { outcome: 'needs', needs };
}

/**
 * Several fuses end the fault, each with its own current until it opens. The conductor carries at most their sum, and the root of
 * the I²t of a sum is at most the sum of the roots (Minkowski), whatever the order in which they open.
 */
function letThroughTogether(through: number, together: readonly Opening[]): LetThroughTo {
  const own = together.map(energyOf);
  const needs = own.flatMap((one) => one.needs);
  if (needs.length > 0) return { outcome: 'needs', needs };
  const roots = own.reduce((sum, { energy }) => sum + Math.sqrt(energy ?? 0), 0);
  const share = Math.min(1, through / together.reduce((sum, opening) => sum + opening.through, 0));
  return { outcome: 'energy', energy: (share * roots) ** 2, fuse: namesOf(together), isCleared: own.every(({ isCleared }) => isCleared) };
}

/** I²t that a fuse lets through itself [A2.s]; undefined when its sheet does not say. */
function energyOf({ fuse, fuse: { part, role: { meltingEnergy, clearingEnergy } }, melting, through }: Opening): { readonly energy: number | undefined; readonly isCleared: boolean; readonly needs: readonly string[] } {
  const needs = [...(meltingEnergy === undefined ? [`parts.${part}.melting_energy`] : []), ...(clearingEnergy === undefined ? [`parts.${part}.clearing_energy`] : [])];
  const isCleared = melting?.outcome === 'melts';
  const energy = !melting || clearingEnergy === undefined ? undefined : isCleared ? clearingEnergy : Math.max(clearingEnergy, through * through * (slowOpening(fuse, through) ?? ADIABATIC_TIME_LIMIT));
  return { energy, isCleared, needs };
}

/** `F_A and F_B` */
export function namesOf(openings: readonly Opening[]): string {
  return openings.map(({ fuse }) => fuse.part).join(' and ');
}
