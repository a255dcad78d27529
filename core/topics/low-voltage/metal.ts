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
  /** at 20 °C [ohm] */
  readonly resistance: number;
  /** runs at their temperature rating, all else as it is [ohm] */
  readonly hotResistance: number;
  /** open in the state at rest, or moved by a coil */
  readonly isSwitched: boolean;
  readonly run: CarRun | undefined;
  readonly fuse: LowVoltageFuse | undefined;
  readonly contact: LowVoltageContact | undefined;
}

export interface LowVoltageFuse { readonly part: string; readonly id: string; readonly role: ProtectionRole }
export interface LowVoltageContact { readonly part: string; readonly id: string; readonly role: SwitchingRole }

/** The easiest way from a start to every point that it reaches. */
export interface Ways {
  readonly start: string;
  /** [ohm], undefined where it does not reach */
  readonly resistance: (node: string) => number | undefined;
  readonly hotResistance: (node: string) => number | undefined;
  /** edges from the start to a point; empty for the start and for points not reached */
  readonly edges: (node: string) => readonly MetalEdge[];
}

export interface SourceWays { readonly source: SourceEnds; /** from its positive end */ readonly feed: Ways; /** from its negative end */ readonly back: Ways }

export interface Metal {
  readonly edges: readonly MetalEdge[];
  /** edges with both ends fed by some source */
  readonly feedEdges: readonly MetalEdge[];
  readonly sources: readonly SourceWays[];
  /** edges without any contact that join a fed point to the return: a dead short as soon as the car is wired */
  readonly shorts: readonly MetalEdge[];
  readonly fuses: readonly LowVoltageFuse[];
  readonly contacts: readonly LowVoltageContact[];
}

/** Sorted once per draw. */
export function lowVoltageMetal(car: Car, ends: readonly SourceEnds[]): Metal {
  const fuses = [...car.parts.values()].flatMap((part) => (part.roles.protection ?? []).filter((role) => isLowVoltage(part, role.a)).map((role): LowVoltageFuse => ({ part: part.name, id: `${part.name}.${role.element}`, role })));
  const contacts = [...car.parts.values()].flatMap((part) => (part.roles.switching ?? []).filter((role) => isLowVoltage(part, role.a)).map((role): LowVoltageContact => ({ part: part.name, id: `${part.name}.${role.element}`, role })));
  const edges = edgesOf(car, fuses, contacts);
  const at = edgesAt(edges);
  const positives = new Set(ends.map(({ positive }) => positive));
  const grounds = reached([REFERENCE_NODE, ...ends.map(({ negative }) => negative)], at, ({ isSwitched }, to) => !isSwitched && !positives.has(to));
  const sources = ends.map((source): SourceWays => ({ source, feed: waysFrom(source.positive, at, (to) => !grounds.has(to)), back: noWays(source.negative) }));
  const isFed = (node: string): boolean => sources.some(({ feed }) => feed.resistance(node) !== undefined);
  const feedEdges: MetalEdge[] = [];
  const shorts: MetalEdge[] = [];
  for (const edge of edges) {
    const [a, b] = [isFed(edge.a), isFed(edge.b)];
    if (a && b) feedEdges.push(edge);
    else if (!edge.isSwitched && ((a && grounds.has(edge.b)) || (b && grounds.has(edge.a)))) shorts.push(edge);
  }
  return {
    edges, feedEdges, shorts, fuses, contacts,
    sources: sources.map(({ source, feed }) => ({ source, feed, back: waysFrom(source.negative, at, (to) => !isFed(to)) })),
  };
}

/** A port that carries no high voltage. */
export function isLowVoltage(part: CarPart, port: string): boolean {
  return part.ports.some(({ name, carries }) => name === port && carries !== 'high_voltage');
}

function edgesOf(car: Car, fuses: readonly LowVoltageFuse[], contacts: readonly LowVoltageContact[]): MetalEdge[] {
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
    if (roles.lowVoltageBattery) noDiode.add(name);
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
      edges.push({ id, a: run.from, b: run.to, resistance, hotResistance: hot === undefined ? resistance : runResistance(run, hot), isSwitched: false, run, fuse: undefined, contact: undefined });
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
    edges.push({ id, a: element.a, b: element.b, resistance: element.resistance, hotResistance: element.resistance, isSwitched, run: undefined, fuse: fuseAt.get(id), contact: contactAt.get(id) });
  }
  return edges;
}

const partName = (id: string): string => id.slice(0, id.indexOf('.'));

type EdgesAt = ReadonlyMap<string, readonly MetalEdge[]>;

function edgesAt(edges: readonly MetalEdge[]): EdgesAt {
  const at = new Map<string, MetalEdge[]>();
  for (const edge of edges) {
    for (const node of [edge.a, edge.b]) {
      const list = at.get(node);
      if (list) list.push(edge);
      else at.set(node, [edge]);
    }
  }
  return at;
}

function reached(starts: readonly string[], at: EdgesAt, passes: (edge: MetalEdge, to: string) => boolean): ReadonlySet<string> {
  const seen = new Set(starts);
  const queue = [...seen];
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    for (const edge of at.get(node) ?? []) {
      const to = edge.a === node ? edge.b : edge.a;
      if (seen.has(to) || !passes(edge, to)) continue;
      seen.add(to);
      queue.push(to);
    }
  }
  return seen;
}

interface Step { readonly resistance: number; readonly hotResistance: number; readonly edge: MetalEdge | undefined; readonly from: string | undefined }

/** Least resistance to every point; a point improves as long as an easier way turns up. */
function waysFrom(start: string, at: EdgesAt, mayEnter: (node: string) => boolean): Ways {
  const steps = new Map<string, Step>([[start, { resistance: 0, hotResistance: 0, edge: undefined, from: undefined }]]);
  const queue = [start];
  for (let next = 0; next < queue.length; next++) {
    const node = queue[next]!;
    const here = steps.get(node)!;
    for (const edge of at.get(node) ?? []) {
      const to = edge.a === node ? edge.b : edge.a;
      const resistance = here.resistance + edge.resistance;
      const before = steps.get(to);
      if (before ? before.resistance <= resistance : !mayEnter(to)) continue;
      steps.set(to, { resistance, hotResistance: here.hotResistance + edge.hotResistance, edge, from: node });
      queue.push(to);
    }
  }
  return {
    start,
    resistance: (node) => steps.get(node)?.resistance,
    hotResistance: (node) => steps.get(node)?.hotResistance,
    edges: (node) => {
      const way: MetalEdge[] = [];
      for (let step = steps.get(node); step?.edge; step = steps.get(step.from!)) way.push(step.edge);
      return way.reverse();
    },
  };
}

function noWays(start: string): Ways {
  return { start, resistance: () => undefined, hotResistance: () => undefined, edges: () => [] };
}
