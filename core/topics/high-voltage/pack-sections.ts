/** Pieces of the pack: what stays together when some branches are open, and the voltage inside each piece. */
import type { Branch, MetalPaths } from './metal-paths.ts';

export interface Section { /** between its two furthest points [V] */ readonly highest: number }

/**
 * Pieces of the pack that stay in one piece over the branches that `joins`, with the voltage inside each at the cells' highest voltage.
 * Parallel ways count once; what a loop of cells contradicts is left at its first value.
 */
export function sections(paths: MetalPaths, joins: (branch: Branch) => boolean): readonly Section[] {
  const at = new Map<number, Branch[]>();
  for (const branch of paths.branches) {
    if (!joins(branch)) continue;
    for (const point of [branch.from, branch.to]) {
      const list = at.get(point);
      if (list) list.push(branch);
      else at.set(point, [branch]);
    }
  }
  const seen = new Set<number>();
  const found: Section[] = [];
  for (const terminal of paths.cellTerminals) {
    const start = paths.pointOf(terminal);
    if (seen.has(start)) continue;
    const potential = new Map<number, number>([[start, 0]]);
    const queue = [start];
    let [low, high] = [0, 0];
    for (let point = queue.pop(); point !== undefined; point = queue.pop()) {
      seen.add(point);
      const here = potential.get(point)!;
      low = Math.min(low, here);
      high = Math.max(high, here);
      for (const branch of at.get(point) ?? []) {
        const other = branch.from === point ? branch.to : branch.from;
        if (potential.has(other)) continue;
        potential.set(other, here + (branch.from === point ? -branch.voltage : branch.voltage));
        queue.push(other);
      }
    }
    found.push({ highest: high - low });
  }
  return found;
}
