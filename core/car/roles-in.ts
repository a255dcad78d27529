/**
 * What a part does with the settings of a mode: `part.roles` says it at rest.
 */
import type { Roles } from '../part/role.ts';
import type { Plain } from '../build/plain-values.ts';
import type { Car, CarPart } from './car.ts';
import { remembered } from './remembered.ts';

/** @returns no roles for a part that lacks values, as at rest; the roles at rest for a mode that sets nothing on it */
export function rolesIn(car: Car, part: CarPart, mode: string): Roles {
  const settings = car.modes.get(mode)?.set[part.name];
  if (settings === undefined || part.missing.length > 0) return part.roles;
  const known = rolesKnown(car);
  let set = known.get(settings);
  if (set?.part !== part) known.set(settings, (set = { part, roles: part.kind.roles(part.now(settings)) }));
  return set.roles;
}

/** By the settings of a mode, which belong to one part. */
const rolesKnown = remembered((_: Car) => new Map<Plain, { readonly part: CarPart; readonly roles: Roles }>());
