/** Where a build is crowded: windows of the plan that are drawn again at a larger scale. */
import type { LayoutPart } from './model.ts';

/** A piece of the plan [m]: x rearward, y to the right. */
export interface Window { readonly front: number; readonly rear: number; readonly left: number; readonly right: number; readonly parts: readonly string[] }

/** Fewer parts than this are numbered where they are. */
const FEWEST = 5;
/** around the outermost parts [m] */
const MARGIN = 0.06;

/**
 * Windows that together show the crowded parts, the fullest first; each trimmed to what it shows.
 * @param parts  those that want a number; without a place they are passed over
 * @param room   how much one window can show [m]
 */
export function detailWindows(parts: readonly LayoutPart[], room: { readonly x: number; readonly y: number }, most: number): readonly Window[] {
  let open = parts.flatMap(({ name, at, size }) => (at ? [{ name, x: at[0], y: at[1], halfX: (size?.[0] ?? 0) / 2, halfY: (size?.[1] ?? 0) / 2 }] : []));
  const windows: Window[] = [];
  const inner = { x: room.x - 2 * MARGIN, y: room.y - 2 * MARGIN };
  while (windows.length < most) {
    const shown = fullest(open, inner.x, inner.y);
    if (shown.length < FEWEST) break;
    windows.push(trimmed(shown, room));
    const names = new Set(shown.map(({ name }) => name));
    open = open.filter(({ name }) => !names.has(name));
  }
  return windows;
}

interface Spot { readonly name: string; readonly x: number; readonly y: number; readonly halfX: number; readonly halfY: number }

/** The middles that most lie within one window of this size. */
function fullest(spots: readonly Spot[], width: number, height: number): readonly Spot[] {
  let best: readonly Spot[] = [];
  const byY = [...spots].sort((a, b) => a.y - b.y);
  for (const { x } of spots) {
    const band = byY.filter((spot) => spot.x >= x && spot.x <= x + width);
    if (band.length <= best.length) continue;
    for (let low = 0, high = 0; low < band.length; low++) {
      while (high < band.length && band[high]!.y - band[low]!.y <= height) high++;
      if (high - low > best.length) best = band.slice(low, high);
    }
  }
  return best;
}

/** As large as its parts ask, no larger than there is room for. */
function trimmed(shown: readonly Spot[], room: { readonly x: number; readonly y: number }): Window {
  const span = (from: readonly number[], to: readonly number[], inner: readonly number[], most: number): [number, number] => {
    const [low, high] = [Math.min(...from) - MARGIN, Math.max(...to) + MARGIN];
    if (high - low <= most) return [low, high];
    const middle = (Math.min(...inner) + Math.max(...inner)) / 2;
    return [middle - most / 2, middle + most / 2];
  };
  const [front, rear] = span(shown.map(({ x, halfX }) => x - halfX), shown.map(({ x, halfX }) => x + halfX), shown.map(({ x }) => x), room.x);
  const [left, right] = span(shown.map(({ y, halfY }) => y - halfY), shown.map(({ y, halfY }) => y + halfY), shown.map(({ y }) => y), room.y);
  return { front, rear, left, right, parts: shown.map(({ name }) => name) };
}
