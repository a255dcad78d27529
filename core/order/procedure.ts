/**
 * An order of joints as a procedure: before each one what the meter must read between the two ends, after it what can be touched,
 * what a dropped tool would do, which gloves, what to cover. Every reading is a solve of the one network in that state.
 */
import type { Car } from '../car/car.ts';
import { largestArc } from '../physics/arc-power.ts';
import { gloveClassFor } from '../physics/glove-class.ts';
import type { GloveClass } from '../physics/glove-class.ts';
import type { AssemblyNetwork } from './assembly-network.ts';
import type { BatteryJoint, BatteryJoints } from './battery-joints.ts';
import { islandsOf, isOpen, toucher } from './join-problem.ts';
import type { Islands, JoinProblem } from './join-problem.ts';
import { measuredNetwork } from './measured-network.ts';
import { parallelJoint } from './parallel-joint.ts';
import type { ParallelJoint } from '../topics/pack/closed-loop.ts';
import { gapBetween } from './reach.ts';
import { storedIn } from './stored-energy.ts';
import type { Stored } from './stored-energy.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';

/** Longest tool that is likely to fall across two terminals [m]: a ratchet with its extension. Common practice, no source. */
export const TOOL_LENGTH = 0.35;

export interface Bridge {
  readonly a: string; readonly b: string;
  /** with full cells: between them [V], current of a bolted short [A], and the most that an arc could draw [W] */
  readonly voltage: number; readonly current: number; readonly arcPower: number;
}

/** What a meter reads with one probe on each of two points, a minus b [V]. */
export interface Expected { readonly a: string; readonly b: string; readonly voltage: number }

export interface AssemblyStep {
  readonly joint: BatteryJoint;
  /** what a meter reads between the two ends before they meet [V], a minus b; undefined when the network could not be solved */
  readonly before: number | undefined;
  /** the two ends belong to one island already: the reading must be near 0 V, or current will flow when they meet */
  readonly closesLoop: boolean;
  /** what flows when a loop is closed, and how far apart its ends may stand; undefined: no loop, or it could not be followed */
  readonly parallel: ParallelJoint | undefined;
  /** from the lowest to the highest point of what hangs together after the step; undefined when it has no cell, or no answer */
  readonly after: Expected | undefined;
  /** between the same two points without the joint [V]; undefined: no such points, or no answer */
  readonly withoutJoint: number | undefined;
  /** highest voltage from a touchable terminal to the chassis if the worst point leaks to it, before and after the step [V], and where */
  readonly touchableBefore: number;
  readonly touchable: number;
  readonly touchAt: string | undefined;
  readonly voltageClass: 'A' | 'B';
  /** gloves for this step: for the voltage that there is before or after it, whichever is more; undefined in class A */
  readonly gloves: GloveClass['name'] | undefined;
  /** the worst pair of touchable terminals within a tool's length of each other after the step; undefined when there is none */
  readonly bridge: Bridge | undefined;
  /** capacitors that hold something after the step, as computed at rest */
  readonly stored: readonly Stored[];
  /** terminals whose own cover can go on now, because nothing more is joined to them */
  readonly cover: readonly string[];
  /** bare terminals of this joint, to be laid under an insulating cap or blanket: nothing more is joined to them, or not yet */
  readonly blanket: readonly string[];
}

/**
 * @param order  numbers of `battery.live`, in the order in which they are made; dead joints are taken as made before
 * @returns one step for each
 */
export function procedure(car: Car, battery: BatteryJoints, order: readonly number[]): AssemblyStep[] {
  const { problem, terminals, live } = battery;
  const all = [...battery.dead, ...live];
  const network = measuredNetwork(car, battery);
  const made = new Set(battery.dead.map(({ name }) => name));
  const numbers = new Set<number>();
  const touch = toucher(problem);
  const has = (index: number): boolean => numbers.has(index);
  const openNow = (): number[] => problem.terminals.flatMap((one, at) => (isOpen(one, has) ? [at] : []));
  let islands = islandsOf(problem, has);
  let touchableBefore = touch(islands, has).voltage;
  let state = network.at(made);
  return order.map((index): AssemblyStep => {
    const joint = live[index] as BatteryJoint;
    const ends = problem.joints[index]!;
    const closesLoop = islands.islandOf(ends.a) === islands.islandOf(ends.b);
    const before = state.meter(joint.a, joint.b);
    const seen = closesLoop ? network.seen(made, joint.a, joint.b) : undefined;
    const parallel = seen && parallelJoint(car, all, made, joint, seen, (modules) => byReadings(battery, has, ends, modules.map(({ name }) => name)));
    made.add(joint.name);
    numbers.add(index);
    // made anew at each step: where joints contradict the cells, the voltages depend on which is counted first
    islands = islandsOf(problem, has);
    const across = acrossIsland(battery, islands, islands.islandOf(ends.a));
    // asked before the next state is: of a network of assembly only the last one may be
    const withoutJoint = across && state.meter(across.a, across.b);
    state = network.at(made);
    const acrossNow = across && state.meter(across.a, across.b);
    const { voltage: touchable, terminal } = touch(islands, has);
    const worst = Math.max(touchable, touchableBefore);
    const own = problem.terminals.flatMap(({ joints }, at) => (joints.includes(index) ? [at] : []));
    const step: AssemblyStep = {
      joint, before, closesLoop, parallel, touchableBefore, touchable,
      after: across && acrossNow !== undefined ? { ...across, voltage: acrossNow } : undefined, withoutJoint,
      touchAt: terminal === undefined ? undefined : terminals[terminal]!.point,
      voltageClass: worst > CLASS_A_HIGHEST ? 'B' : 'A',
      gloves: worst > CLASS_A_HIGHEST ? gloveClassFor(worst)?.name : undefined,
      stored: storedIn(car, state.solved),
      bridge: worstBridge(car, network, made, battery, openNow(), islands),
      cover: own.filter((at) => terminals[at]!.exposed === 'until_joined' && problem.terminals[at]!.joints.every(has)).map((at) => terminals[at]!.point),
      blanket: own.filter((at) => terminals[at]!.exposed === 'always').map((at) => terminals[at]!.point),
    };
    touchableBefore = touchable;
    return step;
  });
}

/** Difference between the ends of a joint by what the builder's meter read at each module; undefined when one of the loop was not read. */
function byReadings({ problem, readings }: BatteryJoints, has: (joint: number) => boolean, { a, b }: JoinProblem['joints'][number], modules: readonly string[]): number | undefined {
  if (modules.length === 0 || modules.some((name) => readings.find(({ module }) => module === name)?.voltage === undefined)) return undefined;
  const read: JoinProblem = { ...problem, cells: problem.cells.map((cell, index) => ({ ...cell, voltage: readings[index]!.voltage ?? cell.voltage })) };
  const islands = islandsOf(read, has);
  return islands.voltageOf(a) - islands.voltageOf(b);
}

/** The highest and the lowest terminal of an island, whatever covers they have: the meter is put there before the cover goes on. */
function acrossIsland({ problem, terminals }: BatteryJoints, islands: Islands, island: number): Pick<Expected, 'a' | 'b'> | undefined {
  let [low, high]: [number | undefined, number | undefined] = [undefined, undefined];
  const height = (at: number): number => islands.voltageOf(problem.terminals[at]!.piece);
  problem.terminals.forEach(({ piece }, at) => {
    if (islands.islandOf(piece) !== island) return;
    if (low === undefined || height(at) < height(low) - 1e-9) low = at;
    if (high === undefined || height(at) > height(high) + 1e-9) high = at;
  });
  if (low === undefined || high === undefined || height(high) - height(low) < 1e-6) return undefined;
  return { a: terminals[high]!.point, b: terminals[low]!.point };
}

/** Among the open terminals of one island, the pair with the most voltage that a tool could lie across. */
function worstBridge(car: Car, network: AssemblyNetwork, made: ReadonlySet<string>, { problem, terminals }: BatteryJoints, open: readonly number[], islands: Islands): Bridge | undefined {
  const heights = open.map((at) => islands.voltageOf(problem.terminals[at]!.piece));
  const roots = open.map((at) => islands.islandOf(problem.terminals[at]!.piece));
  let pair: { a: string; b: string; voltage: number } | undefined;
  for (let i = 0; i < open.length; i++) {
    for (let k = i + 1; k < open.length; k++) {
      if (roots[i] !== roots[k]) continue;
      const voltage = Math.abs(heights[i]! - heights[k]!);
      if (voltage <= (pair?.voltage ?? 0) * (1 + 1e-12) + 1e-9) continue;
      const [first, second] = [terminals[open[i]!]!, terminals[open[k]!]!];
      const gap = gapBetween(car.parts.get(first.part)!, car.parts.get(second.part)!);
      if (gap === undefined || gap <= TOOL_LENGTH) pair = { a: first.point, b: second.point, voltage };
    }
  }
  const short = pair && network.seen(made, pair.a, pair.b);
  if (!pair || !short || short.resistance <= 0) return undefined;
  // cells full, like the touchable voltage
  return { ...pair, current: pair.voltage / short.resistance, arcPower: largestArc(pair.voltage, short.resistance).power };
}
