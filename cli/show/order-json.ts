/** The order of joints as the stable JSON contract of `docs/json.md`. Numbers are SI. */
import type { Build } from '../../core/build/build.ts';
import type { Car } from '../../core/car/car.ts';
import type { AssemblyPlan } from '../../core/order/assembly-plan.ts';
import { contactMeetings } from '../../core/topics/pack/contact-meeting.ts';
import type { OpenStop } from '../../core/findings/open-stops.ts';
import type { Order } from '../../core/order/best-order.ts';
import type { JointHold } from '../../core/order/joint-hold.ts';
import { jointTool } from '../../core/order/joint-tool.ts';
import type { ParallelJoint } from '../../core/topics/pack/closed-loop.ts';
import type { AssemblyStep, Bridge } from '../../core/order/procedure.ts';
import { takeApart } from '../../core/order/take-apart.ts';
import { jointStepIds, moduleStepId } from '../../core/readings/assembly-steps.ts';
import { stopJson } from './power-up-json.ts';

export interface ShownOrder {
  readonly build: Build; readonly car: Car;
  readonly plan: Extract<AssemblyPlan, { outcome: 'planned' }>;
  readonly which: 'best' | 'own';
  readonly isReverse: boolean;
  /** findings at `stop` */
  readonly stops: readonly OpenStop[];
  /** joints that must not be made as things stand */
  readonly holds: ReadonlyMap<string, JointHold>;
  /** before anything is taken apart [s]; undefined: no time that can be counted on */
  readonly wait: number | undefined;
}

export function orderJson({ build, car, plan, which, isReverse, stops, holds, wait }: ShownOrder): object {
  const { battery, best, own, steps } = plan;
  const ordered = (order: Order): object => ({
    sum_of_touchable: order.sum, steps_in_class_b: order.stepsInClassB,
    joints: order.steps.map(({ joint, touchable }) => ({ joint: battery.live[joint]!.name, touchable })),
  });
  return {
    version: 1, build: build.name, order: which, reverse: isReverse, stops: stops.map(stopJson), ...(isReverse ? { wait: wait ?? null } : {}),
    first_without_voltage: battery.dead.map(({ name }) => name), modules_without_values: battery.unknown,
    best: { ...ordered(best), exact: best.isExact, sum_at_least: best.atLeast }, own: ordered(own),
    modules: battery.readings.map(({ module, positive, negative }) => ({ id: moduleStepId(module), module, between: [positive, negative] })),
    meet_by_contacts: contactMeetings(car).map(({ strings, contacts, notRead, parallel }) => ({ strings, contacts, not_read: notRead, ...parallelJson(parallel) })),
    steps: isReverse ? takeApart(steps).map((step, index) => ({
      number: index + 1, joint: step.joint.name, is: step.joint.is, between: [step.joint.a, step.joint.b],
      ...toolJson(car, step), before: { ...(step.joined ? { between: [step.joined.a, step.joined.b], voltage: step.joined.voltage } : { between: null, voltage: null }), current: 0 },
      after: { between: [step.joint.a, step.joint.b], voltage: step.after ?? null }, shows_apart: step.joined ? { between: [step.joined.a, step.joined.b], voltage: step.joinedReads ?? null } : null,
      touchable_before: step.touchableBefore, touchable: step.touchable, voltage_class: step.voltageClass, gloves: step.gloves ?? null, opens_loop: step.opensLoop,
      bridge: bridgeJson(step.bridge), stored: step.stored,
    })) : steps.map((step, index) => stepJson(car, step, index + 1, holds.get(step.joint.name))),
  };
}

/** With what a joint is made or parted. */
function toolJson(car: Car, step: Pick<AssemblyStep, 'joint' | 'voltageClass'>): object {
  const { tool, insulation, torque, hardware } = jointTool(car, step);
  return { tool, insulation, torque: torque ?? null, hardware: hardware ?? null };
}

function stepJson(car: Car, step: AssemblyStep, number: number, hold: JointHold | undefined): object {
  const { joint, before, after, closesLoop, parallel } = step;
  // a joint that must not be made has no tool and no gloves to make it with
  const made = hold === undefined;
  return {
    number, joint: joint.name, is: joint.is, between: [joint.a, joint.b], reading_ids: jointStepIds(joint.name), hold: hold ? { held_by: hold.stops.map((stop) => stop.number), says: hold.words } : null, ...(made ? toolJson(car, step) : { tool: null, insulation: null, torque: null, hardware: null }),
    before: { between: [joint.a, joint.b], voltage: before ?? null }, closes_loop: closesLoop, parallel: parallel ? parallelJson(parallel) : null,
    after: made && after ? { between: [after.a, after.b], voltage: after.voltage } : null,
    touchable: step.touchable, touch_at: step.touchAt ?? null, voltage_class: step.voltageClass, gloves: made ? step.gloves ?? null : null,
    bridge: bridgeJson(step.bridge), stored: step.stored, cover: step.cover, blanket: step.blanket,
  };
}

const bridgeJson = (bridge: Bridge | undefined): object | null => (bridge ? { between: [bridge.a, bridge.b], voltage: bridge.voltage, current: bridge.current, arc_power: bridge.arcPower } : null);

function parallelJson({ loop, difference, differenceFrom, flow, mayDiffer }: ParallelJoint): Readonly<Record<string, unknown>> {
  return {
    modules: loop.modules.map(({ name }) => name), difference, difference_from: differenceFrom,
    flow: flow ? { current: flow.current, time_constant: flow.timeConstant, settled: flow.settled, heat: flow.heat } : null,
    may_differ: mayDiffer ? { voltage: mayDiffer.difference, current: mayDiffer.current, by: mayDiffer.by, at: mayDiffer.at } : null,
  };
}
