/**
 * What metal joins when every contact is closed and every fuse is whole: runs, bars, fuses, shunts, contacts, disconnects.
 *
 * Precharge resistors, bleeders, heaters and leaks are no metal; cells and capacitors join nothing.
 */
import type { Element } from '../solve/element.ts';
import type { Car } from './car.ts';

/** Joints, bars, shunts, fuses and contacts stay below this; precharge and bleed resistors far above [ohm]. */
export const METAL_RESISTANCE = 1;

export interface MetalLink {
  /** element of the network: a run's name or `Part.element` */
  readonly id: string;
  readonly a: string; readonly b: string;
  /** [ohm] */
  readonly resistance: number;
}

export interface MetalPath { /** [ohm] */ readonly resistance: number; readonly links: readonly MetalLink[]; /** from start to end, both included */ readonly nodes: readonly string[] }

export interface MetalGraph {
  /** nodes that metal joins have one net name */
  readonly netOf: (node: string) => string;
  readonly linksAt: (node: string) => readonly MetalLink[];
  /** way of least resistance through metal; undefined when there is none */
  readonly path: (from: string, to: string) => MetalPath | undefined;
}

/** @param elements  of the car wired at rest */
export function metalGraph(car: Car, elements: readonly Element[]): MetalGraph {
  const prechargeParts = new Set([...car.parts.values()].filter(({ roles }) => roles.prechargeResistor).map(({ name }) => name));
  const at = new Map<string, MetalLink[]>();
  const nets = unionFind();
  for (const element of elements) {
    if (element.type !== 'resistor' && element.type !== 'switch' && element.type !== 'relay' && element.type !== 'inductor') continue;
    const { id, a, b, resistance } = element;
    if (!(resistance < METAL_RESISTANCE) || prechargeParts.has(ownerOf(id))) continue;
    const link = { id, a, b, resistance };
    for (const node of a === b ? [a] : [a, b]) {
      const list = at.get(node);
      if (list) list.push(link);
      else at.set(node, [link]);
    }
    nets.join(a, b);
  }
  const linksAt = (node: string): readonly MetalLink[] => at.get(node) ?? [];
  return { netOf: nets.find, linksAt, path: (from, to) => (nets.find(from) === nets.find(to) ? leastResistance(linksAt, from, to) : undefined) };
}

/** Name of the part or run that an element belongs to. */
export function ownerOf(elementId: string): string {
  const dot = elementId.indexOf('.');
  return dot < 0 ? elementId : elementId.slice(0, dot);
}

/** Least sum of resistances from node to node; nets are small, so the nearest open node is found by looking at all. */
export function leastResistance(linksAt: (node: string) => readonly MetalLink[], from: string, to: string): MetalPath | undefined {
  const best = new Map<string, { resistance: number; by: MetalLink | undefined; before: string | undefined }>([[from, { resistance: 0, by: undefined, before: undefined }]]);
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

function unwound(best: ReadonlyMap<string, { resistance: number; by: MetalLink | undefined; before: string | undefined }>, to: string): MetalPath {
  const links: MetalLink[] = [];
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
