/** How much room the vehicle takes: everything that has a place, the axles and the wheels. */
import type { Position } from '../../core/part/field.ts';
import type { LayoutModel, LayoutPart } from './model.ts';

export interface Extents {
  /** [m] along x */
  readonly front: number; readonly rear: number;
  /** half of what is needed along y, the same on both sides [m] */
  readonly half: number;
  /** [m] above ground; below it when a place says so */
  readonly top: number; readonly bottom: number;
}

/** What stands there when nothing has a place [m]. */
const SMALLEST = 0.5;

export function extentsOf({ parts, runs, vehicle, centre }: LayoutModel): Extents {
  const points: Position[] = [[0, 0, 0]];
  for (const { at, size } of parts) if (at) for (const sign of [-0.5, 0.5]) points.push([0, 1, 2].map((axis) => at[axis]! + sign * (size?.[axis] ?? 0)) as unknown as Position);
  for (const run of runs) points.push(...run.points);
  for (const one of [centre.before, centre.after]) if (one) points.push([one.x, one.y ?? 0, one.z ?? 0]);
  if (vehicle.wheelbase !== undefined) points.push([vehicle.wheelbase, 0, 0]);
  for (const track of [vehicle.frontTrack, vehicle.rearTrack]) if (track !== undefined) points.push([0, track / 2 + 0.05, 0]);
  const along = (axis: 0 | 1 | 2): number[] => points.map((point) => point[axis]);
  const [front, rear] = [Math.min(...along(0)), Math.max(...along(0))];
  return {
    front, rear: Math.max(rear, front + SMALLEST), half: Math.max(SMALLEST / 2, ...along(1).map(Math.abs)),
    top: Math.max(SMALLEST, ...along(2)), bottom: Math.min(0, ...along(2)),
  };
}

/** Longest of its sides [m]; 0 without a size. */
export const longestSide = ({ size }: LayoutPart): number => Math.max(0, ...(size ?? []));
