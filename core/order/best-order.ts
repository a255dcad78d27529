/**
 * The order of joints in which the voltage that hands can reach stays lowest for longest.
 *
 * Measure of an order: the sum over its steps of the highest touchable voltage after the step [V]; at a tie, the number of
 * steps in which it is of class B; at a tie, the order of the file. The touchable voltage of a state does not depend on the order
 * that led to it, so the best way to every set of joints is the best way to a set with one joint less, and one step (Bellman).
 * Exact up to `EXACT_JOINTS`; beyond, the best of the ways kept at each step, with a bound below which no order can be.
 * Checked: core/order/best-order.test.ts (against all orders)
 */
import { islands, islandsOf, toucher } from './join-problem.ts';
import type { JoinProblem, ProblemJoint } from './join-problem.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';

/** As many joints as are searched in full. */
export const EXACT_JOINTS = 20;

export interface OrderStep {
  readonly joint: number;
  /** highest touchable voltage after the step [V] */
  readonly touchable: number;
}

export interface Order {
  readonly steps: readonly OrderStep[];
  /** sum of the touchable voltages after the steps [V] */
  readonly sum: number;
  readonly stepsInClassB: number;
  /** proved to be the best */
  readonly isExact: boolean;
  /** no order has a smaller sum than this [V] */
  readonly atLeast: number;
}

export type BestOrder = { readonly outcome: 'found'; readonly order: Order } | /** joints that wait for each other */ { readonly outcome: 'impossible'; readonly joints: readonly number[] };

/** How an order given by the builder measures up, step by step. Joints that it leaves out are not made. */
export function measureOrder(problem: JoinProblem, joints: readonly number[]): Order {
  const made = new Set<number>();
  const has = (index: number): boolean => made.has(index);
  const touch = toucher(problem);
  const steps = joints.map((joint) => {
    made.add(joint);
    return { joint, touchable: touch(islandsOf(problem, has), has).voltage };
  });
  return measured(steps, false, 0);
}

/** The best order to make all joints of a problem; never worse than the order of the file, however many joints there are. */
export function bestOrder(problem: JoinProblem): BestOrder {
  const stuck = waitingForever(problem);
  if (stuck.length > 0) return { outcome: 'impossible', joints: stuck };
  if (problem.joints.length <= EXACT_JOINTS) return { outcome: 'found', order: exactOrder(problem) };
  const [kept, own] = [keptOrder(problem), measureOrder(problem, ownOrder(problem))];
  return { outcome: 'found', order: isBetter(own, kept) ? { ...own, atLeast: kept.atLeast } : kept };
}

/** Whether one order is better than another by the measure of this file. */
export function isBetter(one: Pick<Order, 'sum' | 'stepsInClassB'>, other: Pick<Order, 'sum' | 'stepsInClassB'>): boolean {
  return isLess(one.sum, other.sum) || (!isLess(other.sum, one.sum) && one.stepsInClassB < other.stepsInClassB);
}

/**
 * The builder's own order: that of the file, each joint as soon as what it must follow is made.
 * @returns joints by number; those that wait for each other are left out
 */
export function ownOrder({ joints }: JoinProblem): number[] {
  const order: number[] = [];
  const made = new Set<number>();
  for (let next = 0; next >= 0;) {
    next = joints.findIndex(({ after }, index) => !made.has(index) && after.every((before) => made.has(before)));
    if (next < 0) break;
    made.add(next);
    order.push(next);
  }
  return order;
}

function measured(steps: readonly OrderStep[], isExact: boolean, atLeast: number): Order {
  const sum = steps.reduce((total, { touchable }) => total + touchable, 0);
  return { steps, sum, stepsInClassB: steps.filter(({ touchable }) => touchable > CLASS_A_HIGHEST).length, isExact, atLeast: isExact ? sum : atLeast };
}

/** Joints that can never be made, because each waits for another of them. */
function waitingForever({ joints }: JoinProblem): number[] {
  const made = new Set<number>();
  for (let found = true; found;) {
    found = false;
    joints.forEach(({ after }, index) => { if (!made.has(index) && after.every((before) => made.has(before))) { made.add(index); found = true; } });
  }
  return joints.map((_, index) => index).filter((index) => !made.has(index));
}

/** More than rounding: sums of the same voltages in another order are ties. */
const isLess = (a: number, b: number): boolean => a < b - 1e-9 * (1 + Math.abs(b));

function exactOrder(problem: JoinProblem): Order {
  const count = problem.joints.length;
  const states = 2 ** count;
  const touchable = touchableOfAll(problem, count, states);
  const cost = new Float64Array(states).fill(Infinity);
  const dangerous = new Uint8Array(states);
  const last = new Int8Array(states).fill(-1);
  const after = problem.joints.map((joint) => joint.after.reduce((mask, index) => mask | (1 << index), 0));
  cost[0] = 0;
  for (let state = 0; state < states; state++) {
    const here = cost[state] as number;
    if (here === Infinity) continue;
    for (let joint = 0; joint < count; joint++) {
      const bit = 1 << joint;
      if ((state & bit) !== 0 || ((after[joint] as number) & ~state) !== 0) continue;
      const next = state | bit;
      const voltage = touchable[next] as number;
      const sum = here + voltage;
      const steps = (dangerous[state] as number) + (voltage > CLASS_A_HIGHEST ? 1 : 0);
      const known = cost[next] as number;
      // of equals the way whose last joint stands later in the file, so that the first of the file comes first
      if (known === Infinity || isLess(sum, known) || (!isLess(known, sum) && (steps < (dangerous[next] as number) || (steps === dangerous[next] && joint > (last[next] as number))))) {
        cost[next] = sum;
        dangerous[next] = steps;
        last[next] = joint;
      }
    }
  }
  const steps: OrderStep[] = [];
  for (let state = states - 1; state !== 0;) {
    const joint = last[state] as number;
    steps.unshift({ joint, touchable: touchable[state] as number });
    state &= ~(1 << joint);
  }
  return measured(steps, true, 0);
}

/** Highest touchable voltage of every set of joints, by joining and taking back. */
function touchableOfAll(problem: JoinProblem, count: number, states: number): Float64Array {
  const all = new Float64Array(states);
  const touch = toucher(problem);
  const state = islandsOf(problem, () => false);
  let set = 0;
  const made = (joint: number): boolean => (set & (1 << joint)) !== 0;
  const visit = (joint: number): void => {
    if (joint === count) { all[set] = touch(state, made).voltage; return; }
    visit(joint + 1);
    const { a, b } = problem.joints[joint] as ProblemJoint;
    set |= 1 << joint;
    state.join(a, b, 0);
    visit(joint + 1);
    state.undo();
    set &= ~(1 << joint);
  };
  visit(0);
  return all;
}

/** Ways kept at each step. */
const KEPT = 400;

interface Way { readonly joints: readonly number[]; readonly voltages: readonly number[]; readonly sum: number; readonly key: string }

/** Step by step, keeping the best ways to different sets of joints. */
function keptOrder(problem: JoinProblem): Order {
  const touch = toucher(problem);
  const agrees = jointsAgree(problem);
  let ways: readonly Way[] = [{ joints: [], voltages: [], sum: 0, key: '' }];
  for (let step = 0; step < problem.joints.length; step++) {
    const next = new Map<string, Way>();
    for (const way of ways) {
      const before = new Set(way.joints);
      const state = islandsOf(problem, (joint) => before.has(joint));
      problem.joints.forEach((joint, index) => {
        if (before.has(index) || !joint.after.every((one) => before.has(one))) return;
        const has = (one: number): boolean => one === index || before.has(one);
        if (agrees) state.join(joint.a, joint.b, 0);
        // where joints contradict the cells, the voltages depend on which is counted first
        const voltage = touch(agrees ? state : islandsOf(problem, has), has).voltage;
        if (agrees) state.undo();
        const key = [...way.joints, index].sort((a, b) => a - b).join(' ');
        const known = next.get(key);
        const sum = way.sum + voltage;
        if (!known || isLess(sum, known.sum)) next.set(key, { joints: [...way.joints, index], voltages: [...way.voltages, voltage], sum, key });
      });
    }
    ways = [...next.values()].sort((a, b) => (isLess(a.sum, b.sum) ? -1 : isLess(b.sum, a.sum) ? 1 : 0)).slice(0, KEPT);
  }
  const best = ways[0] as Way;
  return measured(best.joints.map((joint, index) => ({ joint, touchable: best.voltages[index] as number })), false, lowestSum(problem));
}

/** No joint shorts cells or lays unequal ones in parallel: then the voltages of a state are the same whichever joint is counted first. */
function jointsAgree({ pieces, cells, joints }: JoinProblem): boolean {
  const all = islands(pieces);
  const within = (left: number | undefined): boolean => left === undefined || Math.abs(left) < 1e-9;
  return cells.every(({ negative, positive, voltage }) => within(all.join(negative, positive, voltage))) && joints.every(({ a, b }) => within(all.join(a, b, 0)));
}

/**
 * No order can have a smaller sum. The last state is the same for all orders; before it, a cell one of whose terminals can always be
 * touched shows its own voltage at least. Nothing more is claimed.
 */
function lowestSum(problem: JoinProblem): number {
  const all = (): boolean => true;
  const whole = toucher(problem)(islandsOf(problem, all), all).voltage;
  const shown = problem.cells.filter(({ negative, positive }) => problem.terminals.some(({ piece, exposed }) => exposed === 'always' && (piece === negative || piece === positive)));
  const largest = shown.reduce((most, { voltage }) => Math.max(most, Math.abs(voltage)), 0);
  return whole + largest * Math.max(0, problem.joints.length - 1);
}
