/** Where the arrow keys go on a drawing: to the nearest thing in that direction. */

export interface Box { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number }
export type Direction = 'left' | 'right' | 'up' | 'down';

/** What lies askew counts as this many times farther than what lies straight ahead. */
const ASKEW = 2.5;

/**
 * Index of the nearest box in a direction, by the centres; undefined when there is none.
 * Within a box that encloses `from` the way out is the same: its centre decides.
 */
export function nearestInDirection(from: Box, boxes: readonly Box[], direction: Direction): number | undefined {
  const [x, y] = centre(from);
  let best: { readonly index: number; readonly distance: number } | undefined;
  for (const [index, box] of boxes.entries()) {
    const [dx, dy] = [centre(box)[0] - x, centre(box)[1] - y];
    const ahead = { left: -dx, right: dx, up: -dy, down: dy }[direction];
    const aside = Math.abs(direction === 'left' || direction === 'right' ? dy : dx);
    if (ahead <= 0.5) continue;
    const distance = ahead + ASKEW * aside;
    if (!best || distance < best.distance) best = { index, distance };
  }
  return best?.index;
}

function centre({ left, top, right, bottom }: Box): readonly [number, number] {
  return [(left + right) / 2, (top + bottom) / 2];
}
