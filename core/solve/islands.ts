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
 * Finds the edges of a graph whose opening would part what they join: nothing flows through them, for there is no way back.
 *
 * Source: R. E. Tarjan, Information Processing Letters 2 (1974), by low numbers of a depth-first search
 */
export class BridgeFinder {
  readonly #a: Int32Array;
  readonly #b: Int32Array;
  /** edges at each node: `#list` from `#start[node]` */
  readonly #start: Int32Array;
  readonly #list: Int32Array;

  constructor(nodeCount: number, { a, b, count }: Edges) {
    const nodes = nodeCount + 1;
    this.#a = Int32Array.from({ length: count }, (_, k) => (a[k]! < 0 ? nodeCount : a[k]!));
    this.#b = Int32Array.from({ length: count }, (_, k) => (b[k]! < 0 ? nodeCount : b[k]!));
    this.#start = new Int32Array(nodes + 1);
    for (let k = 0; k < count; k++) { this.#start[this.#a[k]! + 1]!++; this.#start[this.#b[k]! + 1]!++; }
    for (let n = 0; n < nodes; n++) this.#start[n + 1]! += this.#start[n]!;
    const fill = this.#start.slice();
    this.#list = new Int32Array(2 * count);
    for (let k = 0; k < count; k++) { this.#list[fill[this.#a[k]!]!++] = k; this.#list[fill[this.#b[k]!]!++] = k; }
  }

  /**
   * @param present  1 for each edge that is there at all
   * @returns 1 for each bridge
   */
  find(present: Uint8Array): Uint8Array {
    const edgeA = this.#a, edgeB = this.#b, start = this.#start, list = this.#list;
    const nodes = start.length - 1;
    const isBridge = new Uint8Array(edgeA.length);
    const seen = new Int32Array(nodes).fill(-1), low = new Int32Array(nodes), at = start.slice(0, nodes), through = new Int32Array(nodes).fill(-1), stack = new Int32Array(nodes);
    let clock = 0;
    for (let root = 0; root < nodes; root++) {
      if (seen[root]! >= 0) continue;
      let depth = 0;
      stack[0] = root;
      seen[root] = low[root] = clock++;
      while (depth >= 0) {
        const node = stack[depth]!;
        if (at[node]! < start[node + 1]!) {
          const edge = list[at[node]!++]!;
          if (edge === through[node] || present[edge] === 0) continue;
          const other = edgeA[edge] === node ? edgeB[edge]! : edgeA[edge]!;
          if (seen[other]! >= 0) { if (seen[other]! < low[node]!) low[node] = seen[other]!; continue; }
          seen[other] = low[other] = clock++;
          through[other] = edge;
          stack[++depth] = other;
          continue;
        }
        if (--depth < 0) continue;
        const above = stack[depth]!;
        if (low[node]! < low[above]!) low[above] = low[node]!;
        if (low[node]! > seen[above]!) isBridge[through[node]!] = 1;
      }
    }
    return isBridge;
  }
}
