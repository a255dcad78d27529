/**
 * What lies around two points in the network: elements reached from them without passing the chassis, the nearest first; and what lies
 * there that the file does not give.
 */
import type { Car } from '../car/car.ts';
import { ownerOf } from '../car/metal-graph.ts';
import type { Element } from '../solve/element.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import type { Measure } from './step.ts';

export interface Near { readonly element: Element; /** elements between it and the nearest of the points */ readonly depth: number }

/** Points that the probes touch. */
export function pointsOf(measure: Measure, car: Car): readonly string[] {
  switch (measure.is) {
    case 'voltage':
    case 'resistance': return [measure.a, measure.b];
    case 'difference': return [...measure.first, ...measure.second];
    case 'insulation': return measure.poles;
    case 'isolation': return [measure.positive, measure.negative];
    case 'time': return measure.voltageAt;
    case 'current': {
      const run = car.runs.get(measure.element);
      const part = car.parts.get(ownerOf(measure.element));
      return run ? [run.from, run.to] : part ? part.ports.map(({ name }) => part.names.of(name)) : [];
    }
  }
}

/** Ends of an element; a coil is no way for current. */
function endsOf(element: Element): readonly string[] {
  return element.type === 'converter' ? [...element.input, ...element.output] : [element.a, element.b];
}

/** Elements by node, for a walk. */
export function elementsAt(elements: readonly Element[]): ReadonlyMap<string, readonly Element[]> {
  const at = new Map<string, Element[]>();
  for (const element of elements) {
    for (const node of new Set([...endsOf(element), ...(element.type === 'relay' ? element.coil : [])])) {
      const list = at.get(node);
      if (list) list.push(element);
      else at.set(node, [element]);
    }
  }
  return at;
}

/** The elements nearest to some points, up to a number. Relays are followed from contact to coil, because the coil decides the contact. */
export function nearest(at: ReadonlyMap<string, readonly Element[]>, points: readonly string[], most: number): readonly Near[] {
  const seen = new Set<string>();
  const found = new Map<string, Near>();
  let front = points.filter((point) => point !== REFERENCE_NODE);
  for (let depth = 0; front.length > 0 && found.size < most; depth++) {
    const next: string[] = [];
    for (const node of front) {
      if (seen.has(node)) continue;
      seen.add(node);
      for (const element of at.get(node) ?? []) {
        if (!found.has(element.id)) found.set(element.id, { element, depth });
        const onward = element.type === 'relay' && !element.coil.includes(node) ? [...endsOf(element), ...element.coil] : endsOf(element).includes(node) ? endsOf(element) : [];
        for (const other of onward) if (other !== REFERENCE_NODE && !seen.has(other)) next.push(other);
      }
    }
    front = next;
  }
  return [...found.values()].slice(0, most);
}

/** Missing values of what the points belong to, and of the parts and runs that meet the elements around them. */
export function unknownAround(car: Car, points: readonly string[], near: readonly Near[]): { readonly own: readonly string[]; readonly around: readonly string[] } {
  const own = [...new Set(points.map((point) => point.split('.')[0]!))].flatMap((name) => car.parts.get(name)?.missing ?? []);
  const incomplete = [...car.parts.values()].some(({ missing }) => missing.length > 0) || [...car.runs.values()].some(({ length, missing }) => length === undefined || missing.length > 0);
  if (!incomplete) return { own, around: [] };
  const around = new Set<string>();
  const nodes = new Set(near.flatMap(({ element }) => endsOf(element)));
  for (const { element } of near) {
    const run = car.runs.get(ownerOf(element.id));
    if (!run) continue;
    for (const path of [...run.missing, ...(run.length === undefined ? [`runs.${run.name}.length`] : [])]) around.add(path);
  }
  for (const { from, to } of car.runs.values()) {
    for (const [here, there] of [[from, to], [to, from]] as const) if (nodes.has(here)) for (const path of car.parts.get(there.split('.')[0]!)?.missing ?? []) around.add(path);
  }
  return { own, around: [...around].filter((path) => !own.includes(path)) };
}
