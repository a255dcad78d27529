/**
 * Parallel strings without a fuse of their own. With two strings and one fuse no loop of cells stays closed when it opens, and yet
 * a fault in the string without one is fed by that string until it is empty.
 */
import type { Car } from '../../car/car.ts';
import type { Assembly, PackString } from '../../car/strings.ts';
import { stringsOf } from '../../car/strings.ts';
import type { MetalPaths } from './metal-paths.ts';

export interface UnfusedString { /** its first module */ readonly name: string; /** every cell at its highest in service [V] */ readonly voltage: number }

/**
 * Members of parallel assemblies, at any depth, that reach both shared ends through metal and their own cells with every fuse out.
 *
 * @returns none for a pack that is neither one string nor put together from parallel and series ones: its loops are looked at elsewhere
 */
export function unfusedStrings(car: Car, paths: MetalPaths): readonly UnfusedString[] {
  return stringsOf(car).packs.flatMap(({ assembly }) => (assembly ? within(assembly, car, paths) : []));
}

function within(assembly: Assembly, car: Car, paths: MetalPaths): readonly UnfusedString[] {
  if (assembly.form === 'string') return [];
  const inside = assembly.members.flatMap((member) => within(member.assembly, car, paths));
  if (assembly.form === 'series') return inside;
  const bare = assembly.members.filter((member) => {
    const own = new Set(stringsIn(member.assembly).flatMap(({ modules }) => modules.map(({ part }) => part.name)));
    return paths.groups(({ type, isFuse, id }) => !isFuse && (type !== 'cells' || own.has(id.slice(0, id.indexOf('.'))))).same(assembly.positive, assembly.negative);
  });
  return [...inside, ...bare.map((member) => ({ name: stringsIn(member.assembly)[0]!.name, voltage: Math.abs(voltageOf(member.assembly)) }))];
}

function stringsIn(assembly: Assembly): readonly PackString[] {
  return assembly.form === 'string' ? [assembly.string] : assembly.members.flatMap((member) => stringsIn(member.assembly));
}

function voltageOf(assembly: Assembly): number {
  switch (assembly.form) {
    case 'string': return assembly.string.modules.reduce((sum, { part }) => sum + (part.roles.cells?.series ?? 0) * (part.cell?.maximumVoltage ?? 0), 0);
    case 'series': return assembly.members.reduce((sum, member) => sum + voltageOf(member.assembly), 0);
    case 'parallel': return Math.max(...assembly.members.map((member) => voltageOf(member.assembly)));
  }
}
