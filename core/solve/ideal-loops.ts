/**
 * Loops made only of ideal branches (no resistance at all: shorts and ideal sources).
 *
 * Round such a loop the voltages either add up to nothing, then the currents in it are not decided by the network and the
 * share with the least sum of squares is taken (what equal tiny resistances would give), or they do not, then no currents
 * exist at all: a contradiction.
 */
import { Joined } from './islands.ts';

/** An ideal branch: v(a) - v(b) = voltage. Nodes are numbers, -1 the reference. */
export interface IdealBranch { readonly branch: number; readonly a: number; readonly b: number; readonly voltage: number }

export interface IdealLoops {
  /** one branch of each loop; its own equation repeats what the others say */
  readonly redundant: readonly number[];
  /** for each of those the whole loop: branches with +1 or -1 */
  readonly loops: readonly (readonly (readonly [branch: number, sign: number])[])[];
  /** a loop whose voltages contradict each other */
  readonly contradiction: readonly number[] | undefined;
}

const NO_LOOPS: IdealLoops = { redundant: [], loops: [], contradiction: undefined };

export function idealLoops(nodeCount: number, branches: readonly IdealBranch[]): IdealLoops {
  const joined = new Joined(nodeCount);
  const inTree: IdealBranch[] = [];
  const closing: IdealBranch[] = [];
  for (const branch of branches) (joined.join(branch.a, branch.b) ? inTree : closing).push(branch);
  if (closing.length === 0) return NO_LOOPS;
  const atNode = new Map<number, IdealBranch[]>();
  for (const branch of inTree) for (const node of [branch.a, branch.b]) atNode.set(node, [...(atNode.get(node) ?? []), branch]);
  const loops: [number, number][][] = [];
  let contradiction: number[] | undefined;
  for (const branch of closing) {
    const way = wayThrough(atNode, branch.b, branch.a);
    const loop: [number, number][] = [[branch.branch, 1], ...way.map(([step, sign]): [number, number] => [step.branch, sign])];
    let sum = branch.voltage, scale = Math.abs(branch.voltage);
    for (const [step, sign] of way) { sum += sign * step.voltage; scale += Math.abs(step.voltage); }
    if (Math.abs(sum) > 1e-9 * scale + 1e-12) contradiction ??= loop.map(([member]) => member);
    loops.push(loop);
  }
  return { redundant: closing.map(({ branch }) => branch), loops, contradiction };
}

/** Adds loop currents so that the sum of squares in each set of joined loops is least. */
export function shareInLoops(loops: IdealLoops['loops'], currents: Float64Array): void {
  const count = loops.length;
  if (count === 0) return;
  const signs = loops.map((loop) => new Map(loop));
  const rows = signs.map((loop, n) => {
    const row = signs.map((other) => { let sum = 0; for (const [branch, sign] of loop) sum += sign * (other.get(branch) ?? 0); return sum; });
    let right = 0;
    for (const [branch, sign] of loops[n]!) right -= sign * currents[branch]!;
    return [...row, right];
  });
  // symmetric and positive definite: each loop has a branch of its own, so plain elimination needs no pivoting
  for (let k = 0; k < count; k++) {
    for (let r = k + 1; r < count; r++) {
      const factor = rows[r]![k]! / rows[k]![k]!;
      if (factor !== 0) for (let c = k; c <= count; c++) rows[r]![c]! -= factor * rows[k]![c]!;
    }
  }
  for (let k = count - 1; k >= 0; k--) {
    let sum = rows[k]![count]!;
    for (let c = k + 1; c < count; c++) sum -= rows[k]![c]! * rows[c]![count]!;
    rows[k]![count] = sum / rows[k]![k]!;
    for (const [branch, sign] of loops[k]!) currents[branch]! += sign * rows[k]![count]!;
  }
}

/** The way through a tree from one node to another; +1 where a branch is passed from a to b. */
function wayThrough(atNode: ReadonlyMap<number, readonly IdealBranch[]>, from: number, to: number): [IdealBranch, number][] {
  const cameBy = new Map<number, [IdealBranch, number, number] | undefined>([[from, undefined]]);
  const queue = [from];
  while (queue.length > 0 && !cameBy.has(to)) {
    const node = queue.shift()!;
    for (const branch of atNode.get(node) ?? []) {
      const forward = branch.a === node;
      const next = forward ? branch.b : branch.a;
      if (cameBy.has(next)) continue;
      cameBy.set(next, [branch, forward ? 1 : -1, node]);
      queue.push(next);
    }
  }
  const way: [IdealBranch, number][] = [];
  for (let step = cameBy.get(to); step !== undefined; step = cameBy.get(step[2])) way.unshift([step[0], step[1]]);
  return way;
}
