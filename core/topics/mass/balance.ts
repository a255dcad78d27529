/**
 * Axle loads, side loads and centre of gravity before and after the work.
 *
 * Moments about the front axle line and about the middle plane; the vehicle before is a mass at the place its axle loads give.
 * Source: [jazar-vehicle-dynamics] equations 2.15-2.16; statics. Checked: checks/reference/axle-loads.jazar.check.ts, core/topics/mass/study.test.ts
 */
import { axleLoads } from '../../physics/axle-loads.ts';
import type { MassEntry } from './masses.ts';

export interface VehicleBefore {
  /** [m] */
  readonly wheelbase: number; readonly frontTrack: number; readonly rearTrack: number;
  /** what the scales showed [kg] */
  readonly frontLoad: number; readonly rearLoad: number;
  readonly leftLoad: number | undefined;
  /** [m] above ground */
  readonly height: number | undefined;
}

export interface Balance {
  /** [kg] */
  readonly total: number; readonly front: number; readonly rear: number;
  /** undefined when the side loads before are not known */
  readonly left: number | undefined; readonly right: number | undefined;
  /** behind the front axle line [m] */
  readonly centreX: number;
  /** to the right of the middle plane [m] */
  readonly centreY: number | undefined;
  readonly centreZ: number | undefined;
}

/**
 * @param before   as weighed, `frontLoad + rearLoad` > 0, wheelbase > 0
 * @param entries  those without mass or place are passed over; the caller says so
 * @returns undefined when what is left weighs nothing
 * Range:  level ground, rigid vehicle; side loads use the mean track
 */
export function balanceOf(before: VehicleBefore, entries: readonly MassEntry[]): Balance | undefined {
  const placed = entries.flatMap(({ mass, at, change }) => (mass === undefined || at === undefined ? [] : [{ mass: change === 'removed' ? -mass : mass, x: at[0], y: at[1], z: at[2] }]));
  const weighed = before.frontLoad + before.rearLoad;
  const rightShare = before.leftLoad === undefined ? undefined : 1 - before.leftLoad / weighed;
  const loads = axleLoads({ front: before.frontLoad, rear: before.rearLoad, rightShare: rightShare ?? 0.5 }, placed, before.wheelbase, (before.frontTrack + before.rearTrack) / 2);
  if (loads.outcome !== 'loads') return undefined;
  const { total, front, rear } = loads;
  const sides = rightShare === undefined ? { left: undefined, right: undefined, centreY: undefined } : { left: loads.left, right: loads.right, centreY: loads.y };
  const centreZ = before.height === undefined ? undefined : placed.reduce((moment, { mass, z }) => moment + mass * z, weighed * before.height) / total;
  return { total, front, rear, ...sides, centreX: loads.x, centreZ };
}
