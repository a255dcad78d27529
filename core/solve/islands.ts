/** Which nodes hang together. Nodes are numbers; `nodeCount` itself stands for the reference. */
export class Joined {
  readonly #parent: Int32Array;

  constructor(nodeCount: number) { this.#parent = new Int32Array(nodeCount + 1); this.clear(); }

  clear(): void { for (let n = 0; n < this.#parent.length; n++) this.#parent[n] = n; }

  /** @param a  node, -1 for the reference */
  join(a: number, b: number): boolean {
    const rootA = this.root(a), rootB = this.root(b);
    if (rootA === rootB) return false;
    // the reference stays a root; otherwise the lower node number, so that results do not depend on the order of joining
    const reference = this.#parent.length - 1;
    const kept = rootA === reference || rootB === reference ? reference : Math.min(rootA, rootB);
    this.#parent[kept === rootA ? rootB : rootA] = kept;
    return true;
  }

  root(node: number): number {
    const parent = this.#parent;
    let n = node < 0 ? parent.length - 1 : node;
    while (parent[n] !== n) { parent[n] = parent[parent[n]!]!; n = parent[n]!; }
    return n;
  }

  together(a: number, b: number): boolean { return this.root(a) === this.root(b); }
  tiedToReference(node: number): boolean { return this.root(node) === this.#parent.length - 1; }
}

/** An edge of a graph of nodes; -1 is the reference. */
export interface Edges { readonly a: ArrayLike<number>; readonly b: ArrayLike<number>; readonly count: number }

/**
 * The edges whose opening would part what they join: nothing flows through them, for there is no way back.
 *
 * @param present  whether edge k is there at all
 * @returns 1 for each bridge
 * Source: R. E. Tarjan, Information Processing Letters 2 (1974), by low numbers of a depth-first search
 */
export function bridges(nodeCount: number, edges: Edges, present: (edge: number) => boolean): Uint8Array {
  const nodes = nodeCount + 1;
  const name = (node: number): number => (node < 0 ? nodeCount : node);
  const start = new Int32Array(nodes + 1);
  for (let k = 0; k < edges.count; k++) if (present(k)) { start[name(edges.a[k]!) + 1]!++; start[name(edges.b[k]!) + 1]!++; }
  for (let n = 0; n < nodes; n++) start[n + 1]! += start[n]!;
  const fill = start.slice(0, nodes), list = new Int32Array(start[nodes]!);
  for (let k = 0; k < edges.count; k++) if (present(k)) { list[fill[name(edges.a[k]!)]!++] = k; list[fill[name(edges.b[k]!)]!++] = k; }
  const isBridge = new Uint8Array(edges.count);
  const seen = new Int32Array(nodes).fill(-1), low = new Int32Array(nodes), at = start.slice(0, nodes), through = new Int32Array(nodes).fill(-1);
  let clock = 0;
  for (let root = 0; root < nodes; root++) {
    if (seen[root]! >= 0) continue;
    const stack = [root];
    seen[root] = low[root] = clock++;
    while (stack.length > 0) {
      const node = stack[stack.length - 1]!;
      if (at[node]! < start[node + 1]!) {
        const edge = list[at[node]!++]!;
        if (edge === through[node]) continue;
        const a = name(edges.a[edge]!), other = a === node ? name(edges.b[edge]!) : a;
        if (seen[other]! >= 0) { low[node] = Math.min(low[node]!, seen[other]!); continue; }
        seen[other] = low[other] = clock++;
        through[other] = edge;
        stack.push(other);
        continue;
      }
      stack.pop();
      if (stack.length === 0) continue;
      const above = stack[stack.length - 1]!;
      low[above] = Math.min(low[above]!, low[node]!);
      if (low[node]! > seen[above]!) isBridge[through[node]!] = 1;
    }
  }
  return isBridge;
}
