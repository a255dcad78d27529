/** Chains of contacts as they are wired: interlock loops with their two ends, and CAN buses. */
import type { Car } from '../car/car.ts';
import { metalOf, unionFind } from '../car/metal-graph.ts';

export interface LoopEnds { readonly parts: readonly string[]; readonly a: string; readonly b: string }

/** Interlock loops: contacts that wire, splices and plugs join one after the other, and the two points where a loop is open to the rest. */
export function interlockLoopEnds(car: Car): readonly LoopEnds[] {
  const contacts = [...car.parts.values()].flatMap(({ name, names, roles }) => (roles.interlock ?? []).map(([a, b]) => ({ part: name, a: names.of(a), b: names.of(b) })));
  const wires = wireNets(car);
  const nets = contacts.map(({ part, a, b }) => ({ part, a, b, nets: [wires(a), wires(b)] as const }));
  const left = new Set(nets);
  const loops: LoopEnds[] = [];
  for (const first of nets) {
    if (!left.delete(first)) continue;
    const chain = [first];
    for (let grew = true; grew;) {
      grew = false;
      for (const one of left) {
        if (!chain.some(({ nets: [a, b] }) => one.nets.includes(a) || one.nets.includes(b))) continue;
        left.delete(one);
        chain.push(one);
        grew = true;
      }
    }
    const ends = chain.flatMap(({ a, b, nets: [netA, netB] }) => [[a, netA] as const, [b, netB] as const]).filter(([, net]) => chain.filter(({ nets: both }) => both.includes(net)).length === 1);
    const [start, end] = ends;
    if (start && end && start[1] !== end[1]) loops.push({ parts: chain.map(({ part }) => part), a: start[0], b: end[0] });
  }
  return loops;
}

/** CAN buses: parts whose bus pins wire joins; those that the file joins to at least one other. */
export function canBuses(car: Car): readonly { readonly parts: readonly string[]; readonly high: string; readonly low: string }[] {
  const wires = wireNets(car);
  const byNet = new Map<string, string[]>();
  for (const { name, ports } of car.parts.values()) {
    if (!ports.some((port) => port.name === 'can_h') || !ports.some((port) => port.name === 'can_l')) continue;
    const net = wires(`${name}.can_h`);
    byNet.set(net, [...(byNet.get(net) ?? []), name]);
  }
  return [...byNet.values()].filter((parts) => parts.length > 1).map((parts) => ({ parts, high: `${parts[0]!}.can_h`, low: `${parts[0]!}.can_l` }));
}

/** Points joined by metal with every switch, relay, output and interlock contact open. */
export function wireNets(car: Car): (node: string) => string {
  const nets = unionFind();
  const parts = [...car.parts.values()];
  const switched = new Set(parts.flatMap(({ names, roles }) => (roles.switching ?? []).map(({ element }) => names.of(element))));
  const contacts = new Set(parts.flatMap(({ names, roles }) => (roles.interlock ?? []).flatMap(([a, b]) => [`${names.of(a)} ${names.of(b)}`, `${names.of(b)} ${names.of(a)}`])));
  for (const { id, a, b } of metalOf(car).links) if (!switched.has(id) && !contacts.has(`${a} ${b}`)) nets.join(a, b);
  return nets.find;
}
