/** Into what a high-voltage diagram falls when one page cannot hold it: the strings of the battery, and the branches to what takes from it. */
import type { BlockSpec } from '../diagram/blocks.ts';

interface Run { readonly name: string; readonly from: string; readonly to: string }

/**
 * A branch is a string or a consumer with everything on its way to a bar, where more than two runs meet. What belongs to none goes with the battery.
 * @param strings, ends  nodes with which a branch starts
 */
export function inBranches(runs: readonly Run[], nodeOf: (point: string) => string, strings: ReadonlySet<string>, ends: ReadonlySet<string>): BlockSpec {
  const at = new Map<string, Run[]>();
  for (const run of runs) for (const node of new Set([nodeOf(run.from), nodeOf(run.to)])) at.set(node, [...(at.get(node) ?? []), run]);
  const taken = new Set<string>();
  const branchFrom = (start: string, isLeft: (node: string) => boolean): readonly string[] => {
    const branch: string[] = [];
    const queue = [start];
    for (const node of queue) {
      // two contactors in one line part no current; a fuse with a contactor and a precharge behind it does, and is no bar
      const isBar = node !== start && (strings.has(node) || ends.has(node) || new Set((at.get(node) ?? []).map(({ from, to }) => nodeOf(from) === node ? nodeOf(to) : nodeOf(from))).size > MOST_WAYS);
      if (isBar) continue;
      for (const run of at.get(node) ?? []) {
        const other = nodeOf(run.from) === node ? nodeOf(run.to) : nodeOf(run.from);
        if (taken.has(run.name) || isLeft(other)) continue;
        taken.add(run.name);
        branch.push(run.name);
        queue.push(other);
      }
    }
    return branch;
  };
  const batteries = [...strings].map((node) => branchFrom(node, (other) => ends.has(other))).filter((branch) => branch.length > 0);
  const consumers = [...ends].map((node) => branchFrom(node, () => false)).filter((branch) => branch.length > 0);
  const rest = runs.map(({ name }) => name).filter((name) => !taken.has(name));
  const battery = halves('Battery', rest.length > 0 ? [...batteries, rest] : batteries);
  const consumer = halves('Consumers', consumers);
  const pieces = [battery, consumer].filter((spec) => spec.runs.length > 0);
  return { title: '', runs: runs.map(({ name }) => name), ...(pieces.length > 1 ? { pieces: pieces.map((piece, index) => (index === 0 ? { ...piece, startsPage: '' } : piece)) } : {}) };
}

/** more neighbours than this make a bar: from a fuse behind which contactor and precharge part there lead three ways */
const MOST_WAYS = 3;

function halves(title: string, branches: readonly (readonly string[])[]): BlockSpec {
  const half = Math.ceil(branches.length / 2);
  return { title, runs: branches.flat(), ...(branches.length > 1 ? { pieces: [halves(title, branches.slice(0, half)), halves(`${title.replace(', continued', '')}, continued`, branches.slice(half))] } : {}) };
}
