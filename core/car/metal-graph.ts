/**
 * What metal joins when every contact is closed and every fuse is whole: runs, bars, fuses, shunts, contacts, disconnects.
 *
 * What takes power is no metal however little its resistance (a 5 kW heater for 48 V has half an ohm): precharge resistors,
 * coils, the elements of consumers, and the insides of a part that join its two high-voltage poles. Cells, supplies,
 * converters and capacitors join nothing.
 */
import type { Element } from '../solve/element.ts';
import type { Car, CarPart } from './car.ts';
import { remembered } from './remembered.ts';
import { byShape } from './shape.ts';
import { wireCar } from './wire-car.ts';

/** Joints, bars, shunts, fuses and contacts stay below this; precharge and bleed resistors far above [ohm]. */
export const METAL_RESISTANCE = 1;

/** A piece of a way from node to node. */
export interface PathLink {
  /** element of the network: a run's name or `Part.element` */
  readonly id: string;
  readonly a: string; readonly b: string;
  /** [ohm] */
  readonly resistance: number;
}

export interface MetalLink extends PathLink {
  /** a switch or relay, closed or not by what is asked of the car */
  readonly isContact: boolean;
}

export interface MetalPath { /** [ohm] */ readonly resistance: number; readonly links: readonly PathLink[]; /** from start to end, both included */ readonly nodes: readonly string[] }

export interface MetalGraph {
  /** the same object in every draw of a build that has the same metal: a key for what rests on nothing else */
  readonly layout: object;
  /** everything that the car is wired with when nothing is asked of it */
  readonly elements: readonly Element[];
  /** in the order of the elements */
  readonly links: readonly MetalLink[];
  /** nodes that metal joins have one net name */
  readonly netOf: (node: string) => string;
  readonly linksAt: (node: string) => readonly MetalLink[];
  /** way of least resistance through metal; undefined when there is none */
  readonly path: (from: string, to: string) => MetalPath | undefined;
}

/** The metal of a car; remembered for the life of the car. What joins what is worked out once for all draws with the same metal. */
export const metalOf: (car: Car) => MetalGraph = remembered((car: Car) => metalGraph(car, wireCar(car, {}).network.elements));

/** What rests on which elements are metal, and on no resistance. */
interface Layout {
  /** places in the elements */
  readonly places: readonly number[];
  readonly nets: ReturnType<typeof unionFind>;
  /** by node: places in `places` */
  readonly at: ReadonlyMap<string, readonly number[]>;
}

/** Elements of a wiring, those that are metal if their resistance is small, and the layouts by which of them are. */
interface Candidates { readonly ids: readonly string[]; readonly places: readonly number[]; readonly layouts: Map<string, Layout> }

const candidatesKnown = byShape((): Candidates[] => []);
/** A draw near the border of what counts as metal gives another layout; more than a few are not worth keeping. */
const MOST_LAYOUTS = 8;

function metalGraph(car: Car, elements: readonly Element[]): MetalGraph {
  const layout = layoutOf(car, elements);
  const links = layout.places.map((place) => linkOf(elements[place] as Joining));
  const { nets } = layout;
  const at = new Map<string, readonly MetalLink[]>();
  const linksAt = (node: string): readonly MetalLink[] => {
    let list = at.get(node);
    if (!list) at.set(node, (list = (layout.at.get(node) ?? NONE).map((index) => links[index]!)));
    return list;
  };
  return { layout, elements, links, netOf: nets.find, linksAt, path: (from, to) => (nets.find(from) === nets.find(to) ? leastResistance(linksAt, from, to) : undefined) };
}

const NONE: readonly number[] = [];

function layoutOf(car: Car, elements: readonly Element[]): Layout {
  const known = candidatesKnown(car);
  let candidates = known.find(({ ids }) => ids.length === elements.length && ids.every((id, index) => id === elements[index]!.id));
  if (!candidates) {
    if (known.length === MOST_LAYOUTS) known.shift();
    known.push((candidates = candidatesOf(car, elements)));
  }
  const isMetal = (place: number): boolean => (elements[place] as Joining).resistance < METAL_RESISTANCE;
  let key = '';
  for (const place of candidates.places) if (!isMetal(place)) key += `${place} `;
  let layout = candidates.layouts.get(key);
  if (!layout) {
    if (candidates.layouts.size === MOST_LAYOUTS) candidates.layouts.clear();
    candidates.layouts.set(key, (layout = newLayout(car, elements, candidates.places.filter(isMetal))));
  }
  return layout;
}

type Joining = Extract<Element, { type: 'switch' | 'relay' | 'resistor' | 'inductor' }>;

function candidatesOf(car: Car, elements: readonly Element[]): Candidates {
  const takesPower = powerTakers(car);
  const places: number[] = [];
  elements.forEach(({ id, type }, place) => {
    if ((type === 'switch' || type === 'relay' || type === 'resistor' || type === 'inductor') && !takesPower.has(id)) places.push(place);
  });
  return { ids: elements.map(({ id }) => id), places, layouts: new Map() };
}

function newLayout(car: Car, elements: readonly Element[], metal: readonly number[]): Layout {
  const kept = new Set(withoutLoads(car, metal.map((place) => linkOf(elements[place] as Joining))).map(({ id }) => id));
  const places = metal.filter((place) => kept.has(elements[place]!.id));
  const nets = unionFind();
  const at = new Map<string, number[]>();
  places.forEach((place, index) => {
    const { a, b } = elements[place] as Joining;
    nets.join(a, b);
    for (const node of a === b ? [a] : [a, b]) {
      const list = at.get(node);
      if (list) list.push(index);
      else at.set(node, [index]);
    }
  });
  return { places, nets, at };
}

const linkOf = ({ id, a, b, resistance, type }: Joining): MetalLink => ({ id, a, b, resistance, isContact: type === 'switch' || type === 'relay' });

/** Elements that turn current into heat or work: precharge resistors, coils, consumers, and their sleep current. */
function powerTakers(car: Car): ReadonlySet<string> {
  const found = new Set<string>();
  for (const { names, roles } of car.parts.values()) {
    const add = (element: string | undefined): void => { if (element !== undefined) found.add(names.of(element)); };
    add(roles.prechargeResistor?.resistorElement);
    for (const { coil } of roles.switching ?? []) add(coil?.element);
    for (const { element, standbyElement } of roles.consumers ?? []) {
      add(element);
      add(standbyElement);
    }
  }
  return found;
}

/** A part without cells whose own insides would join its two poles is a load of little resistance. */
function withoutLoads(car: Car, links: readonly MetalLink[]): readonly MetalLink[] {
  const inside = new Map<string, MetalLink[]>();
  for (const link of links) {
    const owner = ownerOf(link.id);
    if (owner === link.id || !sitsBetweenPoles(car.parts.get(owner))) continue;
    const list = inside.get(owner);
    if (list) list.push(link);
    else inside.set(owner, [link]);
  }
  const loads = new Set<string>();
  for (const [name, own] of inside) {
    const nets = unionFind();
    for (const { a, b } of own) nets.join(a, b);
    const ends = (pole: 'positive' | 'negative'): readonly string[] => car.parts.get(name)!.ports.filter((port) => port.carries === 'high_voltage' && port.pole === pole).map((port) => nets.find(`${name}.${port.name}`));
    const negative = ends('negative');
    if (ends('positive').some((net) => negative.includes(net))) loads.add(name);
  }
  return loads.size === 0 ? links : links.filter(({ id }) => !loads.has(ownerOf(id)));
}

/** It has a positive and a negative high-voltage port and no cells: no way of the pack leads through it. */
function sitsBetweenPoles(part: CarPart | undefined): boolean {
  const has = (pole: 'positive' | 'negative'): boolean => part!.ports.some((port) => port.carries === 'high_voltage' && port.pole === pole);
  return part !== undefined && part.roles.cells === undefined && has('positive') && has('negative');
}

/** Name of the part or run that an element belongs to. */
export function ownerOf(elementId: string): string {
  const dot = elementId.indexOf('.');
  return dot < 0 ? elementId : elementId.slice(0, dot);
}

/** Least sum of resistances from node to node; nets are small, so the nearest open node is found by looking at all. */
export function leastResistance(linksAt: (node: string) => readonly PathLink[], from: string, to: string): MetalPath | undefined {
  const best = new Map<string, { resistance: number; by: PathLink | undefined; before: string | undefined }>([[from, { resistance: 0, by: undefined, before: undefined }]]);
  const open = new Set([from]);
  while (open.size > 0) {
    let node: string | undefined;
    for (const candidate of open) if (node === undefined || best.get(candidate)!.resistance < best.get(node)!.resistance) node = candidate;
    if (node === undefined) return undefined;
    open.delete(node);
    if (node === to) return unwound(best, to);
    const here = best.get(node)!.resistance;
    for (const link of linksAt(node)) {
      const other = link.a === node ? link.b : link.a;
      const resistance = here + link.resistance;
      const known = best.get(other);
      if (known && known.resistance <= resistance) continue;
      best.set(other, { resistance, by: link, before: node });
      open.add(other);
    }
  }
  return undefined;
}

function unwound(best: ReadonlyMap<string, { resistance: number; by: PathLink | undefined; before: string | undefined }>, to: string): MetalPath {
  const links: PathLink[] = [];
  const nodes = [to];
  for (let step = best.get(to)!; step.by !== undefined && step.before !== undefined; step = best.get(step.before)!) {
    links.unshift(step.by);
    nodes.unshift(step.before);
  }
  return { resistance: best.get(to)!.resistance, links, nodes };
}

/** Sets of names that grow together. */
export function unionFind(): { readonly find: (name: string) => string; readonly join: (a: string, b: string) => void } {
  const parent = new Map<string, string>();
  const find = (name: string): string => {
    let root = name;
    for (let up = parent.get(root); up !== undefined; up = parent.get(root)) root = up;
    for (let at = name; at !== root;) {
      const next = parent.get(at)!;
      parent.set(at, root);
      at = next;
    }
    return root;
  };
  return { find, join: (a, b) => { const [x, y] = [find(a), find(b)]; if (x !== y) parent.set(x, y); } };
}

/** What lies between two modules, or between a string and the point where it meets others. */
export interface Between { /** [ohm] */ readonly resistance: number; /** names of runs and parts, in order */ readonly through: readonly string[] }

/** The way of least resistance between two nodes, in words. */
export function betweenOf(metal: MetalGraph, from: string, to: string): Between {
  const path = metal.path(from, to);
  const names = path?.links.map(({ id }) => ownerOf(id)) ?? [];
  return { resistance: path?.resistance ?? 0, through: names.filter((name, index) => names[index - 1] !== name) };
}

/** Pieces of metal one after the other. */
export function joined(...pieces: readonly Between[]): Between {
  return { resistance: pieces.reduce((sum, { resistance }) => sum + resistance, 0), through: pieces.flatMap(({ through }) => through) };
}
