/**
 * The interlock loop as it is wired: which contacts are in it, whether they make one chain, and whether any is bypassed.
 */
import type { Car } from '../../car/car.ts';
import type { MetalPaths } from './metal-paths.ts';

export interface InterlockContact { readonly part: string; readonly a: string; readonly b: string }

export interface InterlockLoops {
  readonly contacts: readonly InterlockContact[];
  /** parts of each chain of contacts that wires join, in the order of the file; one entry when all are in one loop */
  readonly loops: readonly (readonly string[])[];
  /** parts whose contact may open without the loop noticing: both its ends stay joined by the rest */
  readonly bypassed: readonly string[];
  /** parts that a contact watches: its own, and what a separate contact says it guards */
  readonly guarded: readonly string[];
}

const remembered = new WeakMap<object, InterlockLoops>();

/**
 * Follows wires, splices and plugs from contact to contact. Remembered for all draws with the same metal: contacts and what they
 * guard are words of the file, not numbers.
 *
 * Range: two loops that start at the same supply point look like one; what reads the loop is not looked at
 */
export function interlockLoops(car: Car, paths: MetalPaths): InterlockLoops {
  let loops = remembered.get(paths.layout);
  if (!loops) remembered.set(paths.layout, (loops = findLoops(car, paths)));
  return loops;
}

function findLoops(car: Car, paths: MetalPaths): InterlockLoops {
  const contacts = [...car.parts.values()].flatMap(({ name, roles }) => (roles.interlock ?? []).map(([a, b]): InterlockContact => ({ part: name, a: `${name}.${a}`, b: `${name}.${b}` })));
  if (contacts.length === 0) return { contacts, loops: [], bypassed: [], guarded: [] };
  const guards = contacts.map(({ part }) => car.parts.get(part)?.fields['guards']).filter((name) => typeof name === 'string');
  const net = wireNets(car, paths, contacts).of;
  const edges = contacts.map(({ part, a, b }): Edge => ({ part, a: net(a), b: net(b) }));
  return { contacts, loops: chains(edges), bypassed: [...new Set(edges.filter((edge) => isBypassed(edges, edge)).map(({ part }) => part))], guarded: [...new Set([...contacts.map(({ part }) => part), ...guards])] };
}

interface Edge { readonly part: string; readonly a: number; readonly b: number }

/** Points joined by wire with every interlock contact, relay and controller output open. */
function wireNets(car: Car, paths: MetalPaths, contacts: readonly InterlockContact[]) {
  const switched = new Set([...car.parts.values()].flatMap(({ names, roles }) => (roles.switching ?? []).map(({ element }) => names.of(element))));
  const own = new Set(contacts.flatMap(({ a, b }) => [`${a} ${b}`, `${b} ${a}`]));
  return paths.groupsOfAll(({ type, id, a, b }) => type !== 'cells' && !switched.has(id) && !own.has(`${a} ${b}`));
}

function chains(edges: readonly Edge[]): readonly (readonly string[])[] {
  const left = new Set(edges);
  const found: string[][] = [];
  for (const start of edges) {
    if (!left.delete(start)) continue;
    const nets = new Set([start.a, start.b]);
    const parts = new Set([start.part]);
    for (let grew = true; grew;) {
      grew = false;
      for (const edge of left) {
        if (!nets.has(edge.a) && !nets.has(edge.b)) continue;
        left.delete(edge);
        nets.add(edge.a).add(edge.b);
        parts.add(edge.part);
        grew = true;
      }
    }
    found.push([...parts]);
  }
  return found;
}

/** Its two ends stay joined although it is open: a wire or another contact lies beside it. */
function isBypassed(edges: readonly Edge[], open: Edge): boolean {
  const reached = new Set([open.a]);
  for (let grew = true; grew;) {
    grew = false;
    for (const { a, b } of edges.filter((edge) => edge !== open)) {
      if (reached.has(a) === reached.has(b)) continue;
      reached.add(a).add(b);
      grew = true;
    }
  }
  return reached.has(open.b);
}
