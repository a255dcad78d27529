/**
 * Where labels stand: a name inside its box where there is room, else a number outside with a leader. No label lies on another,
 * no two leaders of one row cross.
 */
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { clipLine, contains, middleOf, overlaps } from './views.ts';
import type { Box, Point } from './views.ts';

/** A part as it is drawn in one view. */
export interface Outline {
  readonly name: string;
  readonly item: number;
  readonly box: Box;
  /** it hides what is behind it; a frame, a load or a box is drawn as an outline only */
  readonly isSolid: boolean;
}

export interface InnerLabel { /** of the parts that it names: those with one outline together */ readonly names: readonly string[]; readonly text: string; /** base line, start */ readonly x: number; readonly y: number; readonly box: Box }

const SIZE = letterSize.small;
const HEIGHT = SIZE * 1.15;
/** in an inner label: the level mark and its gap [mm] */
export const INNER_MARK = 3.4;

export interface InnerLabelOptions {
  /** parts that may be named */
  readonly canName: ReadonlySet<string>;
  /** parts beside whose name a level mark stands */
  readonly withMark: ReadonlySet<string>;
  /** drawn over the boxes: names keep clear of them */
  readonly lines: readonly (readonly [Point, Point])[];
  /** more places to keep clear of */
  readonly taken: readonly Box[];
  /** names stay within it; undefined: no limit */
  readonly window: Box | undefined;
}

/**
 * Names that fit into their boxes. Parts with one and the same outline share a label.
 * @param outlines  back to front
 */
export function innerLabels(outlines: readonly Outline[], { canName, withMark, lines, taken, window }: InnerLabelOptions): readonly InnerLabel[] {
  const labels: InnerLabel[] = [];
  const frames = outlines.flatMap((outline) => (outline.isSolid ? [] : edgesOf(outline.box).map((line) => ({ outline, line }))));
  outlines.forEach((outline, index) => {
    const { box } = outline;
    if (box.height < HEIGHT + 0.6 || box.width < 3) return;
    const same = outlines.filter((other) => isSame(other.box, box));
    if (same[0] !== outline || !same.some(({ name }) => canName.has(name))) return;
    // nearest to the eye first
    const names = same.map(({ name }) => name).reverse();
    const text = names.join(', ');
    const width = widthOf(text, SIZE) + (names.some((name) => withMark.has(name)) ? INNER_MARK : 0) + 0.6;
    if (box.width < width + 1) return;
    const space = box.width * box.height;
    // what would be read as the label's owner instead: smaller boxes, and whatever is in front
    const rivals = outlines.filter((other, at) => overlaps(other.box, box) && !same.includes(other) && (other.box.width * other.box.height < space || (other.isSolid && at > index))).map((other) => other.box);
    if (rivals.some((rival) => contains(rival, box))) return;
    const clear = [...rivals, ...[...taken, ...labels.map((label) => label.box)].filter((other) => overlaps(other, box))];
    const near = lines.filter(([a, b]) => clipLine(a, b, box));
    for (const frame of frames) if (!same.includes(frame.outline) && clipLine(frame.line[0], frame.line[1], box)) near.push(frame.line);
    const spot = spotsIn(box, width, outline.isSolid).find((place) => (window === undefined || contains(window, place)) && !clear.some((other) => overlaps(other, place)) && !near.some(([a, b]) => clipLine(a, b, place)));
    if (spot) labels.push({ names, text, x: spot.x + 0.3, y: spot.y + SIZE * 0.95, box: spot });
  });
  return labels;
}

function edgesOf({ x, y, width, height }: Box): (readonly [Point, Point])[] {
  const [a, b, c, d] = [{ x, y }, { x: x + width, y }, { x: x + width, y: y + height }, { x, y: y + height }];
  return [[a, b], [b, c], [c, d], [d, a]];
}

/** Middle first for a solid part; along the upper edge, then the lower one, for a frame around others. */
function spotsIn(box: Box, width: number, fromMiddle: boolean): Box[] {
  const [roomX, roomY] = [box.width - width - 1, box.height - HEIGHT - 0.6];
  const columns = Math.min(14, Math.max(1, Math.floor(roomX / 2) + 1));
  const rows = Math.min(10, Math.max(1, Math.floor(roomY / 1.5) + 1));
  const spots: (Box & { rank: number })[] = [];
  for (let column = 0; column < columns; column++) {
    for (let row = 0; row < rows; row++) {
      const [shareX, shareY] = [columns === 1 ? 0.5 : column / (columns - 1), rows === 1 ? 0.5 : row / (rows - 1)];
      const rank = fromMiddle ? Math.abs(shareX - 0.5) * roomX + Math.abs(shareY - 0.5) * roomY : Math.min(shareY, 1 - shareY) * 1000 + shareY * 10 + shareX;
      spots.push({ x: box.x + 0.5 + shareX * roomX, y: box.y + 0.3 + shareY * roomY, width, height: HEIGHT, rank });
    }
  }
  return spots.sort((a, b) => a.rank - b.rank);
}

const isSame = (a: Box, b: Box): boolean => Math.abs(a.x - b.x) < 0.6 && Math.abs(a.y - b.y) < 0.6 && Math.abs(a.width - b.width) < 0.6 && Math.abs(a.height - b.height) < 0.6;

/** A number outside the view with a line to the part. */
export interface Balloon { readonly name: string; readonly item: number; /** middle of the balloon */ readonly at: Point; readonly site: Point; readonly row: Row }
export type Row = 'top' | 'bottom' | 'left' | 'right';

/** from the middle of a balloon to the middle of the next [mm] */
export const PITCH = 7;

/** A line along which balloons may stand: from `from` to `to`, across the paper at `at` (top, bottom) or down it (left, right). */
export interface BalloonRow { readonly row: Row; readonly at: number; readonly from: number; readonly to: number }

/**
 * Shares balloons out over rows around a view, each part to the nearest row with room.
 * @param outlines  those without a label inside, most worth a number first
 * @returns balloons, and the names for which no room was left
 */
export function balloonsAround(outlines: readonly Outline[], view: Box, rows: readonly BalloonRow[]): { readonly balloons: readonly Balloon[]; readonly left: readonly string[] } {
  const room = new Map(rows.map((row) => [row, Math.max(0, Math.floor((row.to - row.from) / PITCH) + 1)]));
  const sites = new Map<BalloonRow, { outline: Outline; site: Point }[]>(rows.map((row) => [row, []]));
  const left: string[] = [];
  for (const outline of outlines) {
    const seen = visiblePart(outline.box, view);
    const site = middleOf(seen);
    const way = (row: BalloonRow): number => (row.row === 'top' || row.row === 'bottom' ? Math.abs(site.y - row.at) : Math.abs(site.x - row.at));
    const nearest = rows.filter((row) => sites.get(row)!.length < room.get(row)!).sort((a, b) => way(a) - way(b))[0];
    if (nearest) sites.get(nearest)!.push({ outline, site });
    else left.push(outline.name);
  }
  return { balloons: rows.flatMap((row) => alongRow(row, sites.get(row)!)), left };
}

/** Balloons as near to their sites as the pitch allows; then swapped until no two leaders cross, which shortens them at every step. */
function alongRow(row: BalloonRow, sites: readonly { readonly outline: Outline; readonly site: Point }[]): Balloon[] {
  const isAcross = row.row === 'top' || row.row === 'bottom';
  const along = ({ x, y }: Point): number => (isAcross ? x : y);
  const order = [...sites].sort((a, b) => along(a.site) - along(b.site) || (isAcross ? a.site.y - b.site.y : a.site.x - b.site.x));
  const places = spread(order.map(({ site }) => along(site)), row.from, row.to);
  const spot = (index: number): Point => (isAcross ? { x: places[index]!, y: row.at } : { x: row.at, y: places[index]! });
  for (let pass = 0, swapped = true; swapped && pass < 4 * order.length; pass++) {
    swapped = false;
    for (let a = 0; a < order.length; a++) {
      for (let b = a + 1; b < order.length; b++) {
        if (!cross(spot(a), order[a]!.site, spot(b), order[b]!.site)) continue;
        [order[a], order[b]] = [order[b]!, order[a]!];
        swapped = true;
      }
    }
  }
  return order.map(({ outline, site }, index) => ({ name: outline.name, item: outline.item, at: spot(index), site, row: row.row }));
}

/** Places in a row, at least a pitch apart, least moved from where they are wanted (pooling neighbours that push each other). */
export function spread(wanted: readonly number[], from: number, to: number): number[] {
  const pools: { sum: number; count: number }[] = [];
  wanted.forEach((value, index) => {
    pools.push({ sum: value - index * PITCH, count: 1 });
    for (let last = pools.length - 1; last > 0 && pools[last - 1]!.sum / pools[last - 1]!.count > pools[last]!.sum / pools[last]!.count; last--) {
      const { sum, count } = pools.pop()!;
      pools[last - 1] = { sum: pools[last - 1]!.sum + sum, count: pools[last - 1]!.count + count };
    }
  });
  const highest = to - (wanted.length - 1) * PITCH;
  return pools.flatMap(({ sum, count }) => new Array<number>(count).fill(Math.max(from, Math.min(highest, sum / count)))).map((value, index) => value + index * PITCH);
}

/** Whether two pieces of straight line cross inside. */
export function cross(a: Point, b: Point, c: Point, d: Point): boolean {
  const side = (p: Point, q: Point, r: Point): number => (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  return side(a, b, c) * side(a, b, d) < -1e-9 && side(c, d, a) * side(c, d, b) < -1e-9;
}

function visiblePart(box: Box, view: Box): Box {
  if (contains(view, box)) return box;
  const [x, y] = [Math.max(box.x, view.x), Math.max(box.y, view.y)];
  return { x, y, width: Math.max(0, Math.min(box.x + box.width, view.x + view.width) - x), height: Math.max(0, Math.min(box.y + box.height, view.y + view.height) - y) };
}
