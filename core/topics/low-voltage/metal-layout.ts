/**
 * What leads where on the low-voltage side: points, joints and sides, the same in every draw in which the same joints are metal.
 */
import type { Car } from '../../car/car.ts';
import { metalOf, ownerOf } from '../../car/metal-graph.ts';
import { byShape } from '../../car/shape.ts';
import type { Element } from '../../solve/element.ts';
import { REFERENCE_NODE } from '../../solve/element.ts';
import type { SourceEnds } from './mode-points.ts';

/** Pins, contacts, fuses and splices stay below this, resistors that limit a current above [ohm]. Runs count whatever they have. */
const METAL_RESISTANCE = 0.5;

export interface Joint {
  /** place in the elements that the car is wired with at rest */
  readonly element: number;
  readonly id: string;
  readonly a: string; readonly b: string;
  /** the same two points as numbers */
  readonly nodes: readonly [number, number];
  readonly isRun: boolean;
  /** open in the state at rest, or moved by a coil */
  readonly isSwitched: boolean;
  /** numbers of its fuse and its contact, -1: it is none */
  readonly fuse: number; readonly contact: number;
}

export interface Gate { readonly zones: readonly [number, number]; /** joints that are fuses, side by side */ readonly fuses: readonly number[] }

export interface Layout {
  readonly joints: readonly Joint[];
  readonly numbers: ReadonlyMap<string, number>;
  readonly nodeCount: number;
  /** joints at each point: `edgeList` from `edgeStart[point]` */
  readonly edgeStart: Int32Array; readonly edgeList: Int32Array;
  /** by source */
  readonly starts: readonly { readonly positive: number; readonly negative: number }[];
  /** 1 for each point that leads to a negative end or the chassis without an open contact */
  readonly isReturn: Uint8Array;
  /** 1 for each point that some positive end reaches outside the return */
  readonly isFed: Uint8Array;
  readonly feedEdgeOfRun: ReadonlyMap<string, number>;
  /** positive ends that lead to the return without an open contact, and the way */
  readonly shorts: readonly { readonly source: number; readonly way: readonly number[] }[];
  /** zone of each point: fed points that no fuse separates have one */
  readonly zoneOf: Int32Array;
  /** fuses between zones, by zone */
  readonly gatesAt: ReadonlyMap<number, readonly Gate[]>;
}

/** Elements by number that are fuses and contacts. */
export interface RolePlaces { readonly fuseAt: ReadonlyMap<string, number>; readonly contactAt: ReadonlyMap<string, number> }

interface Candidates { readonly ids: readonly string[]; readonly list: readonly { readonly element: number; readonly isRun: boolean; readonly isDiode: boolean }[]; readonly layouts: Map<string, Layout> }

const candidatesKnown = byShape((): Candidates[] => []);
/** A draw near the border of what counts as metal gives another layout; more than a few are not worth keeping. */
const MOST_LAYOUTS = 8;

/** The layout of a car; worked out once for all draws whose wiring has the same elements and the same of them are metal. */
export function layoutOf(car: Car, places: RolePlaces, ends: readonly SourceEnds[]): Layout {
  const { elements } = metalOf(car);
  const known = candidatesKnown(car);
  let candidates = known.find(({ ids }) => ids.length === elements.length && ids.every((id, index) => id === elements[index]!.id));
  if (!candidates) {
    if (known.length === MOST_LAYOUTS) known.shift();
    known.push((candidates = candidatesOf(car, elements)));
  }
  // runs and joints that are metal; a switch may rest open or closed by what the file sets
  let key = '';
  const joints: number[] = [];
  candidates.list.forEach(({ element: index, isRun }, place) => {
    const element = elements[index]!;
    const isMetal = isRun || ('resistance' in element && element.resistance <= METAL_RESISTANCE);
    if (isMetal) joints.push(place);
    if (!isMetal) key += `${place} `;
    else if (element.type === 'switch' && !element.closed) key += `${place}/ `;
  });
  let layout = candidates.layouts.get(key);
  if (!layout) {
    if (candidates.layouts.size === MOST_LAYOUTS) candidates.layouts.clear();
    candidates.layouts.set(key, (layout = newLayout(elements, joints.map((place) => candidates.list[place]!), places, ends)));
  }
  return layout;
}

/** Elements that join two points of the low-voltage side with next to no resistance, if theirs is small enough. */
function candidatesOf(car: Car, elements: readonly Element[]): Candidates {
  const taking = new Set<string>();
  const noDiode = new Set<string>();
  for (const { name, names, roles } of car.parts.values()) {
    for (const { element, standbyElement } of roles.consumers ?? []) {
      taking.add(names.of(element));
      if (standbyElement !== undefined) taking.add(names.of(standbyElement));
    }
    for (const { coil } of roles.switching ?? []) if (coil) taking.add(names.of(coil.element));
    // a diode across a coil or inside a consumer leads nowhere
    if (roles.consumers || roles.switching || roles.lowVoltageBattery || roles.lowVoltageSupply) noDiode.add(name);
  }
  const list: Candidates['list'][number][] = [];
  elements.forEach(({ id, type }, element) => {
    const run = car.runs.get(id);
    if (run) {
      if (run.carries !== 'high_voltage') list.push({ element, isRun: true, isDiode: false });
      return;
    }
    if (taking.has(id)) return;
    const isJoint = type === 'resistor' || type === 'inductor' || type === 'switch' || type === 'relay';
    if (!isJoint && type !== 'diode') return;
    if (type === 'diode' && noDiode.has(ownerOf(id))) return;
    // a battery's own inside is the source, not a way
    if (type === 'resistor' && car.parts.get(ownerOf(id))?.roles.lowVoltageBattery) return;
    list.push({ element, isRun: false, isDiode: type === 'diode' });
  });
  return { ids: elements.map(({ id }) => id), list, layouts: new Map() };
}

function newLayout(elements: readonly Element[], list: Candidates['list'], { fuseAt, contactAt }: RolePlaces, ends: readonly SourceEnds[]): Layout {
  const numbers = new Map<string, number>();
  const numberOf = (node: string): number => {
    let number = numbers.get(node);
    if (number === undefined) numbers.set(node, (number = numbers.size));
    return number;
  };
  const chassis = numberOf(REFERENCE_NODE);
  const starts = ends.map(({ positive, negative }) => ({ positive: numberOf(positive), negative: numberOf(negative) }));
  const joints = list.map(({ element, isRun, isDiode }): Joint => {
    const { id, type, a, b, closed } = elements[element] as Extract<Element, { a: string }> & { readonly closed?: boolean };
    const isSwitched = !isRun && (type === 'relay' || isDiode || (type === 'switch' && closed !== true));
    return { element, id, a, b, nodes: [numberOf(a), numberOf(b)], isRun, isSwitched, fuse: isRun ? -1 : fuseAt.get(id) ?? -1, contact: isRun ? -1 : contactAt.get(id) ?? -1 };
  });
  const nodeCount = numbers.size;
  const { edgeStart, edgeList } = edgesAt(joints, nodeCount);
  const bare = { joints, edgeStart, edgeList };
  const { isReturn, shorts } = returnSide(bare, [chassis, ...starts.map(({ negative }) => negative)], starts.map(({ positive }) => positive));
  const isFed = new Uint8Array(nodeCount);
  for (const { positive } of starts) markReached(bare, positive, isReturn, isFed);
  const feedEdges = joints.flatMap(({ nodes: [a, b] }, index) => (isFed[a] === 1 && isFed[b] === 1 ? [index] : []));
  const zoneOf = zonesWithoutFuses(joints, feedEdges, nodeCount);
  return {
    joints, numbers, nodeCount, edgeStart, edgeList, starts, isReturn, isFed, shorts, zoneOf, gatesAt: gatesBetween(joints, feedEdges, zoneOf),
    feedEdgeOfRun: new Map(feedEdges.flatMap((index) => (joints[index]!.isRun ? [[joints[index]!.id, index] as const] : []))),
  };
}

export const otherEnd = ({ nodes: [a, b] }: Joint, node: number): number => (a === node ? b : a);

type Bare = Pick<Layout, 'joints' | 'edgeStart' | 'edgeList'>;

function edgesAt(joints: readonly Joint[], nodeCount: number): Pick<Layout, 'edgeStart' | 'edgeList'> {
  const at = Array.from({ length: nodeCount }, (): number[] => []);
  joints.forEach(({ nodes }, index) => { for (const node of nodes) at[node]!.push(index); });
  const edgeStart = new Int32Array(nodeCount + 1);
  at.forEach((list, node) => { edgeStart[node + 1] = edgeStart[node]! + list.length; });
  return { edgeStart, edgeList: Int32Array.from(at.flat()) };
}

/** Nearest first, so that a way found is one of the shortest; never through a positive end. */
function returnSide({ joints, edgeStart, edgeList }: Bare, starts: readonly number[], positives: readonly number[]): Pick<Layout, 'isReturn' | 'shorts'> {
  const count = edgeStart.length - 1;
  const isReturn = new Uint8Array(count);
  const last = new Int32Array(count).fill(-1);
  const shorts: { source: number; way: readonly number[] }[] = [];
  const queue = [...starts];
  for (const start of starts) isReturn[start] = 1;
  for (let next = 0; next < queue.length; next++) {
    const node = queue[next]!;
    for (let at = edgeStart[node]!; at < edgeStart[node + 1]!; at++) {
      const edge = edgeList[at]!;
      const to = otherEnd(joints[edge]!, node);
      if (joints[edge]!.isSwitched || edge === last[node] || isReturn[to] === 1) continue;
      const source = positives.indexOf(to);
      if (source < 0) {
        isReturn[to] = 1;
        last[to] = edge;
        queue.push(to);
      } else if (!shorts.some((short) => short.source === source)) {
        shorts.push({ source, way: [edge, ...wayFrom(joints, node, last)] });
      }
    }
  }
  return { isReturn, shorts };
}

/** The joints by which a point was reached, from it to the start. */
function wayFrom(joints: readonly Joint[], node: number, last: Int32Array): number[] {
  const way: number[] = [];
  let here = node;
  for (let edge = last[here]!; edge >= 0; edge = last[here]!) {
    way.push(edge);
    here = otherEnd(joints[edge]!, here);
  }
  return way;
}

function markReached({ joints, edgeStart, edgeList }: Bare, start: number, closed: Uint8Array, reached: Uint8Array): void {
  const own = new Uint8Array(closed.length);
  own[start] = reached[start] = 1;
  const queue = [start];
  for (let next = 0; next < queue.length; next++) {
    const node = queue[next]!;
    for (let at = edgeStart[node]!; at < edgeStart[node + 1]!; at++) {
      const to = otherEnd(joints[edgeList[at]!]!, node);
      if (own[to] === 1 || closed[to] === 1) continue;
      own[to] = reached[to] = 1;
      queue.push(to);
    }
  }
}

/** Zone of a point: the number of one of its points. */
function zonesWithoutFuses(joints: readonly Joint[], feedEdges: readonly number[], nodeCount: number): Int32Array {
  const parent = Int32Array.from({ length: nodeCount }, (_, node) => node);
  const zoneOf = (node: number): number => {
    let root = node;
    while (parent[root] !== root) root = parent[root]!;
    parent[node] = root;
    return root;
  };
  for (const index of feedEdges) {
    const { nodes: [a, b], fuse } = joints[index]!;
    if (fuse < 0) parent[zoneOf(a)] = zoneOf(b);
  }
  return parent.map((_, node) => zoneOf(node));
}

function gatesBetween(joints: readonly Joint[], feedEdges: readonly number[], zoneOf: Int32Array): ReadonlyMap<number, readonly Gate[]> {
  const gates = new Map<string, { zones: readonly [number, number]; fuses: number[] }>();
  for (const index of feedEdges) {
    const { nodes: [a, b], fuse } = joints[index]!;
    if (fuse < 0) continue;
    const [low, high] = [Math.min(zoneOf[a]!, zoneOf[b]!), Math.max(zoneOf[a]!, zoneOf[b]!)];
    if (low === high) continue;
    const key = `${low} ${high}`;
    const gate = gates.get(key);
    if (gate) gate.fuses.push(index);
    else gates.set(key, { zones: [low, high], fuses: [index] });
  }
  const at = new Map<number, Gate[]>();
  for (const gate of gates.values()) {
    for (const zone of gate.zones) {
      const list = at.get(zone);
      if (list) list.push(gate);
      else at.set(zone, [gate]);
    }
  }
  return at;
}
