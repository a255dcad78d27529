/**
 * The battery as a puzzle: pieces of metal, cells between them, terminals that can be touched, and joints still to be made.
 * Plain numbers, so that a million states can be looked at.
 */
export interface JoinProblem {
  /** pieces of metal before any joint is made; numbered from 0 */
  readonly pieces: number;
  readonly cells: readonly { readonly negative: number; readonly positive: number; /** [V] */ readonly voltage: number }[];
  readonly terminals: readonly Terminal[];
  readonly joints: readonly ProblemJoint[];
}

export interface Terminal {
  readonly piece: number;
  /** `until_joined`: can be touched until all its joints are made and the cover is on */
  readonly exposed: 'always' | 'until_joined' | 'never';
  /** joints that end here, by number */
  readonly joints: readonly number[];
}

export interface ProblemJoint {
  readonly a: number; readonly b: number;
  /** joints that must be made before this one, by number */
  readonly after: readonly number[];
}

/** What can be touched in a state of assembly. */
export interface Touch {
  /** highest voltage between a touchable terminal and the chassis, when the worst point of its island leaks to the chassis [V] */
  readonly voltage: number;
  /** number of the terminal; undefined when nothing touchable has voltage */
  readonly terminal: number | undefined;
}

/**
 * Pieces joined into islands, each piece with its voltage above the island's first. Joints can be taken back in the reverse order.
 */
export interface Islands {
  /** joins two pieces by a source of `voltage` from a to b (0: metal); the voltage that stood across it when both were one island already */
  readonly join: (a: number, b: number, voltage: number) => number | undefined;
  readonly undo: () => void;
  readonly islandOf: (piece: number) => number;
  /** [V] above the first piece of its island */
  readonly voltageOf: (piece: number) => number;
  /** both of every piece at once, into arrays as long as there are pieces */
  readonly fill: (roots: Int32Array, heights: Float64Array) => void;
}

/** No path compression, so that joins can be undone; ranks keep the trees low. */
export function islands(count: number): Islands {
  const parent = Int32Array.from({ length: count }, (_, index) => index);
  const size = new Int32Array(count).fill(1);
  /** above the parent [V] */
  const above = new Float64Array(count);
  const history: number[] = [];
  const rootOf = (piece: number): number => { let at = piece; while (parent[at] !== at) at = parent[at] as number; return at; };
  const heightOf = (piece: number): number => { let at = piece; let sum = 0; while (parent[at] !== at) { sum += above[at] as number; at = parent[at] as number; } return sum; };
  return {
    islandOf: rootOf,
    voltageOf: heightOf,
    fill: (roots, heights) => {
      for (let piece = 0; piece < count; piece++) {
        let at = piece;
        let sum = 0;
        for (let up = parent[at] as number; up !== at; up = parent[at] as number) { sum += above[at] as number; at = up; }
        roots[piece] = at;
        heights[piece] = sum;
      }
    },
    join: (a, b, voltage) => {
      const [rootA, rootB] = [rootOf(a), rootOf(b)];
      const [heightA, heightB] = [heightOf(a), heightOf(b)];
      if (rootA === rootB) { history.push(-1); return heightB - heightA - voltage; }
      // b stands `voltage` above a
      const difference = heightA + voltage - heightB;
      if ((size[rootA] as number) >= (size[rootB] as number)) {
        parent[rootB] = rootA; above[rootB] = difference; size[rootA] = (size[rootA] as number) + (size[rootB] as number); history.push(rootB);
      } else {
        parent[rootA] = rootB; above[rootA] = -difference; size[rootB] = (size[rootB] as number) + (size[rootA] as number); history.push(rootA);
      }
      return undefined;
    },
    undo: () => {
      const child = history.pop();
      if (child === undefined) throw new Error('nothing to undo');
      if (child < 0) return;
      const root = parent[child] as number;
      size[root] = (size[root] as number) - (size[child] as number);
      parent[child] = child;
      above[child] = 0;
    },
  };
}

/**
 * Islands of a state: the cells, and the joints that are made, in the order of the problem: where joints contradict the cells (a shorted
 * module), the voltages depend on which is counted first, and a state must not depend on the way to it.
 */
export function islandsOf(problem: JoinProblem, made: (joint: number) => boolean): Islands {
  const all = islands(problem.pieces);
  for (const { negative, positive, voltage } of problem.cells) all.join(negative, positive, voltage);
  problem.joints.forEach(({ a, b }, index) => { if (made(index)) all.join(a, b, 0); });
  return all;
}

/** Whether hands can reach a terminal, with these joints made. */
export function isOpen({ exposed, joints }: Terminal, made: (joint: number) => boolean): boolean {
  return exposed === 'always' || (exposed === 'until_joined' && !(joints.length > 0 && joints.every(made)));
}

/** A toucher of states that allocates nothing per state. */
export function toucher(problem: JoinProblem): (state: Islands, made: (joint: number) => boolean) => Touch {
  const low = new Float64Array(problem.pieces);
  const high = new Float64Array(problem.pieces);
  const heights = new Float64Array(problem.pieces);
  const roots = new Int32Array(problem.pieces);
  return (state, made) => {
    low.fill(Infinity);
    high.fill(-Infinity);
    state.fill(roots, heights);
    for (let piece = 0; piece < problem.pieces; piece++) {
      const root = roots[piece] as number;
      const height = heights[piece] as number;
      if (height < (low[root] as number)) low[root] = height;
      if (height > (high[root] as number)) high[root] = height;
    }
    let voltage = 0;
    let worst: number | undefined;
    for (let index = 0; index < problem.terminals.length; index++) {
      const terminal = problem.terminals[index] as Terminal;
      if (!isOpen(terminal, made)) continue;
      const { piece } = terminal;
      const root = roots[piece] as number;
      const here = Math.max((heights[piece] as number) - (low[root] as number), (high[root] as number) - (heights[piece] as number));
      // the first of equals, whatever the noise of sums
      if (here > voltage * (1 + 1e-12) + 1e-12) { voltage = here; worst = index; }
    }
    return { voltage, terminal: worst };
  };
}
