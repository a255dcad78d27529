/**
 * Axle loads, side loads and centre of gravity before and after the work.
 *
 * Moments about the front axle line and about the middle plane; the vehicle before is a mass at the place its axle loads give.
 * Source: [jazar-vehicle-dynamics] equations 2.15-2.16; statics. Checked: checks/reference/axle-loads.jazar.check.ts, balance.test.ts
 */
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
  const track = (before.frontTrack + before.rearTrack) / 2;
  let total = before.frontLoad + before.rearLoad;
  let momentX = before.rearLoad * before.wheelbase;
  let momentY = before.leftLoad === undefined ? undefined : (total - 2 * before.leftLoad) * (track / 2);
  let momentZ = before.height === undefined ? undefined : total * before.height;
  for (const { mass, at, change } of entries) {
    if (mass === undefined || at === undefined) continue;
    const signed = change === 'removed' ? -mass : mass;
    total += signed;
    momentX += signed * at[0];
    if (momentY !== undefined) momentY += signed * at[1];
    if (momentZ !== undefined) momentZ += signed * at[2];
  }
  if (!(total > 0)) return undefined;
  const rear = momentX / before.wheelbase;
  const right = momentY === undefined ? undefined : total / 2 + momentY / track;
  return {
    total, front: total - rear, rear, right, left: right === undefined ? undefined : total - right,
    centreX: momentX / total, centreY: momentY === undefined ? undefined : momentY / total, centreZ: momentZ === undefined ? undefined : momentZ / total,
  };
}
