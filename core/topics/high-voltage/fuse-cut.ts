/**
 * Fuses that end a fault only together: two parallel strings with one each, or one in each of two ways to the fault.
 */
import type { Opening } from './fuse-in-fault.ts';

/**
 * A set of fuses that ends a fault when all of them open, and of which none can be left out; of several such sets one whose
 * fuses let little through.
 *
 * @param isFedWithout  whether metal and cells still join the two points of the fault when these elements (`Part.element`) are open
 * @returns empty when the fault goes on with every fuse in it open
 */
export function fuseCut(openings: readonly Opening[], isFedWithout: (open: readonly string[]) => boolean): readonly Opening[] {
  let set = openings.filter(({ fuse }) => fuse.opensByHeat);
  const still = (without: readonly Opening[]): boolean => isFedWithout(without.map(({ fuse }) => fuse.id));
  if (set.length === 0 || still(set)) return [];
  // the one that lets most through is left out first; one whose sheet does not say counts as letting everything through
  const byEnergy = [...set].sort((a, b) => (b.fuse.role.clearingEnergy ?? Infinity) - (a.fuse.role.clearingEnergy ?? Infinity) || 0);
  for (const one of byEnergy) {
    const rest = set.filter((other) => other !== one);
    if (rest.length > 0 && !still(rest)) set = rest;
  }
  return set;
}
