/**
 * What of the battery's leads no fuse stands before: the conductors from an end of the battery to the first fuses, every contact closed.
 *
 * A short across the ends that no fuse in the string ends can come about only where both sides are bare of fuses. The side with
 * less of it decides: with the fuse at the positive end that is the way to this fuse, and all of the negative side lies opposite.
 */
import type { Car } from '../../car/car.ts';
import type { MetalPaths } from './metal-paths.ts';
import type { PackEnds } from './pack-ends.ts';

export interface UnfusedEnd {
  /** in the order of the file */
  readonly runs: readonly string[];
  /** of them together [m]; undefined when one has no length */
  readonly length: number | undefined;
}

/**
 * So much of it, covered and apart from the other pole, is let pass with a warning [m]. Our choice, no source; ABYC E-11 (boats)
 * lets 0.18 m pass bare and 1.83 m in a sheath (from memory).
 */
export const SHORT_LEAD = 0.5;

/** The shorter of the two unfused ends of a pack. */
export function unfusedEnd(car: Car, paths: MetalPaths, { positive, negative }: PackEnds): UnfusedEnd {
  const bare = paths.groups(({ type, isFuse }) => type !== 'cells' && !isFuse);
  const sides = [positive, negative].map((end): UnfusedEnd => {
    const runs = [...car.runs.values()].filter((run) => run.carries === 'high_voltage' && bare.same(run.from, end) && bare.same(run.to, end));
    const lengths = runs.map(({ length }) => length);
    return { runs: runs.map(({ name }) => name), length: lengths.some((length) => length === undefined) ? undefined : lengths.reduce<number>((sum, length) => sum + length!, 0) };
  });
  return sides.reduce((best, side) => ((side.length ?? Infinity) < (best.length ?? Infinity) ? side : best));
}
