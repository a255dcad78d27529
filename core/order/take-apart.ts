/**
 * The order to take a battery apart: the best order of joining, backwards. It passes through the same states, so it is the best one too;
 * what had to be joined first comes off last.
 */
import type { BatteryJoint } from './battery-joints.ts';
import type { AssemblyStep, Bridge, Expected } from './procedure.ts';

export interface ApartStep {
  readonly joint: BatteryJoint;
  /** highest touchable voltage before and after the cut [V] */
  readonly touchableBefore: number; readonly touchable: number;
  readonly voltageClass: 'A' | 'B';
  readonly gloves: AssemblyStep['gloves'];
  /** what a meter reads between the two ends once they are apart [V], a minus b; across the closed joint, and through it, nothing may be read */
  readonly after: number | undefined;
  /** across what hangs together while the joint is closed, and between the same two points once it is apart [V] */
  readonly joined: Expected | undefined;
  readonly joinedReads: number | undefined;
  /** a loop of cells is opened: current may flow in it until it is, and both sides stay live */
  readonly opensLoop: boolean;
  /** worst bridge while the joint is still closed */
  readonly bridge: Bridge | undefined;
  /** capacitors that still hold something while the joint is closed */
  readonly stored: AssemblyStep['stored'];
}

/** @param steps  of `procedure`, in the order of joining */
export function takeApart(steps: readonly AssemblyStep[]): ApartStep[] {
  return [...steps].reverse().map((step): ApartStep => ({
    joint: step.joint, touchableBefore: step.touchable, touchable: step.touchableBefore, voltageClass: step.voltageClass, gloves: step.gloves,
    after: step.before, joined: step.after, joinedReads: step.withoutJoint, opensLoop: step.closesLoop, bridge: step.bridge, stored: step.stored,
  }));
}
