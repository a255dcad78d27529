/**
 * An order of joints as a procedure: before each one what the meter must read between the two ends, after it what can be touched,
 * what a dropped tool would do, which gloves, what to cover. Every reading is a solve of the one network in that state.
 */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import type { State } from '../car/state.ts';
import { largestArc } from '../physics/arc-power.ts';
import { gloveClassFor } from '../physics/glove-class.ts';
import type { GloveClass } from '../physics/glove-class.ts';
import type { BatteryJoint, BatteryJoints } from './battery-joints.ts';
import { CLASS_B, islandsOf, isOpen, toucher } from './join-problem.ts';
import type { Islands } from './join-problem.ts';
import { gapBetween } from './reach.ts';

/** Longest tool that is likely to fall across two terminals [m]: a ratchet with its extension. Common practice, no source. */
export const TOOL_LENGTH = 0.35;

export interface Bridge {
  readonly a: string; readonly b: string;
  /** between them [V], current of a bolted short [A], and the most that an arc could draw [W] */
  readonly voltage: number; readonly current: number; readonly arcPower: number;
}

export interface AssemblyStep {
  readonly joint: BatteryJoint;
  /** what a meter reads between the two ends before they meet [V], a minus b; undefined when the network could not be solved */
  readonly before: number | undefined;
  /** the two ends belong to one island already: the reading must be near 0 V, or current will flow when they meet */
  readonly closesLoop: boolean;
  /** highest voltage from a touchable terminal to the chassis if the worst point leaks to it, after the step [V], and where */
  readonly touchable: number;
  readonly touchAt: string | undefined;
  readonly voltageClass: 'A' | 'B';
  /** gloves for this step: for the voltage that there is before or after it, whichever is more; undefined in class A */
  readonly gloves: GloveClass['name'] | undefined;
  /** the worst pair of touchable terminals within a tool's length of each other after the step; undefined when there is none */
  readonly bridge: Bridge | undefined;
  /** terminals that can be covered now, because nothing more is joined to them */
  readonly cover: readonly string[];
}

/** State of the car after the joints made so far; the others are not made, disconnects that are not in are out, no mode. */
export function stateOf(car: Car, joints: readonly BatteryJoint[], made: ReadonlySet<string>): State {
  const out = joints.filter(({ name }) => !made.has(name));
  return {
    without: out.filter(({ is }) => is === 'run').map(({ name }) => name),
    set: Object.fromEntries(out.filter(({ is }) => is === 'disconnect').map(({ name }) => [name, { [car.parts.get(name)!.roles.disconnect!.outSetting]: true }])),
  };
}

/**
 * @param order  numbers of `battery.live`, in the order in which they are made; dead joints are taken as made before
 * @returns one step for each
 */
export function procedure(car: Car, ask: Network, battery: BatteryJoints, order: readonly number[]): AssemblyStep[] {
  const all = [...battery.dead, ...battery.live];
  const made = new Set(battery.dead.map(({ name }) => name));
  const numbers = new Set<number>();
  const touch = toucher(battery.problem);
  const has = (index: number): boolean => numbers.has(index);
  let islands = islandsOf(battery.problem, has);
  let touchableBefore = touch(islands, has).voltage;
  return order.map((index): AssemblyStep => {
    const joint = battery.live[index] as BatteryJoint;
    const ends = battery.problem.joints[index]!;
    const closesLoop = islands.islandOf(ends.a) === islands.islandOf(ends.b);
    const read = ask.meter(stateOf(car, all, made), joint.a, joint.b);
    made.add(joint.name);
    numbers.add(index);
    islands = islandsOf(battery.problem, has);
    const { voltage: touchable, terminal } = touch(islands, has);
    const open = battery.problem.terminals.flatMap((one, at) => (isOpen(one, has) ? [at] : []));
    const worst = Math.max(touchable, touchableBefore);
    touchableBefore = touchable;
    return {
      joint, closesLoop, touchable,
      before: read.outcome === 'reads' ? read.voltage : undefined,
      touchAt: terminal === undefined ? undefined : battery.terminals[terminal]!.point,
      voltageClass: worst > CLASS_B ? 'B' : 'A',
      gloves: worst > CLASS_B ? gloveClassFor(worst)?.name : undefined,
      bridge: worstBridge(car, ask, stateOf(car, all, made), battery, open, islands),
      cover: battery.terminals.flatMap(({ point, exposed }, at) => (exposed === 'until_joined' && battery.problem.terminals[at]!.joints.includes(index) && battery.problem.terminals[at]!.joints.every(has) ? [point] : [])),
    };
  });
}

/** Among the open terminals of one island, the pair with the most voltage that a tool could lie across. */
function worstBridge(car: Car, ask: Network, state: State, { problem, terminals }: BatteryJoints, open: readonly number[], islands: Islands): Bridge | undefined {
  let pair: { a: string; b: string; voltage: number } | undefined;
  for (const [at, first] of open.entries()) {
    for (const second of open.slice(at + 1)) {
      const [a, b] = [problem.terminals[first]!.piece, problem.terminals[second]!.piece];
      if (islands.islandOf(a) !== islands.islandOf(b)) continue;
      const voltage = Math.abs(islands.voltageOf(a) - islands.voltageOf(b));
      if (voltage <= (pair?.voltage ?? 0) * (1 + 1e-12) + 1e-9) continue;
      const gap = gapBetween(car.parts.get(terminals[first]!.part)!, car.parts.get(terminals[second]!.part)!);
      if (gap === undefined || gap <= TOOL_LENGTH) pair = { a: terminals[first]!.point, b: terminals[second]!.point, voltage };
    }
  }
  if (!pair) return undefined;
  const short = ask.faultCurrent(state, pair.a, pair.b);
  if (short.outcome !== 'solved' || short.resistance <= 0) return undefined;
  return { ...pair, current: Math.abs(short.current ?? 0), arcPower: largestArc(Math.abs(short.voltage), short.resistance).power };
}
