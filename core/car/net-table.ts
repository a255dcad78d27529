/** Small tables over nets: what touches each, and which stand highest and lowest. */

/** Edges by the nets that they touch. */
export function byNet<E>(edges: readonly E[], netsOf: (edge: E) => readonly string[]): ReadonlyMap<string, readonly E[]> {
  const at = new Map<string, E[]>();
  for (const edge of edges) {
    for (const net of netsOf(edge)) {
      const list = at.get(net);
      if (list) list.push(edge);
      else at.set(net, [edge]);
    }
  }
  return at;
}

/**
 * Nets with the highest and the lowest potential, in that order; the first of equals.
 * @returns empty when there are no nets
 */
export function highestAndLowest(potential: ReadonlyMap<string, number>, nets: Iterable<string>): readonly string[] {
  let [top, bottom]: (string | undefined)[] = [];
  for (const net of nets) {
    const value = potential.get(net) ?? 0;
    if (top === undefined || value > (potential.get(top) ?? 0)) top = net;
    if (bottom === undefined || value < (potential.get(bottom) ?? 0)) bottom = net;
  }
  return top === undefined || bottom === undefined ? [] : [top, bottom];
}
