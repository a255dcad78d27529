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
import type { Element } from '../solve/element.ts';
import type { Car, CarPart } from './car.ts';
import type { MetalGraph } from './metal-graph.ts';
import { leastResistance, METAL_RESISTANCE, metalGraph, ownerOf, unionFind } from './metal-graph.ts';
import { wireCar } from './wire-car.ts';

export interface StringModule {
  readonly part: CarPart;
  /** terminals as nodes (`M1.pos`) */
  readonly positive: string; readonly negative: string;
  /** its positive terminal looks the wrong way along its string */
  readonly isReversed: boolean;
  /** from terminal to terminal inside it, cells and links, at the car's conditions [ohm] */
  readonly resistance: number;
}

/** What lies between two modules, or between a string and the point where it meets others. */
export interface Between { /** [ohm] */ readonly resistance: number; /** names of runs and parts, in order */ readonly through: readonly string[] }

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

const remembered = new WeakMap<Car, PackLayout>();

/** The packs and strings of a car; remembered for the life of the car. Never throws on a strange car. */
export function stringsOf(car: Car): PackLayout {
  let layout = remembered.get(car);
  if (!layout) remembered.set(car, (layout = layoutOf(car)));
  return layout;
}

interface Edge { readonly module: Omit<StringModule, 'isReversed'>; readonly from: string; readonly to: string; readonly voltage: number }

function layoutOf(car: Car): PackLayout {
  const parts = [...car.parts.values()];
  const notCounted = parts.filter((part) => part.roles.cells === undefined && Object.values(part.kind.fields).some((field) => field.type === 'name' && field.of === 'cells'));
  const modules = parts.filter(({ roles }) => roles.cells !== undefined);
  if (modules.length === 0) return { packs: [], unconnected: [], shorted: [], notCounted };

  const { elements } = wireCar(car, {}).network;
  const metal = metalGraph(car, elements);
  const inside = resistancesInside(modules, elements);
  const unconnected: CarPart[] = [];
  const shorted: { part: CarPart; by: Between }[] = [];
  const edges: Edge[] = [];
  for (const part of modules) {
    const cells = part.roles.cells!;
    const [positive, negative] = [`${part.name}.${cells.positive}`, `${part.name}.${cells.negative}`];
    const [from, to] = [metal.netOf(negative), metal.netOf(positive)];
    const isLoose = [positive, negative].every((node) => metal.linksAt(node).every(({ id }) => ownerOf(id) === part.name));
    if (isLoose) unconnected.push(part);
    else if (from === to) shorted.push({ part, by: betweenOf(metal, positive, negative) });
    else edges.push({ module: { part, positive, negative, resistance: inside(part) }, from, to, voltage: cells.series * (part.cell?.nominalVoltage ?? 0) });
  }
  const equipment = new Map<string, string>();
  for (const { name, roles } of parts) {
    for (const port of roles.dcLink ? [roles.dcLink.positive, roles.dcLink.negative] : []) {
      const net = metal.netOf(`${name}.${port}`);
      if (!equipment.has(net)) equipment.set(net, `${name}.${port}`);
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

interface StringEdge { readonly string: PackString; readonly from: string; readonly to: string }

function stringOf({ steps, from, to }: Chain, pack: number, metal: MetalGraph): StringEdge {
  const modules = steps.map(({ edge, isForward }): StringModule => ({ ...edge.module, isReversed: !isForward }));
  const enters = (module: StringModule): string => (module.isReversed ? module.positive : module.negative);
  const leaves = (module: StringModule): string => (module.isReversed ? module.negative : module.positive);
  const between = modules.slice(1).map((module, index) => betweenOf(metal, leaves(modules[index]!), enters(module)));
  const [negative, positive] = [enters(modules[0]!), leaves(modules.at(-1)!)];
  return { from, to, string: { name: modules[0]!.part.name, modules, between, negative, positive, shortedBy: from === to ? betweenOf(metal, positive, negative) : undefined, pack } };
}

interface Reduced { readonly assembly: Assembly; readonly from: string; readonly to: string; readonly negative: string; readonly positive: string }

/** Parallel strings become one, then series ones, until one is left between the ends. */
function assemble(strings: readonly StringEdge[], potential: ReadonlyMap<string, number>, metal: MetalGraph, equipment: ReadonlyMap<string, string>): Omit<Pack, 'strings'> {
  let edges: Reduced[] = strings.filter(({ from, to }) => from !== to).map(({ string, from, to }) => ({ assembly: { form: 'string', string }, from, to, negative: string.negative, positive: string.positive }));
  const [top, bottom] = highestAndLowest(potential, edges.flatMap(({ from, to }) => [from, to]));
  for (let before = edges.length + 1; edges.length < before;) {
    before = edges.length;
    edges = mergeSeries(mergeParallel(edges, metal, equipment), new Set([top, bottom]), metal);
  }
  const only = edges.length === 1 && strings.every(({ from, to }) => from !== to) ? edges[0] : undefined;
  const nets = new Set(strings.flatMap(({ from, to, string }) => [from, to, ...string.modules.flatMap(({ positive, negative }) => [metal.netOf(positive), metal.netOf(negative)])]));
  return {
    assembly: only?.assembly, positive: only?.positive, negative: only?.negative,
    holds: (node) => {
      const net = metal.netOf(node);
      if (!nets.has(net)) return undefined;
      return net === (only?.to ?? top) ? 'positive' : net === (only?.from ?? bottom) ? 'negative' : 'between';
    },
  };
}

function mergeParallel(edges: readonly Reduced[], metal: MetalGraph, equipment: ReadonlyMap<string, string>): Reduced[] {
  const byEnds = new Map<string, Reduced[]>();
  for (const edge of edges) {
    const key = [edge.from, edge.to].sort().join(' ');
    const list = byEnds.get(key);
    if (list) list.push(edge);
    else byEnds.set(key, [edge]);
  }
  return [...byEnds.values()].map((members) => {
    const first = members[0]!;
    if (members.length === 1) return first;
    const placed = members.map((edge) => {
      const isOpposed = edge.from !== first.from;
      return { edge, isOpposed, low: isOpposed ? edge.positive : edge.negative, high: isOpposed ? edge.negative : edge.positive };
    });
    const others = edges.filter((edge) => !members.includes(edge));
    const outward = (net: string): string | undefined => others.flatMap((edge) => (edge.from === net ? [edge.negative] : edge.to === net ? [edge.positive] : []))[0] ?? equipment.get(net);
    const low = meetingPoint(placed.map((member) => member.low), outward(first.from), metal);
    const high = meetingPoint(placed.map((member) => member.high), outward(first.to), metal);
    return {
      from: first.from, to: first.to, negative: low, positive: high,
      assembly: {
        form: 'parallel', positive: high, negative: low,
        members: placed.map(({ edge, isOpposed, low: start, high: end }) => ({ assembly: edge.assembly, isOpposed, lead: joined(betweenOf(metal, low, start), betweenOf(metal, end, high)) })),
      },
    };
  });
}

/** First point that the ways of all strings towards `outward` have in common. */
function meetingPoint(terminals: readonly string[], outward: string | undefined, metal: MetalGraph): string {
  const target = outward ?? terminals[0]!;
  const ways = terminals.map((node) => metal.path(node, target)?.nodes ?? [node]);
  return ways[0]!.find((node) => ways.every((way) => way.includes(node))) ?? target;
}

function mergeSeries(edges: readonly Reduced[], ends: ReadonlySet<string | undefined>, metal: MetalGraph): Reduced[] {
  let list = [...edges];
  for (;;) {
    const at = byNet(list, ({ from, to }) => [from, to]);
    const middle = [...at].find(([net, touching]) => touching.length === 2 && !ends.has(net) && touching[0] !== touching[1]);
    if (!middle) return list;
    const [net, [first, second]] = [middle[0], middle[1] as readonly [Reduced, Reduced]];
    // the one that rises into the net comes first; when both do, or none, the second is against the first
    const [lower, upper] = first.to === net ? [first, second] : second.to === net ? [second, first] : [first, second];
    const lowerTurned = lower.to !== net;
    const upperTurned = upper.from !== net;
    const member = (edge: Reduced, isOpposed: boolean): { assembly: Assembly; isOpposed: boolean }[] => (edge.assembly.form === 'series' && !isOpposed ? [...edge.assembly.members] : [{ assembly: edge.assembly, isOpposed }]);
    const between = joined(...[lower, upper].flatMap(({ assembly }) => (assembly.form === 'series' ? [assembly.joints] : [])), betweenOf(metal, lowerTurned ? lower.negative : lower.positive, upperTurned ? upper.positive : upper.negative));
    const merged: Reduced = {
      from: lowerTurned ? lower.to : lower.from, to: upperTurned ? upper.from : upper.to,
      negative: lowerTurned ? lower.positive : lower.negative, positive: upperTurned ? upper.negative : upper.positive,
      assembly: { form: 'series', members: [...member(lower, lowerTurned), ...member(upper, upperTurned)], joints: between },
    };
    list = [...list.filter((edge) => edge !== first && edge !== second), merged];
    if (merged.from === merged.to) return list;
  }
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

function highestAndLowest(potential: ReadonlyMap<string, number>, nets: Iterable<string>): readonly string[] {
  let [top, bottom]: (string | undefined)[] = [];
  for (const net of nets) {
    const value = potential.get(net) ?? 0;
    if (top === undefined || value > (potential.get(top) ?? 0)) top = net;
    if (bottom === undefined || value < (potential.get(bottom) ?? 0)) bottom = net;
  }
  return top === undefined || bottom === undefined ? [] : [top, bottom];
}

function byNet<E>(edges: readonly E[], netsOf: (edge: E) => readonly string[]): ReadonlyMap<string, readonly E[]> {
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

function betweenOf(metal: MetalGraph, from: string, to: string): Between {
  const path = metal.path(from, to);
  const names = path?.links.map(({ id }) => ownerOf(id)) ?? [];
  return { resistance: path?.resistance ?? 0, through: names.filter((name, index) => names[index - 1] !== name) };
}

function joined(...pieces: readonly Between[]): Between {
  return { resistance: pieces.reduce((sum, { resistance }) => sum + resistance, 0), through: pieces.flatMap(({ through }) => through) };
}

/** Way of least resistance through a module's own sources and links. */
function resistancesInside(modules: readonly CarPart[], elements: readonly Element[]): (part: CarPart) => number {
  const own = new Map<string, Map<string, { id: string; a: string; b: string; resistance: number }[]>>(modules.map(({ name }) => [name, new Map()]));
  for (const element of elements) {
    if (element.type !== 'source' && element.type !== 'resistor') continue;
    const at = own.get(ownerOf(element.id));
    if (!at || !(element.resistance < METAL_RESISTANCE || element.type === 'source')) continue;
    for (const node of [element.a, element.b]) at.set(node, [...(at.get(node) ?? []), element]);
  }
  return (part) => {
    const cells = part.roles.cells!;
    const path = leastResistance((node) => own.get(part.name)?.get(node) ?? [], `${part.name}.${cells.negative}`, `${part.name}.${cells.positive}`);
    return path?.resistance ?? (cells.series * (part.cell?.resistance ?? 0)) / cells.parallel;
  };
}
