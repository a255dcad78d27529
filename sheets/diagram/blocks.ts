/**
 * Blocks of a diagram: each a set of runs that is laid out by itself. A run is drawn in exactly one block; a part stands in every block in
 * which one of its runs does, and says where else. What is too large for the paper is cut in two where the layout itself has room.
 */
import type { Graph, Placed, PlacedPoint, Side } from './graph.ts';
import { layOut } from './lay-out.ts';
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { coarse, lineText, STEP } from './make-mark.ts';
import type { Mark, Voltage, WireText } from './mark.ts';

export interface BlockSpec {
  readonly title: string;
  readonly runs: readonly string[];
  /** nodes that no run of it touches */
  readonly loose?: readonly string[];
  /** first block of a new page */
  readonly startsPage?: string;
  /** what it falls into when it is too large for the paper; absent: it is cut where the layout has room */
  readonly pieces?: readonly BlockSpec[];
}

export interface RunSpec { readonly name: string; readonly from: string; readonly to: string; readonly voltage: Voltage; readonly text: WireText }
export interface UsedPort { readonly id: string; readonly point: string; readonly side: Side }

/** What the sheet knows of its car. */
export interface Source {
  readonly run: (name: string) => RunSpec;
  /** node of a point */
  readonly nodeOf: (point: string) => string;
  /** lines run from lower to higher */
  readonly rank: (point: string) => number;
  /** side on which a point lies whatever its runs do */
  readonly sideOf: (point: string) => Side | undefined;
  /** the point at which a node is at home: what it says once, it says in the block that has a run there */
  readonly home: (node: string) => string | undefined;
  /** @param references  in how many other blocks it stands */
  readonly mark: (node: string, ports: readonly UsedPort[], references: number, isHome: boolean) => Mark;
}

export interface Wire { readonly run: string; readonly voltage: Voltage; readonly text: WireText; readonly points: readonly PlacedPoint[]; readonly junctions: readonly PlacedPoint[]; readonly label: PlacedPoint }
export interface Block {
  readonly title: string; readonly startsPage?: string;
  readonly width: number; readonly height: number;
  readonly marks: readonly { readonly mark: Mark; readonly x: number; readonly y: number }[];
  readonly wires: readonly Wire[];
}

/** Most rounds of cutting: each halves what is too large. */
const ROUNDS = 8;

/** Cuts kept: they follow from the sizes of the uncut blocks, so that the same structure need not be cut again. */
const KEPT = 60;
const kept = new Map<string, readonly BlockSpec[]>();

export async function layBlocks(specs: readonly BlockSpec[], source: Source, most: { readonly width: number; readonly height: number }): Promise<readonly Block[]> {
  const made = new Map<string, Mark>();
  const whole = graphsOf(specs, source, made);
  const key = JSON.stringify([most, whole.map(({ graph }) => graph)]);
  let now = kept.get(key);
  if (!now) {
    now = specs;
    for (let round = 0; round < ROUNDS; round++) {
      const graphs = round === 0 ? whole : graphsOf(now, source, made);
      const placed = await placesOf(graphs);
      const next: readonly BlockSpec[] = now.flatMap((spec, index) => cut(spec, placed[index]!, most));
      if (next.length === now.length) break;
      now = next;
    }
    kept.set(key, now);
    if (kept.size > KEPT) kept.delete(kept.keys().next().value as string);
  }
  const graphs = now === specs ? whole : graphsOf(now, source, made);
  const placed = await placesOf(graphs);
  return now.map((spec, index) => blockOf(spec, graphs[index]!.marks, placed[index]!, source));
}

interface BlockGraph { readonly graph: Graph; readonly marks: readonly Mark[] }

function graphsOf(specs: readonly BlockSpec[], source: Source, made: Map<string, Mark>): readonly BlockGraph[] {
  const nodes = specs.map((spec) => nodesIn(spec, source));
  const seen = new Map<string, number>();
  for (const list of nodes) for (const node of list) seen.set(node, (seen.get(node) ?? 0) + 1);
  const homes = homesOf(specs, nodes, source);
  return specs.map((spec, index) => graphOf(spec, nodes[index]!, source, seen, homes, made));
}

/** One after the other: the engine works on one at a time anyway. */
async function placesOf(graphs: readonly BlockGraph[]): Promise<readonly Placed[]> {
  const placed: Placed[] = [];
  for (const { graph } of graphs) placed.push(await layOut(graph));
  return placed;
}

function nodesIn(spec: BlockSpec, source: Source): ReadonlySet<string> {
  return new Set([...(spec.loose ?? []), ...spec.runs.flatMap((name) => { const { from, to } = source.run(name); return [source.nodeOf(from), source.nodeOf(to)]; })]);
}

/** The block in which each node says what it says once: where its home point has a run, else the first. */
function homesOf(specs: readonly BlockSpec[], nodes: readonly ReadonlySet<string>[], source: Source): ReadonlyMap<string, BlockSpec> {
  const homes = new Map<string, BlockSpec>();
  const settled = new Set<string>();
  for (const [index, spec] of specs.entries()) {
    const points = new Set(spec.runs.flatMap((name) => { const { from, to } = source.run(name); return [from, to]; }));
    for (const node of nodes[index]!) {
      const home = source.home(node);
      const isThere = home !== undefined && points.has(home);
      if (settled.has(node) || (homes.has(node) && !isThere)) continue;
      homes.set(node, spec);
      if (isThere) settled.add(node);
    }
  }
  return homes;
}

function graphOf(spec: BlockSpec, nodes: ReadonlySet<string>, source: Source, seen: ReadonlyMap<string, number>, homes: ReadonlyMap<string, BlockSpec>, made: Map<string, Mark>): BlockGraph {
  const ports = new Map<string, Map<string, UsedPort>>([...nodes].map((node) => [node, new Map()]));
  const portOf = (point: string, wanted: Side): string => {
    const side = source.sideOf(point) ?? wanted;
    const id = `${point} ${side}`;
    ports.get(source.nodeOf(point))!.set(id, { id, point, side });
    return id;
  };
  const edges = spec.runs.map((name) => {
    const { from, to, text } = source.run(name);
    const [a, b] = source.rank(from) <= source.rank(to) ? [from, to] : [to, from];
    return { id: name, from: portOf(a, 'east'), to: portOf(b, 'west'), label: wireSize(text) };
  });
  const marks = [...ports].map(([node, used]) => {
    const [references, isHome] = [(seen.get(node) ?? 1) - 1, homes.get(node) === spec];
    const key = [node, references, isHome, ...used.keys()].join('|');
    let mark = made.get(key);
    if (!mark) made.set(key, (mark = source.mark(node, [...used.values()], references, isHome)));
    return mark;
  });
  return { marks, graph: { nodes: marks.map(({ id, width, height, ports: list }) => ({ id, width, height, ports: list.map(({ id: port, side, y }) => ({ id: port, side, y })) })), edges } };
}

/** Name above the line, size below. */
function wireSize({ run, size, level }: WireText): { readonly width: number; readonly height: number } {
  return { width: coarse(Math.max(widthOf(run, letterSize.small, 'strong') + (level === undefined ? 0 : 4.2), widthOf(lineText(size), letterSize.small)) + 1), height: 2 * STEP + 1.2 };
}

function blockOf(spec: BlockSpec, marks: readonly Mark[], placed: Placed, source: Source): Block {
  return {
    title: spec.title, ...(spec.startsPage === undefined ? {} : { startsPage: spec.startsPage }), width: placed.width, height: placed.height,
    marks: marks.map((mark) => ({ mark, ...placed.nodes[mark.id]! })),
    wires: placed.edges.map(({ id, points, junctions, label }) => { const { voltage, text } = source.run(id); return { run: id, voltage, text, points, junctions, label }; }),
  };
}

/** In as few pieces as the paper needs, across the way in which it is too large. One run cannot be cut. */
function cut(spec: BlockSpec, placed: Placed, most: { readonly width: number; readonly height: number }): readonly BlockSpec[] {
  const [wide, high] = [placed.width / most.width, placed.height / most.height];
  if (Math.max(wide, high) <= 1) return [spec];
  if (spec.pieces) return spec.pieces;
  if (spec.runs.length < 2) {
    const loose = spec.loose ?? [];
    if (loose.length < 2) return [spec];
    const half = Math.ceil(loose.length / 2);
    return [{ ...spec, loose: loose.slice(0, half) }, { ...without(spec), title: goesOn(spec.title), loose: loose.slice(half) }];
  }
  // a little more: each piece repeats the part at which it was cut
  const pieces = Math.ceil(1.08 * Math.max(wide, high));
  const along = new Map(placed.edges.map(({ id, label }) => [id, wide >= high ? label.x : label.y]));
  const order = [...spec.runs].sort((a, b) => along.get(a)! - along.get(b)!);
  const limit = (wide >= high ? placed.width : placed.height) / pieces;
  let first = order.filter((run) => along.get(run)! < limit);
  if (first.length === 0 || first.length === order.length) first = order.slice(0, Math.ceil(order.length / 2));
  const isFirst = new Set(first);
  return [{ ...spec, runs: spec.runs.filter((run) => isFirst.has(run)) }, { ...without(spec), title: goesOn(spec.title), runs: spec.runs.filter((run) => !isFirst.has(run)), loose: [] }];
}

const without = ({ startsPage: _, ...spec }: BlockSpec): BlockSpec => spec;
const goesOn = (title: string): string => (title === '' ? 'continued' : title.endsWith('continued') ? title : `${title}, continued`);
