/** The faults that a fuse has to open: the highest, the lowest, and the one with the slowest rise. */
import type { Melting } from '../../physics/fuse-clearing.ts';
import type { FaultCase, Faults } from './fault-currents.ts';
import type { Opening, Protection } from './fuse-in-fault.ts';

export interface FuseFaults {
  /** prospective current of a short right behind it, full warm pack [A]; at most this */
  readonly highest: number;
  /** prospective current at the far end of what it feeds, nearly empty cold pack [A] */
  readonly lowest: number;
  readonly lowestAt: string;
  /** L/R [s] */
  readonly timeConstant: number;
  readonly slowestAt: string;
  /** runs of those loops without a length */
  readonly lengthMissing: readonly string[];
  /** in the lowest fault; undefined when the melting I²t is not known */
  readonly melting: Melting | undefined;
  readonly clearingTime: number | undefined;
  /** values without which it is not known whether a smaller fuse ends the lowest fault first */
  readonly coverNeeds: readonly string[];
}

/**
 * The faults of one fuse.
 *
 * A fault that another fuse in series is sure to end first (its clearing I²t is at most this fuse's melting I²t) counts for the
 * highest current only: this fuse does not have to open it, but a short between the two it must.
 *
 * @returns undefined when it carries nothing in any computed fault
 * Range: a short right behind the fuse is taken as the fuse's share of a short across the battery itself, which is never less
 */
export function faultsThrough(fuse: Protection, faults: Faults): FuseFaults | undefined {
  const packFault = Math.max(0, ...faults.cases.filter(({ where, end }) => where === 'pack' && end === 'high').map(({ current }) => current));
  const carried = faults.cases.flatMap((fault) => fault.openings.filter((opening) => opening.fuse.id === fuse.id).map((opening) => ({ fault, opening })));
  if (carried.length === 0) return undefined;
  const own = carried.filter(({ fault, opening }) => !isEndedByAnother(opening, fault));
  const toOpen = own.length > 0 ? own : carried;
  const lowest = toOpen.reduce((least, next) => (next.opening.through < least.opening.through ? next : least));
  const slowest = toOpen.reduce((worst, next) => (timeConstant(next.fault) > timeConstant(worst.fault) ? next : worst));
  return {
    highest: Math.max(...carried.map(({ fault, opening: { through } }) => Math.max(through, fault.end === 'high' ? (through / fault.current) * packFault : 0))),
    lowest: lowest.opening.through, lowestAt: lowest.fault.at, timeConstant: timeConstant(slowest.fault), slowestAt: slowest.fault.at,
    lengthMissing: [...new Set(toOpen.flatMap(({ fault }) => fault.lengthMissing))],
    melting: lowest.opening.melting, clearingTime: lowest.opening.clearingTime, coverNeeds: coverNeeds(lowest.opening, lowest.fault),
  };
}

const timeConstant = ({ inductance, resistance }: FaultCase): number => inductance / resistance;

function isEndedByAnother({ fuse, through }: Opening, fault: FaultCase): boolean {
  const melting = fuse.role.meltingEnergy;
  return melting !== undefined && fault.openings.some((other) => other.fuse.id !== fuse.id && other.fuse.opensByHeat
    && other.fuse.role.clearingEnergy !== undefined && other.fuse.role.clearingEnergy <= melting && other.through >= 0.99 * through && fault.stops(other.fuse.id, fuse.id));
}

/** A smaller fuse in series might end it first, but a sheet lacks what would say so. */
function coverNeeds({ fuse, through }: Opening, fault: FaultCase): readonly string[] {
  const smaller = fault.openings.filter((other) => other.fuse.id !== fuse.id && other.fuse.opensByHeat && other.fuse.role.rating < fuse.role.rating && other.through >= 0.99 * through && fault.stops(other.fuse.id, fuse.id));
  const unknown = smaller.filter((other) => other.fuse.role.clearingEnergy === undefined);
  if (smaller.length === 0 || (unknown.length === 0 && fuse.role.meltingEnergy !== undefined)) return [];
  return [...(fuse.role.meltingEnergy === undefined ? [`parts.${fuse.part}.melting_energy`] : []), ...unknown.map((other) => `parts.${other.fuse.part}.clearing_energy`)];
}
