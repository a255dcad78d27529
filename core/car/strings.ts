/**
 * The strings of a battery, found from what is joined to what: modules in series, strings in parallel, packs.
 *
 * Nets are nodes that metal joins with every contact closed and every fuse whole; modules are edges between nets. A string is a
 * chain of modules; it ends where the net holds the end of another chain, a capacitor of the equipment, or nothing more.
 * Strings between the same two nets are parallel. No part's name or kind is asked for.
 *
 * Range: contacts that join a pack once in series and once in parallel (switch-over packs) are all taken as closed, so such a
 *        pack looks short-circuited. A reversed module in one of two parallel strings without equipment cannot be told from an end.
 */
import { assemble } from './assemble-strings.ts';
import type { StringEdge } from './assemble-strings.ts';
import type { Car, CarPart } from './car.ts';
import type { Between, MetalGraph, PathLink } from './metal-graph.ts';
import { betweenOf, leastResistance, METAL_RESISTANCE, metalOf, ownerOf, unionFind } from './metal-graph.ts';
import { byNet, highestAndLowest } from './net-table.ts';
import { remembered } from './remembered.ts';
import { elementsOfParts } from './wire-car.ts';

export interface StringModule {
  readonly part: CarPart;
  /** terminals as nodes (`M1.pos`) */
  readonly positive: string; readonly negative: string;
  /** its positive terminal looks the wrong way along its string */
  readonly isReversed: boolean;
  /** from terminal to terminal inside it, cells and links, at the car's conditions [ohm] */
  readonly resistance: number;
}

export interface PackString {
  /** name of its first module from the negative end */
  readonly name: string;
  /** from the negative end to the positive end */
  readonly modules: readonly StringModule[];
  /** between module and module; one less than modules */
  readonly between: readonly Between[];
  /** terminals at its ends */
  readonly negative: string; readonly positive: string;
  /** what joins its two ends with nothing but metal; undefined: nothing does */
  readonly shortedBy: Between | undefined;
  /** number of its pack in `packs` */
  readonly pack: number;
}

/** How strings make a pack. `isOpposed`: connected the wrong way round against the others. */
export type Assembly =
  | { readonly form: 'string'; readonly string: PackString }
  | { readonly form: 'parallel'; readonly positive: string; readonly negative: string; readonly members: readonly { readonly assembly: Assembly; readonly isOpposed: boolean; /** both its leads to the shared ends */ readonly lead: Between }[] }
  | { readonly form: 'series'; readonly members: readonly { readonly assembly: Assembly; readonly isOpposed: boolean }[]; /** metal between the members, together */ readonly joints: Between };

export interface Pack {
  readonly strings: readonly PackString[];
  /** undefined when the strings are neither all in series nor in parallel between two ends, or one is shorted */
  readonly assembly: Assembly | undefined;
  /** nodes at its ends: a module's terminal, or where parallel strings meet */
  readonly positive: string | undefined; readonly negative: string | undefined;
  readonly holds: (node: string) => 'positive' | 'negative' | 'between' | undefined;
}

export interface PackLayout {
  /** in the order of the file */
  readonly packs: readonly Pack[];
  /** modules none of whose terminals is joined to anything */
  readonly unconnected: readonly CarPart[];
  /** modules whose own terminals are joined by metal */
  readonly shorted: readonly { readonly part: CarPart; readonly by: Between }[];
  /** parts that name cells but lack values, so that they could not be counted */
  readonly notCounted: readonly CarPart[];
}

/** The packs and strings of a car; remembered for the life of the car. Never throws on a strange car. */
export const stringsOf: (car: Car) => PackLayout = remembered((car: Car) => layoutOf(car));

interface Edge { readonly module: Omit<StringModule, 'isReversed'>; readonly from: string; readonly to: string; readonly voltage: number }

function layoutOf(car: Car): PackLayout {
  const parts = [...car.parts.values()];
  const notCounted = parts.filter((part) => part.roles.cells === undefined && Object.values(part.kind.fields).some((field) => field.type === 'name' && field.of === 'cells'));
  const modules = parts.filter(({ roles }) => roles.cells !== undefined);
  if (modules.length === 0) return { packs: [], unconnected: [], shorted: [], notCounted };

  const metal = metalOf(car);
  const unconnected: CarPart[] = [];
  const shorted: { part: CarPart; by: Between }[] = [];
  const edges: Edge[] = [];
  for (const part of modules) {
    const cells = part.roles.cells!;
    const [positive, negative] = [part.names.of(cells.positive), part.names.of(cells.negative)];
    const [from, to] = [metal.netOf(negative), metal.netOf(positive)];
    const isLoose = [positive, negative].every((node) => metal.linksAt(node).every(({ id }) => ownerOf(id) === part.name));
    if (isLoose) unconnected.push(part);
    else if (from === to) shorted.push({ part, by: betweenOf(metal, positive, negative) });
    else edges.push({ module: { part, positive, negative, resistance: resistanceInside(car, part) }, from, to, voltage: cells.series * (part.cell?.nominalVoltage ?? 0) });
  }
  const equipment = new Map<string, string>();
  for (const { names, roles } of parts) {
    for (const port of roles.dcLink ? [roles.dcLink.positive, roles.dcLink.negative] : []) {
      const net = metal.netOf(names.of(port));
      if (!equipment.has(net)) equipment.set(net, names.of(port));
    }
  }
  const packs = groupsOf(edges).map((group, index) => packOf(group, index, metal, equipment));
  return { packs, unconnected, shorted, notCounted };
}

/** Edges that hang together by nets, in the order of the file. */
function groupsOf(edges: readonly Edge[]): Edge[][] {
  const joined = unionFind();
  for (const { from, to } of edges) joined.join(from, to);
  const groups = new Map<string, Edge[]>();
  for (const edge of edges) {
    const key = joined.find(edge.from);
    const group = groups.get(key);
    if (group) group.push(edge);
    else groups.set(key, [edge]);
  }
  return [...groups.values()];
}

function packOf(edges: readonly Edge[], index: number, metal: MetalGraph, equipment: ReadonlyMap<string, string>): Pack {
  const at = byNet(edges, ({ from, to }) => [from, to]);
  const potential = potentials(edges, at);
  const ends = endNets(at, potential, equipment);
  const strings = chains(edges, at, ends).map((chain) => stringOf(chain, index, metal));
  const assembled = assemble(strings, potential, metal, equipment);
  return { strings: strings.map(({ string }) => string), ...assembled };
}

/** Nets at which a chain of modules ends. */
function endNets(at: ReadonlyMap<string, readonly Edge[]>, potential: ReadonlyMap<string, number>, equipment: ReadonlyMap<string, string>): ReadonlySet<string> {
  const ends = new Set([...at].filter(([net, edges]) => edges.length !== 2 || equipment.has(net)).map(([net]) => net));
  if (ends.size >= 2) return ends;
  // a bare ring: two parallel strings when modules meet pole to like pole, a shorted string when they all follow each other
  const hasLikePoles = [...at].some(([net, edges]) => edges.every(({ from }) => from === net) || edges.every(({ to }) => to === net));
  if (hasLikePoles) for (const net of highestAndLowest(potential, at.keys())) ends.add(net);
  else if (ends.size === 0) for (const net of [...at.keys()].slice(0, 1)) ends.add(net);
  return ends;
}

interface Chain { readonly steps: readonly { readonly edge: Edge; readonly isForward: boolean }[]; readonly from: string; readonly to: string }

/** Walks from each module both ways until an end. */
function chains(edges: readonly Edge[], at: ReadonlyMap<string, readonly Edge[]>, ends: ReadonlySet<string>): Chain[] {
  const used = new Set<Edge>();
  const walk = (start: Edge, net: string): { net: string; edges: Edge[] } => {
    const passed: Edge[] = [];
    let here = start;
    while (!ends.has(net)) {
      const next = at.get(net)!.find((edge) => edge !== here);
      if (next === undefined || used.has(next)) break;
      used.add(next);
      passed.push(next);
      net = next.from === net ? next.to : next.from;
      here = next;
    }
    return { net, edges: passed };
  };
  const found: Chain[] = [];
  for (const edge of edges) {
    if (used.has(edge)) continue;
    used.add(edge);
    const ahead = walk(edge, edge.to);
    const behind = walk(edge, edge.from);
    const order = [...behind.edges.reverse(), edge, ...ahead.edges];
    let net = behind.net;
    const steps = order.map((step) => {
      const isForward = step.from === net;
      net = isForward ? step.to : step.from;
      return { edge: step, isForward };
    });
    found.push(upright({ steps, from: behind.net, to: ahead.net }));
  }
  return found;
}

/** Turned so that its voltage is positive from start to end; at a tie the first module of the file counts as right. */
function upright(chain: Chain): Chain {
  const rise = chain.steps.reduce((sum, { edge, isForward }) => sum + (isForward ? edge.voltage : -edge.voltage), 0);
  if (rise >= 0) return chain;
  return { from: chain.to, to: chain.from, steps: [...chain.steps].reverse().map(({ edge, isForward }) => ({ edge, isForward: !isForward })) };
}

function stringOf({ steps, from, to }: Chain, pack: number, metal: MetalGraph): StringEdge {
  const modules = steps.map(({ edge, isForward }): StringModule => ({ ...edge.module, isReversed: !isForward }));
  const enters = (module: StringModule): string => (module.isReversed ? module.positive : module.negative);
  const leaves = (module: StringModule): string => (module.isReversed ? module.negative : module.positive);
  const between = modules.slice(1).map((module, index) => betweenOf(metal, leaves(modules[index]!), enters(module)));
  const [negative, positive] = [enters(modules[0]!), leaves(modules.at(-1)!)];
  return { from, to, string: { name: modules[0]!.part.name, modules, between, negative, positive, shortedBy: from === to ? betweenOf(metal, positive, negative) : undefined, pack } };
}

/** Voltage of each net above the first of its group, along the first way found. */
function potentials(edges: readonly Edge[], at: ReadonlyMap<string, readonly Edge[]>): ReadonlyMap<string, number> {
  const start = edges[0]!.from;
  const potential = new Map([[start, 0]]);
  const queue = [start];
  for (let net = queue.shift(); net !== undefined; net = queue.shift()) {
    for (const { from, to, voltage } of at.get(net) ?? []) {
      const [other, value] = from === net ? [to, potential.get(net)! + voltage] : [from, potential.get(net)! - voltage];
      if (potential.has(other)) continue;
      potential.set(other, value);
      queue.push(other);
    }
  }
  return potential;
}

/** Way of least resistance through a module's own sources and links. */
function resistanceInside(car: Car, part: CarPart): number {
  const cells = part.roles.cells!;
  const at = new Map<string, PathLink[]>();
  for (const element of elementsOfParts(car, {}, [part])) {
    if (element.type !== 'source' && element.type !== 'resistor') continue;
    if (!(element.resistance < METAL_RESISTANCE || element.type === 'source')) continue;
    for (const node of [element.a, element.b]) {
      const list = at.get(node);
      if (list) list.push(element);
      else at.set(node, [element]);
    }
  }
  const path = leastResistance((node) => at.get(node) ?? [], part.names.of(cells.negative), part.names.of(cells.positive));
  return path?.resistance ?? (cells.series * (part.cell?.resistance ?? 0)) / cells.parallel;
}
