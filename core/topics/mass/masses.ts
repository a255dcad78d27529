/**
 * Everything that has a mass and a place: what was taken out (negative), what was put in.
 */
import type { Car } from '../../car/car.ts';
import type { Position } from '../../part/field.ts';

export interface MassEntry {
  readonly name: string;
  readonly change: 'removed' | 'added';
  /** [kg], > 0 also for what was removed */
  readonly mass: number | undefined;
  readonly at: Position | undefined;
  /** paths of what is missing */
  readonly needs: readonly string[];
}

/** In the order of the file: removed first. A part without a mass or a place is listed with what it needs; a tool that stands beside the vehicle is not listed. */
export function massEntries(car: Car): MassEntry[] {
  const entry = (name: string, change: MassEntry['change'], section: string, mass: number | undefined, at: Position | undefined): MassEntry =>
    ({ name, change, mass, at, needs: [...(mass === undefined ? [`${section}.${name}.mass`] : []), ...(at === undefined && mass !== 0 ? [`${section}.${name}.at`] : [])] });
  return [
    ...car.removed.map(({ name, mass, at }) => entry(name, 'removed', 'removed', mass, at)),
    ...[...car.parts.values()].filter(({ kind }) => kind.standsBeside !== true).map(({ name, mass, at }) => entry(name, 'added', 'parts', mass, at)),
  ];
}
