/** How large the paper lies on the desk: fitted to the width, or so many pixels to a millimetre. */
import { page } from '../../sheets/frame/page-size.ts';

export type Zoom = 'fit' | number;

/** A CSS pixel is 1/96 in: at this zoom the sheet is as large as on A3 paper [px/mm]. */
export const LIFE_SIZE = 96 / 25.4;
const STEP = 1.25;
const [LEAST, MOST] = [0.6, 14];

export const scaleOf = (zoom: Zoom, room: number): number => (zoom === 'fit' ? Math.max(room, 200) / page.width : zoom);
export const zoomed = (scale: number, by: number): number => Math.min(MOST, Math.max(LEAST, scale * by));
export const zoomStep = (scale: number, direction: 1 | -1): number => zoomed(scale, direction === 1 ? STEP : 1 / STEP);

/** Scroll offset that keeps the point under the pointer where it is, when the scale goes from `before` to `after`. */
export function scrollToKeep(scroll: number, pointer: number, before: number, after: number): number {
  return Math.max(0, (scroll + pointer) * (after / before) - pointer);
}
