/**
 * A fuse of the high-voltage side in a computed fault: what it sees, when it melts, what it lets through.
 */
import type { Car, CarPart } from '../../car/car.ts';
import type { ProtectionRole } from '../../part/role.ts';
import { ADIABATIC_TIME_LIMIT } from '../../physics/adiabatic.ts';
import type { Melting } from '../../physics/fuse-clearing.ts';
import { arcingTime, fuseMelting } from '../../physics/fuse-clearing.ts';

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
export function protectionOf(car: Car): readonly Protection[] {
  return [...car.parts.values()].flatMap((part) => (part.roles.protection ?? [])
    .filter(({ a, b }) => carriesHighVoltage(part, a) || carriesHighVoltage(part, b))
    .map((role): Protection => ({
      id: `${part.name}.${role.element}`, part: part.name, role, ambient: role.ambient ?? car.conditions.ambient, opensByHeat: role.style !== 'pyrotechnic',
    })));
}

export function carriesHighVoltage(part: Pick<CarPart, 'ports'>, port: string): boolean {
  return part.ports.some(({ name, carries }) => name === port && carries === 'high_voltage');
}

/**
 * When a fuse melts in a fault.
 *
 * @returns undefined when its melting I²t is not known or it carries nothing
 * Range: each branch of the loop follows the same exponential, with the time constant of the whole
 */
export function meltingIn(fuse: Protection, fault: FaultLoopSeen): Melting | undefined {
  const through = Math.abs(fault.currentOf(fuse.id));
  if (fuse.role.meltingEnergy === undefined || !(through > 0)) return undefined;
  const resistance = fault.voltage / through;
  return fuseMelting({ voltage: fault.voltage, resistance, inductance: (fault.inductance / fault.resistance) * resistance }, fuse.role.meltingEnergy);
}

/** Time until the current is zero [s]: melting, then the arc. Undefined when melting or clearing I²t is not known, or it melts too slowly to say. */
export function clearingTime(fuse: Protection, fault: FaultLoopSeen): number | undefined {
  const melting = meltingIn(fuse, fault);
  const { meltingEnergy, clearingEnergy } = fuse.role;
  if (melting?.outcome !== 'melts' || meltingEnergy === undefined || clearingEnergy === undefined) return undefined;
  return melting.time + arcingTime(meltingEnergy, Math.max(meltingEnergy, clearingEnergy), melting.peak);
}

export type LetThroughTo =
  | { readonly outcome: 'energy'; /** [A2.s] through the run */ readonly energy: number; readonly fuse: string; readonly isCleared: boolean }
  | { readonly outcome: 'needs'; readonly needs: readonly string[] }
  /** nothing that melts is in series */
  | { readonly outcome: 'unprotected'; readonly hasPyrotechnic: boolean };

/**
 * I²t that a fault puts through a conductor before a fuse in series with it has ended the fault.
 *
 * A fuse that melts too slowly for its I²t to hold counts as not having opened within five seconds, the longest that the
 * adiabatic withstand is defined for.
 *
 * @param through  current of the fault in the conductor [A]
 */
export function letThroughTo(through: number, fault: FaultLoopSeen, protection: readonly Protection[]): LetThroughTo {
  const inSeries = protection.filter(({ id }) => Math.abs(fault.currentOf(id)) >= 0.99 * through);
  const fuses = inSeries.filter(({ opensByHeat }) => opensByHeat);
  if (fuses.length === 0) return { outcome: 'unprotected', hasPyrotechnic: inSeries.length > 0 };
  let least: { energy: number; fuse: string; isCleared: boolean } | undefined;
  const needs: string[] = [];
  for (const fuse of fuses) {
    const { meltingEnergy, clearingEnergy } = fuse.role;
    if (meltingEnergy === undefined) needs.push(`parts.${fuse.part}.melting_energy`);
    if (clearingEnergy === undefined) needs.push(`parts.${fuse.part}.clearing_energy`);
    const melting = meltingIn(fuse, fault);
    if (!melting || clearingEnergy === undefined) continue;
    // a fuse that carries more than this conductor lets through the same share squared
    const share = through / Math.abs(fault.currentOf(fuse.id));
    const isCleared = melting.outcome === 'melts';
    const energy = isCleared ? clearingEnergy * share * share : through * through * ADIABATIC_TIME_LIMIT;
    if (!least || energy < least.energy) least = { energy, fuse: fuse.part, isCleared };
  }
  return least ? { outcome: 'energy', ...least } : { outcome: 'needs', needs };
}
