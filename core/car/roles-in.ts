/**
 * What a part does with the settings of a mode: `part.roles` says it at rest.
 */
import type { Roles } from '../part/role.ts';
import type { Car, CarPart } from './car.ts';

/** @returns no roles for a part that lacks values, as at rest; the roles at rest for a mode that sets nothing on it */
export function rolesIn(car: Car, part: CarPart, mode: string): Roles {
  const settings = car.modes.get(mode)?.set[part.name];
  return settings === undefined || part.missing.length > 0 ? part.roles : part.kind.roles(part.now(settings));
}
