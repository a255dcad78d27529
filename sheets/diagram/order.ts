/** In which order parts stand from left to right: by steps from where the current comes from. */

export interface Link { readonly a: string; readonly b: string }

/**
 * Steps from the starts over links, breadth first; what they do not reach is counted from the first of it in the order given.
 * @param ends  nodes through which the count does not go on; they stand beyond everything that they hang on
 */
export function stepsFrom(starts: readonly string[], nodes: readonly string[], links: readonly Link[], ends: ReadonlySet<string> = new Set()): ReadonlyMap<string, number> {
  const at = new Map<string, string[]>();
  const join = (a: string, b: string): void => { const list = at.get(a); if (list) list.push(b); else at.set(a, [b]); };
  for (const { a, b } of links) {
    join(a, b);
    join(b, a);
  }
  const steps = new Map<string, number>();
  const walk = (from: readonly string[], through: (node: string) => boolean): void => {
    const queue = [...from];
    for (const node of queue) {
      if (!through(node)) continue;
      for (const next of at.get(node) ?? []) {
        if (steps.has(next)) continue;
        steps.set(next, steps.get(node)! + 1);
        queue.push(next);
      }
    }
  };
  const counted = new Set<string>();
  const begin = (nodesFrom: readonly string[]): void => {
    for (const node of nodesFrom) steps.set(node, 0);
    walk(nodesFrom, (node) => !ends.has(node));
    const reached = [...steps.keys()].filter((node) => ends.has(node) && !counted.has(node));
    for (const node of reached) counted.add(node);
    for (const node of reached) steps.set(node, 1 + Math.max(...(at.get(node) ?? []).filter((next) => steps.has(next) && !ends.has(next)).map((next) => steps.get(next)!), 0));
    // beyond the ends: what hangs on them alone
    walk(reached, () => true);
  };
  begin(starts.filter((node) => nodes.includes(node)));
  for (const node of nodes) if (!steps.has(node)) begin([node]);
  return steps;
}
