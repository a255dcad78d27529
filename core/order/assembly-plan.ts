/** All that the command and the sheet show of a car's assembly: the best order, the builder's own, and both step by step. */
import type { Car } from '../car/car.ts';
import { batteryJoints } from './battery-joints.ts';
import type { BatteryJoints } from './battery-joints.ts';
import { bestOrder, measureOrder, ownOrder } from './best-order.ts';
import type { Order } from './best-order.ts';
import type { JoinProblem } from './join-problem.ts';
import { procedure } from './procedure.ts';
import type { AssemblyStep } from './procedure.ts';

export type AssemblyPlan =
  | { readonly outcome: 'planned'; readonly battery: BatteryJoints; readonly best: Order; /** order of the file, each joint as soon as what it must follow is made */ readonly own: Order; readonly steps: readonly AssemblyStep[] }
  /** there is no joint that the cells reach */
  | { readonly outcome: 'nothing'; readonly battery: BatteryJoints }
  /** runs that wait for each other by their `after` and `before` */
  | { readonly outcome: 'impossible'; readonly battery: BatteryJoints; readonly joints: readonly string[] };

/**
 * @param which  whose order the steps follow
 * @param made  joints that are made already, in that order: they come first, and the order is the best one from there on
 */
export function assemblyPlan(car: Car, which: 'best' | 'own' = 'best', made: readonly string[] = []): AssemblyPlan {
  const battery = batteryJoints(car);
  if (battery.live.length === 0) return { outcome: 'nothing', battery };
  const problem = goingOn(battery, made);
  const found = bestOrder(problem);
  if (found.outcome === 'impossible') return { outcome: 'impossible', battery, joints: found.joints.map((index) => battery.live[index]!.name) };
  const own = measureOrder(problem, ownOrder(problem));
  const chosen = which === 'best' ? found.order : own;
  return { outcome: 'planned', battery, best: found.order, own, steps: procedure(car, battery, chosen.steps.map(({ joint }) => joint)) };
}

/** What is made has its place, whatever the file says of it now; everything else comes behind it. */
function goingOn({ live, problem }: BatteryJoints, made: readonly string[]): JoinProblem {
  const places = [...new Set(made)].map((name) => live.findIndex((joint) => joint.name === name)).filter((place) => place >= 0);
  if (places.length === 0) return problem;
  const last = places.at(-1)!;
  return { ...problem, joints: problem.joints.map((joint, index) => { const at = places.indexOf(index); return { ...joint, after: at < 0 ? [...joint.after, last] : places.slice(Math.max(0, at - 1), at) }; }) };
}
