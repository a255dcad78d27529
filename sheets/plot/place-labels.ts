/** Where labels go so that they stand clear of each other, of the lines and of the edge. */

export interface Box { readonly x: number; readonly y: number; readonly width: number; readonly height: number }
export interface Segment { readonly x1: number; readonly y1: number; readonly x2: number; readonly y2: number }

export interface Wanted {
  readonly width: number; readonly height: number;
  /** top left corners that would do, best first [mm] */
  readonly candidates: readonly { readonly x: number; readonly y: number }[];
}

/** half a line's width and some air [mm] */
const AIR = 0.5;

/**
 * One box a label, in order; each takes the first candidate that touches nothing, else the one that touches least.
 * Shape: as many boxes as labels; a label without candidates throws
 */
export function placeLabels(labels: readonly Wanted[], lines: readonly Segment[], frame: Box): readonly Box[] {
  const placed: Box[] = [];
  for (const { width, height, candidates } of labels) {
    let best: Box | undefined;
    let least = Infinity;
    for (const [rank, candidate] of candidates.entries()) {
      const box = { ...candidate, width, height };
      const cost = outside(box, frame) * 1000 + placed.reduce((sum, other) => sum + overlap(box, other), 0) * 100 + lines.filter((line) => crosses(line, box)).length * 20 + rank * 0.5;
      if (cost < least) { best = box; least = cost; }
    }
    if (!best) throw new RangeError('a label needs at least one place to go');
    placed.push(best);
  }
  return placed;
}

/** Area in both [mm²]. */
export function overlap(a: Box, b: Box): number {
  const across = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const down = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return across > 0 && down > 0 ? across * down : 0;
}

/** How far a box stands out of a frame [mm]. */
function outside(box: Box, frame: Box): number {
  return Math.max(0, frame.x - box.x) + Math.max(0, frame.y - box.y) + Math.max(0, box.x + box.width - frame.x - frame.width) + Math.max(0, box.y + box.height - frame.y - frame.height);
}

/** Whether a line passes through a box: what is left of it after cutting at each of the four sides. */
export function crosses({ x1, y1, x2, y2 }: Segment, box: Box): boolean {
  let [enter, leave] = [0, 1];
  const [dx, dy] = [x2 - x1, y2 - y1];
  const sides: readonly (readonly [number, number])[] = [
    [-dx, x1 - (box.x - AIR)], [dx, box.x + box.width + AIR - x1],
    [-dy, y1 - (box.y - AIR)], [dy, box.y + box.height + AIR - y1],
  ];
  for (const [along, room] of sides) {
    if (along === 0) { if (room < 0) return false; continue; }
    const share = room / along;
    if (along < 0) enter = Math.max(enter, share);
    else leave = Math.min(leave, share);
  }
  return enter < leave;
}
