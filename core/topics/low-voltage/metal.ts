/**
 * The metal of the low-voltage side: every run, joint, pin, whole fuse and contact that could be closed, sorted into the side
 * that a source's positive end feeds and the side that leads back to its negative end.
 *
 * Contacts count as closed, because a fuse has to protect a wire in whatever mode it is live. Points that lead to the chassis or
 * to a negative end without any open contact are return; the feed side never runs through them. What leads where is worked out
 * once for all draws with the same metal (`metal-layout.ts`); a draw only adds up resistances.
 */
import type { Car, CarPart, CarRun } from '../../car/car.ts';
import { metalOf } from '../../car/metal-graph.ts';
import { runResistance } from '../../car/wire-car.ts';
import type { ProtectionRole, SwitchingRole } from '../../part/role.ts';
import { byShape } from '../../car/shape.ts';
import type { Element } from '../../solve/element.ts';
import type { Joint, Layout } from './metal-layout.ts';
import { layoutOf, otherEnd } from './metal-layout.ts';
import type { SourceEnds } from './mode-points.ts';

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
  readonly layout: Layout;
  /** by their numbers in the layout */
  readonly edges: readonly MetalEdge[];
  /** a run with both ends fed by some source */
  readonly feedEdgeOf: (run: string) => MetalEdge | undefined;
  readonly sources: readonly SourceWays[];
  /** for each positive end that leads to the return without an open contact: the way; a dead short as soon as the car is wired */
  readonly shorts: readonly { readonly positive: string; readonly way: readonly MetalEdge[] }[];
  readonly fuses: readonly LowVoltageFuse[];
  readonly contacts: readonly LowVoltageContact[];
}

/** Sorted once per draw. */
export function lowVoltageMetal(car: Car, ends: readonly SourceEnds[]): Metal {
  const { places, fuses: fusePlaces, contacts: contactPlaces } = rolesOf(car);
  const roleOf = <R>({ part, id, index }: RolePlace, of: (part: CarPart) => readonly R[] | undefined): { part: string; id: string; role: R } => ({ part, id, role: of(car.parts.get(part)!)![index]! });
  const fuses = fusePlaces.map((place): LowVoltageFuse => roleOf(place, ({ roles }) => roles.protection));
  const contacts = contactPlaces.map((place): LowVoltageContact => roleOf(place, ({ roles }) => roles.switching));
  const layout = layoutOf(car, places, ends);
  const { elements } = metalOf(car);
  const cold = new Float64Array(layout.joints.length);
  const hot = new Float64Array(layout.joints.length);
  let lacksSomething = false;
  const edges = layout.joints.map((joint, index): MetalEdge => {
    const edge = edgeOf(car, joint, resistanceOf(elements[joint.element]!), fuses, contacts);
    cold[index] = edge.resistance;
    hot[index] = edge.hotResistance;
    if (edge.needs.length > 0) lacksSomething = true;
    return edge;
  });
  const graph: Graph = { layout, edges, cold, hot, lacksSomething };
  return {
    layout, edges, fuses, contacts,
    feedEdgeOf: (run) => { const index = layout.feedEdgeOfRun.get(run); return index === undefined ? undefined : edges[index]; },
    shorts: layout.shorts.map(({ source, way }) => ({ positive: ends[source]!.positive, way: way.map((index) => edges[index]!) })),
    sources: ends.map((source, index) => ({
      source, start: layout.starts[index]!.positive,
      feed: waysFrom(layout.starts[index]!.positive, graph, layout.isReturn), back: waysFrom(layout.starts[index]!.negative, graph, layout.isFed),
    })),
  };
}

interface RolePlace { readonly part: string; readonly id: string; /** among the roles of its part */ readonly index: number }

/** Where the roles are: the same for all draws. */
const rolesOf = byShape((car) => {
  const parts = [...car.parts.values()];
  const list = (of: (part: CarPart) => readonly { readonly element: string; readonly a: string }[] | undefined): RolePlace[] =>
    parts.flatMap((part) => (of(part) ?? []).flatMap((role, index) => (isLowVoltage(part, role.a) ? [{ part: part.name, id: part.names.of(role.element), index }] : [])));
  const fuses = list(({ roles }) => roles.protection);
  const contacts = list(({ roles }) => roles.switching);
  return { fuses, contacts, places: { fuseAt: new Map(fuses.map(({ id }, index) => [id, index])), contactAt: new Map(contacts.map(({ id }, index) => [id, index])) } };
});

/** A port that carries no high voltage. */
export function isLowVoltage(part: CarPart, port: string): boolean {
  return part.ports.some(({ name, carries }) => name === port && carries !== 'high_voltage');
}

function edgeOf(car: Car, { id, a, b, nodes, isRun, fuse, contact }: Joint, resistance: number, fuses: readonly LowVoltageFuse[], contacts: readonly LowVoltageContact[]): MetalEdge {
  if (!isRun) {
    return { id, a, b, nodes, resistance, hotResistance: resistance, run: undefined, needs: nothing, fuse: fuse < 0 ? undefined : fuses[fuse], contact: contact < 0 ? undefined : contacts[contact] };
  }
  const run = car.runs.get(id)!;
  const hotAt = run.conductor?.temperatureRating;
  const needs = run.length === undefined || !run.conductor ? [...(run.length === undefined ? [`runs.${id}.length`] : []), ...run.missing] : nothing;
  return { id, a, b, nodes, resistance, hotResistance: hotAt === undefined ? resistance : runResistance(run, hotAt), run, needs, fuse: undefined, contact: undefined };
}

/** Of a joint; runs are wired at 20 °C, where this counts them cold. */
const resistanceOf = (element: Element): number => ('resistance' in element ? element.resistance : 0);

const nothing: readonly string[] = [];

interface Graph { readonly layout: Layout; readonly edges: readonly MetalEdge[]; /** of each edge [ohm] */ readonly cold: Float64Array; readonly hot: Float64Array; readonly lacksSomething: boolean }

/** Least resistance to every point; a point improves as long as an easier way turns up. @param closed  1 for points that it may not enter */
function waysFrom(first: number, { layout, edges, cold: coldOf, hot: hotOf, lacksSomething: anyLacks }: Graph, closed: Uint8Array): Ways {
  const { joints, edgeStart, edgeList, numbers, nodeCount } = layout;
  const cold = new Float64Array(nodeCount).fill(Infinity);
  const hot = new Float64Array(nodeCount);
  const last = new Int32Array(nodeCount).fill(-1);
  cold[first] = 0;
  const queue = [first];
  for (let next = 0; next < queue.length; next++) {
    const node = queue[next]!;
    for (let at = edgeStart[node]!, end = edgeStart[node + 1]!; at < end; at++) {
      const edge = edgeList[at]!;
      const to = otherEnd(joints[edge]!, node);
      const resistance = cold[node]! + coldOf[edge]!;
      if (cold[to] === Infinity ? closed[to] === 1 : cold[to]! <= resistance) continue;
      cold[to] = resistance;
      hot[to] = hot[node]! + hotOf[edge]!;
      last[to] = edge;
      queue.push(to);
    }
  }
  const edgesTo = (node: string): readonly MetalEdge[] => {
    const number = numbers.get(node);
    if (number === undefined) return nowhere;
    const way: MetalEdge[] = [];
    for (let here = number, edge = last[here]!; edge >= 0; edge = last[here]!) {
      way.push(edges[edge]!);
      here = otherEnd(joints[edge]!, here);
    }
    return way.reverse();
  };
  const valueAt = (values: Float64Array, node: string): number | undefined => {
    const number = numbers.get(node);
    return number === undefined || cold[number] === Infinity ? undefined : values[number];
  };
  // most cars lack nothing: then no way has to be walked to say so
  const lacksSomething = anyLacks && last.some((edge) => edge >= 0 && edges[edge]!.needs.length > 0);
  return {
    reaches: (node) => cold[node] !== Infinity,
    resistance: (node) => valueAt(cold, node),
    hotResistance: (node) => valueAt(hot, node),
    needs: (node) => (lacksSomething ? [...new Set(edgesTo(node).flatMap(({ needs }) => needs))] : nothing),
    edges: edgesTo,
  };
}

const nowhere: readonly MetalEdge[] = [];
