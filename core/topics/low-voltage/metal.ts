/**
 * The metal of the low-voltage side: every run, joint, pin, whole fuse and contact that could be closed, sorted into the side
 * that a source's positive end feeds and the side that leads back to its negative end.
 *
 * Contacts count as closed, because a fuse has to protect a wire in whatever mode it is live. Points that lead to the chassis or
 * to a negative end without any open contact are return; the feed side never runs through them.
 */
import type { Car, CarPart, CarRun } from '../../car/car.ts';
import { runResistance, wireCar } from '../../car/wire-car.ts';
import type { ProtectionRole, SwitchingRole } from '../../part/role.ts';
import { REFERENCE_NODE } from '../../solve/element.ts';
import type { SourceEnds } from './mode-points.ts';

/** Pins, contacts, fuses and splices stay below this, resistors that limit a current above [ohm]. Runs count whatever they have. */
const METAL_RESISTANCE = 0.5;

export interface MetalEdge {
  /** element of the network */
  readonly id: string;
  readonly a: string; readonly b: string;
  /** the same two points as numbers */
  readonly nodes: readonly [number, number];
  /** at 20 °C [ohm] */
  readonly resistance: number;
  /** runs at their temperature rating, all else as it is [ohm] */
  readonly hotResistance: number;
  /** open in the state at rest, or moved by a coil */
  readonly isSwitched: boolean;
  readonly run: CarRun | undefined;
  /** paths of the length and the conductor, where a run lacks them */
  readonly needs: readonly string[];
  readonly fuse: LowVoltageFuse | undefined;
  readonly contact: LowVoltageContact | undefined;
}

export interface LowVoltageFuse { readonly part: string; readonly id: string; readonly role: ProtectionRole }
export interface LowVoltageContact { readonly part: string; readonly id: string; readonly role: SwitchingRole }

/** The easiest way from a start to every point that it reaches. */
export interface Ways {
  /** by the number of a point */
  readonly reaches: (node: number) => boolean;
  /** [ohm], undefined where it does not reach */
  readonly resistance: (node: string) => number | undefined;
  readonly hotResistance: (node: string) => number | undefined;
  /** paths of what is missing on the way: lengths and conductors of runs */
  readonly needs: (node: string) => readonly string[];
  /** edges from the start to a point; empty for the start and for points not reached */
  readonly edges: (node: string) => readonly MetalEdge[];
}

export interface SourceWays { readonly source: SourceEnds; /** its positive end as a number */ readonly start: number; /** from its positive end */ readonly feed: Ways; /** from its negative end */ readonly back: Ways }

export interface Metal {
  /** points are numbered from 0 */
  readonly nodeCount: number;
  /** edges with both ends fed by some source */
  readonly feedEdges: readonly MetalEdge[];
  readonly sources: readonly SourceWays[];
  /** for each positive end that leads to the return without an open contact: the way; a dead short as soon as the car is wired */
  readonly shorts: readonly { readonly positive: string; readonly way: readonly MetalEdge[] }[];
  readonly fuses: readonly LowVoltageFuse[];
  readonly contacts: readonly LowVoltageContact[];
}

/** Sorted once per draw. */
export function lowVoltageMetal(car: Car, ends: readonly SourceEnds[]): Metal {
  const fuses = [...car.parts.values()].flatMap((part) => (part.roles.protection ?? []).filter((role) => isLowVoltage(part, role.a)).map((role): LowVoltageFuse => ({ part: part.name, id: `${part.name}.${role.element}`, role })));
  const contacts = [...car.parts.values()].flatMap((part) => (part.roles.switching ?? []).filter((role) => isLowVoltage(part, role.a)).map((role): LowVoltageContact => ({ part: part.name, id: `${part.name}.${role.element}`, role })));
  const numbers = new Map<string, number>();
  const numberOf = (node: string): number => {
    let number = numbers.get(node);
    if (number === undefined) numbers.set(node, (number = numbers.size));
    return number;
  };
  const chassis = numberOf(REFERENCE_NODE);
  const starts = ends.map(({ positive, negative }) => ({ positive: numberOf(positive), negative: numberOf(negative) }));
  const edges = edgesOf(car, fuses, contacts, numberOf);
  const graph: Graph = { numbers, at: edgesAt(edges, numbers.size) };
  const { isReturn, shorts } = returnSide(graph, [chassis, ...starts.map(({ negative }) => negative)], new Set(starts.map(({ positive }) => positive)));
  const feeds = ends.map(({ positive }) => waysFrom(positive, graph, (to) => isReturn[to] === 0));
  const isFed = new Uint8Array(numbers.size);
  for (const feed of feeds) for (let node = 0; node < isFed.length; node++) if (feed.reaches(node)) isFed[node] = 1;
  const feedEdges: MetalEdge[] = [];
  for (const edge of edges) {
    const [a, b] = edge.nodes;
    if (isFed[a] === 1 && isFed[b] === 1) feedEdges.push(edge);
  }
  return {
    feedEdges, fuses, contacts, nodeCount: numbers.size,
    shorts: shorts.map(({ positive, way }) => ({ positive: ends[starts.findIndex((start) => start.positive === positive)]!.positive, way })),
    sources: ends.map((source, index) => ({ source, start: starts[index]!.positive, feed: feeds[index]!, back: waysFrom(source.negative, graph, (to) => isFed[to] === 0) })),
  };
}

/** A port that carries no high voltage. */
export function isLowVoltage(part: CarPart, port: string): boolean {
  return part.ports.some(({ name, carries }) => name === port && carries !== 'high_voltage');
}

function edgesOf(car: Car, fuses: readonly LowVoltageFuse[], contacts: readonly LowVoltageContact[], numberOf: (node: string) => number): MetalEdge[] {
  const fuseAt = new Map(fuses.map((fuse) => [fuse.id, fuse]));
  const contactAt = new Map(contacts.map((contact) => [contact.id, contact]));
  const taking = new Set<string>();
  const noDiode = new Set<string>();
  for (const { name, roles } of car.parts.values()) {
    for (const { element, standbyElement } of roles.consumers ?? []) {
      taking.add(`${name}.${element}`);
      if (standbyElement !== undefined) taking.add(`${name}.${standbyElement}`);
    }
    for (const { coil } of roles.switching ?? []) if (coil) taking.add(`${name}.${coil.element}`);
    // a diode across a coil or inside a consumer leads nowhere
    if (roles.consumers || roles.switching || roles.lowVoltageBattery || roles.lowVoltageSupply) noDiode.add(name);
  }
  const edges: MetalEdge[] = [];
  for (const element of wireCar(car, {}).network.elements) {
    const { id, type } = element;
    const run = car.runs.get(id);
    if (run) {
      if (run.carries === 'high_voltage') continue;
      const hot = run.conductor?.temperatureRating;
      const resistance = runResistance(run, 293.15);
      edges.push({ id, a: run.from, b: run.to, nodes: [numberOf(run.from), numberOf(run.to)], resistance, hotResistance: hot === undefined ? resistance : runResistance(run, hot), isSwitched: false, run, needs: run.length === undefined || !run.conductor ? [...(run.length === undefined ? [`runs.${id}.length`] : []), ...run.missing] : nothing, fuse: undefined, contact: undefined });
      continue;
    }
    if (taking.has(id)) continue;
    const isJoint = type === 'resistor' || type === 'inductor' || type === 'switch' || type === 'relay';
    if (!isJoint && type !== 'diode') continue;
    if (type === 'diode' && noDiode.has(partName(id))) continue;
    if (element.resistance > METAL_RESISTANCE) continue;
    // a battery's own inside is the source, not a way
    if (type === 'resistor' && car.parts.get(partName(id))?.roles.lowVoltageBattery) continue;
    const isSwitched = type === 'relay' || type === 'diode' || (type === 'switch' && !element.closed);
    edges.push({ id, a: element.a, b: element.b, nodes: [numberOf(element.a), numberOf(element.b)], resistance: element.resistance, hotResistance: element.resistance, isSwitched, run: undefined, needs: nothing, fuse: fuseAt.get(id), contact: contactAt.get(id) });
  }
  return edges;
}

const nothing: readonly string[] = [];

const partName = (id: string): string => id.slice(0, id.indexOf('.'));

interface Graph { readonly numbers: ReadonlyMap<string, number>; readonly at: readonly (readonly MetalEdge[])[] }

function edgesAt(edges: readonly MetalEdge[], nodeCount: number): readonly (readonly MetalEdge[])[] {
  const at = Array.from({ length: nodeCount }, (): MetalEdge[] => []);
  for (const edge of edges) for (const node of edge.nodes) at[node]!.push(edge);
  return at;
}

const otherEnd = ({ nodes: [a, b] }: MetalEdge, node: number): number => (a === node ? b : a);

interface ReturnSide { /** 1 for each point that leads to a negative end or the chassis without an open contact */ readonly isReturn: Uint8Array; readonly shorts: readonly { readonly positive: number; readonly way: readonly MetalEdge[] }[] }

/** Nearest first, so that a way found is one of the shortest; never through a positive end. */
function returnSide({ at }: Graph, starts: readonly number[], positives: ReadonlySet<number>): ReturnSide {
  const isReturn = new Uint8Array(at.length);
  const last: (MetalEdge | undefined)[] = new Array<MetalEdge | undefined>(at.length).fill(undefined);
  const shorts: { positive: number; way: readonly MetalEdge[] }[] = [];
  const queue = [...starts];
  for (const start of starts) isReturn[start] = 1;
  for (let next = 0; next < queue.length; next++) {
    const node = queue[next]!;
    for (const edge of at[node]!) {
      const to = otherEnd(edge, node);
      if (edge.isSwitched || edge === last[node] || isReturn[to] === 1) continue;
      if (!positives.has(to)) {
        isReturn[to] = 1;
        last[to] = edge;
        queue.push(to);
      } else if (!shorts.some(({ positive }) => positive === to)) {
        shorts.push({ positive: to, way: [edge, ...wayFrom(node, last)] });
      }
    }
  }
  return { isReturn, shorts };
}

/** The edges by which a point was reached, from it to the start. */
function wayFrom(node: number, last: readonly (MetalEdge | undefined)[]): MetalEdge[] {
  const way: MetalEdge[] = [];
  let here = node;
  for (let edge = last[here]; edge; edge = last[here]) {
    way.push(edge);
    here = otherEnd(edge, here);
  }
  return way;
}

/** Least resistance to every point; a point improves as long as an easier way turns up. */
function waysFrom(start: string, { numbers, at }: Graph, mayEnter: (node: number) => boolean): Ways {
  const first = numbers.get(start)!;
  const cold = new Float64Array(at.length).fill(Infinity);
  const hot = new Float64Array(at.length);
  const last: (MetalEdge | undefined)[] = new Array<MetalEdge | undefined>(at.length).fill(undefined);
  cold[first] = 0;
  const queue = [first];
  for (let next = 0; next < queue.length; next++) {
    const node = queue[next]!;
    for (const edge of at[node]!) {
      const to = otherEnd(edge, node);
      const resistance = cold[node]! + edge.resistance;
      if (cold[to] === Infinity ? !mayEnter(to) : cold[to]! <= resistance) continue;
      cold[to] = resistance;
      hot[to] = hot[node]! + edge.hotResistance;
      last[to] = edge;
      queue.push(to);
    }
  }
  const edgesTo = (node: string): readonly MetalEdge[] => {
    const number = numbers.get(node);
    return number === undefined ? [] : wayFrom(number, last).reverse();
  };
  const reachable = (node: string): number | undefined => {
    const number = numbers.get(node);
    return number === undefined || cold[number] === Infinity ? undefined : number;
  };
  // most cars lack nothing: then no way has to be walked to say so
  const lacksSomething = last.some((edge) => edge !== undefined && edge.needs.length > 0);
  return {
    reaches: (node) => cold[node] !== Infinity,
    resistance: (node) => valueAt(cold, reachable(node)),
    hotResistance: (node) => valueAt(hot, reachable(node)),
    needs: (node) => (lacksSomething ? [...new Set(edgesTo(node).flatMap(({ needs }) => needs))] : []),
    edges: edgesTo,
  };
}

const valueAt = (numbers: Float64Array, index: number | undefined): number | undefined => (index === undefined ? undefined : numbers[index]);
