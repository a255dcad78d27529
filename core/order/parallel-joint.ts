/**
 * A joint that closes a loop of cells: modules or strings laid in parallel. What flows when the two ends meet, and how far apart they
 * may stand.
 */
import type { Car, CarPart } from '../car/car.ts';
import { metalOf, ownerOf } from '../car/metal-graph.ts';
import { closedLoop } from '../topics/pack/closed-loop.ts';
import type { Loop, ParallelJoint } from '../topics/pack/closed-loop.ts';
import type { BatteryJoint } from './battery-joints.ts';

/**
 * @param made        joints that are made
 * @param seen        open voltage and resistance between the two ends before they meet
 * @param byReadings  end a minus end b by measured module voltages [V]; undefined when one is missing
 */
export function parallelJoint(car: Car, joints: readonly BatteryJoint[], made: ReadonlySet<string>, joint: BatteryJoint, seen: { readonly voltage: number; readonly resistance: number }, byReadings: (modules: readonly CarPart[]) => number | undefined): ParallelJoint | undefined {
  const loop = loopOf(car, joints, made, joint);
  if (!loop) return undefined;
  const read = byReadings(loop.modules);
  return closedLoop(car, loop, { difference: read ?? seen.voltage, differenceFrom: read === undefined ? 'computed' : 'readings', resistance: seen.resistance + jointResistance(car, joint) });
}

function jointResistance(car: Car, { name, is }: BatteryJoint): number {
  const element = is === 'run' ? name : `${name}.${car.parts.get(name)!.roles.disconnect!.element}`;
  return metalOf(car).links.find(({ id }) => id === element)?.resistance ?? 0;
}

/** The way with the fewest pieces from one end of a joint to the other, through modules, made joints and the metal inside parts. */
function loopOf(car: Car, joints: readonly BatteryJoint[], made: ReadonlySet<string>, joint: BatteryJoint): Loop | undefined {
  const ways = new Map<string, { to: string; name: string }[]>();
  const add = (a: string, b: string, name: string): void => { for (const [from, to] of [[a, b], [b, a]] as const) { const list = ways.get(from); if (list) list.push({ to, name }); else ways.set(from, [{ to, name }]); } };
  for (const { id, a, b, isContact } of metalOf(car).links) if (!isContact && ownerOf(id) !== id) add(a, b, ownerOf(id));
  for (const { name, a, b } of joints) if (made.has(name)) add(a, b, name);
  for (const { name, roles } of car.parts.values()) if (roles.cells) add(`${name}.${roles.cells.negative}`, `${name}.${roles.cells.positive}`, name);
  const before = new Map<string, { from: string; name: string } | undefined>([[joint.a, undefined]]);
  const queue = [joint.a];
  for (let node = queue.shift(); node !== undefined && !before.has(joint.b); node = queue.shift()) {
    for (const { to, name } of ways.get(node) ?? []) if (!before.has(to)) { before.set(to, { from: node, name }); queue.push(to); }
  }
  if (!before.has(joint.b)) return undefined;
  const names = new Set<string>();
  for (let step = before.get(joint.b); step; step = before.get(step.from)) names.add(step.name);
  const parts = [...names].flatMap((name) => car.parts.get(name) ?? []);
  return {
    modules: parts.filter(({ roles }) => roles.cells), fuses: [...parts, ...(car.parts.get(joint.name) ? [car.parts.get(joint.name)!] : [])].filter(({ roles }) => roles.protection),
    runs: [...names, joint.name].filter((name) => car.runs.has(name)),
  };
}
