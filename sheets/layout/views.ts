/**
 * The three views and how they lie on paper. Axes of ISO 4130: x rearward, y to the right, z up.
 *
 * Third-angle (ISO 5456-2): the side view is seen from the left (front at the left, z up); the plan stands above it (y up), the
 * view from the rear to its right (y to the right, z up).
 */
import type { Position } from '../../core/part/field.ts';

export type View = 'plan' | 'side' | 'rear';

/** Which axis runs across the paper and which up it, and which way the eye looks: along it, towards smaller values when -1. */
const axes: Readonly<Record<View, { readonly across: 0 | 1; readonly up: 1 | 2; readonly depth: 0 | 1 | 2; readonly looks: 1 | -1 }>> = {
  plan: { across: 0, up: 1, depth: 2, looks: -1 },
  side: { across: 0, up: 2, depth: 1, looks: 1 },
  rear: { across: 1, up: 2, depth: 0, looks: -1 },
};

/** Paper coordinates [mm]; y down. */
export interface Point { readonly x: number; readonly y: number }
export interface Box { readonly x: number; readonly y: number; readonly width: number; readonly height: number }

/** A view in its place on the sheet: `origin` is where vehicle 0,0 falls on paper [mm]; scale 20 stands for 1:20. */
export interface PlacedView { readonly view: View; readonly scale: number; readonly origin: Point }

export function toPaper({ view, scale, origin }: PlacedView, place: Position): Point {
  const { across, up } = axes[view];
  return { x: origin.x + (place[across] * 1000) / scale, y: origin.y - (place[up] * 1000) / scale };
}

/** What a part of this middle and size covers in a view. */
export function boxOnPaper(placed: PlacedView, at: Position, size: Position): Box {
  const { across, up } = axes[placed.view];
  const middle = toPaper(placed, at);
  const [width, height] = [(size[across] * 1000) / placed.scale, (size[up] * 1000) / placed.scale];
  return { x: middle.x - width / 2, y: middle.y - height / 2, width, height };
}

/** Nearness of a part's visible face to the eye [m]; the largest is in front of all others. */
export function nearness(view: View, at: Position, size: Position | undefined): number {
  const { depth, looks } = axes[view];
  return -looks * at[depth] + (size?.[depth] ?? 0) / 2;
}

/**
 * What a drag on paper moves: the axis that a view does not show stays as it is.
 *
 * @param scale  of the drawing: 20 stands for 1:20
 * @param dx     to the right on paper [mm of A3]
 * @param dy     down on paper [mm of A3]
 * @returns change of x, y, z [m]
 * Errors:  throws a RangeError when the scale is not > 0
 */
export function moveInView(view: View, scale: number, dx: number, dy: number): [number, number, number] {
  if (!(scale > 0)) throw new RangeError(`the scale of a drawing is above 0, not ${scale}`);
  const { across, up } = axes[view];
  const moved: [number, number, number] = [0, 0, 0];
  moved[across] += (dx * scale) / 1000;
  moved[up] -= (dy * scale) / 1000;
  // no -0 into the file
  return [moved[0] + 0, moved[1] + 0, moved[2] + 0];
}

/** Reductions of ISO 5455, the largest drawing first. */
const scales = [2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000];

/** The largest standard scale at which `fits` says yes; the smallest of all when none does. */
export function largestScale(fits: (scale: number) => boolean): number {
  return scales.find(fits) ?? scales.at(-1)!;
}

export const overlaps = (a: Box, b: Box): boolean => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
export const contains = (outer: Box, inner: Box): boolean => outer.x <= inner.x && outer.y <= inner.y && outer.x + outer.width >= inner.x + inner.width && outer.y + outer.height >= inner.y + inner.height;
export const middleOf = ({ x, y, width, height }: Box): Point => ({ x: x + width / 2, y: y + height / 2 });

/** The piece of a straight line that lies within a box; undefined when none does (Liang and Barsky). */
export function clipLine(a: Point, b: Point, box: Box): readonly [Point, Point] | undefined {
  if (Math.max(a.x, b.x) < box.x || Math.min(a.x, b.x) > box.x + box.width || Math.max(a.y, b.y) < box.y || Math.min(a.y, b.y) > box.y + box.height) return undefined;
  let [from, to] = [0, 1];
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  for (const [step, room] of [[-dx, a.x - box.x], [dx, box.x + box.width - a.x], [-dy, a.y - box.y], [dy, box.y + box.height - a.y]] as const) {
    if (step === 0) { if (room < 0) return undefined; continue; }
    const at = room / step;
    if (step < 0) from = Math.max(from, at);
    else to = Math.min(to, at);
  }
  if (from > to) return undefined;
  return [{ x: a.x + from * dx, y: a.y + from * dy }, { x: a.x + to * dx, y: a.y + to * dy }];
}
