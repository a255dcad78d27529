/** What one view shows, in millimetres of paper and from back to front: parts, runs, names inside their boxes. */
import type { Level } from '../../core/findings/finding.ts';
import { innerLabels } from './labels.ts';
import type { InnerLabel, Outline } from './labels.ts';
import type { Family, LayoutModel, LayoutPart, LayoutRun } from './model.ts';
import { boxOnPaper, clipLine, contains, nearness, overlaps, toPaper } from './views.ts';
import type { Box, PlacedView, Point } from './views.ts';

export interface DrawnPart extends Outline {
  readonly family: Family;
  readonly level: Level | undefined;
  /** a small cross stands for a part without a size */
  readonly hasSize: boolean;
  /** wholly behind another solid part: its edges are dashed */
  readonly isHidden: boolean;
  readonly label: string;
}

export interface DrawnRun { readonly name: string; readonly carries: LayoutRun['carries']; readonly isRouted: boolean; readonly lines: readonly (readonly [Point, Point])[]; readonly label: string }

export interface ViewContent {
  readonly placed: PlacedView;
  /** back to front */
  readonly parts: readonly DrawnPart[];
  readonly runs: readonly DrawnRun[];
  readonly names: readonly InnerLabel[];
}

export interface ViewOptions {
  /** nothing is drawn outside it [mm]; absent: no limit */
  readonly window?: Box;
  readonly runs: (run: LayoutRun) => boolean;
  /** which parts may carry a name inside */
  readonly named: (part: LayoutPart) => boolean;
  /** keep clear of them */
  readonly taken?: readonly Box[];
}

/** Edge of the cross that marks a part without a size [mm]. */
const CROSS = 2;

export function viewContent(model: LayoutModel, placed: PlacedView, { window, runs, named, taken = [] }: ViewOptions): ViewContent {
  const parts = drawnParts(model, placed).filter(({ box }) => window === undefined || overlaps(box, window));
  const drawn = model.runs.filter(runs).flatMap((run): DrawnRun[] => {
    const points = run.points.map((point) => toPaper(placed, point));
    const lines = points.slice(1).flatMap((point, index) => {
      const piece = window === undefined ? ([points[index]!, point] as const) : clipLine(points[index]!, point, window);
      return piece && Math.hypot(piece[1].x - piece[0].x, piece[1].y - piece[0].y) > 0.05 ? [piece] : [];
    });
    return lines.length === 0 ? [] : [{ name: run.name, carries: run.carries, isRouted: run.isRouted, lines, label: `run ${run.name}, ${run.from} to ${run.to}` }];
  });
  const canName = new Set(model.parts.filter(named).map(({ name }) => name));
  const marked = new Set(parts.filter(({ level }) => level !== undefined && level !== 'holds').map(({ name }) => name));
  const names = innerLabels(parts, { canName, withMark: marked, lines: drawn.flatMap(({ lines }) => lines), taken, window });
  return { placed, parts, runs: drawn, names };
}

function drawnParts({ parts }: LayoutModel, placed: PlacedView): DrawnPart[] {
  const withPlace = parts.flatMap((part) => (part.at ? [{ part, at: part.at, near: nearness(placed.view, part.at, part.size) }] : []));
  // frames, boxes and loads lie under what they hold, so that it can be seen
  const order = withPlace.sort((a, b) => Number(isSolid(a.part)) - Number(isSolid(b.part)) || a.near - b.near || a.part.item - b.part.item);
  const boxes = order.map(({ part, at }) => (part.size ? boxOnPaper(placed, at, part.size) : crossAt(toPaper(placed, at))));
  // largest first: few have to be asked
  const covers = order.flatMap(({ part }, index) => (isSolid(part) ? [{ index, box: grown(boxes[index]!, 0.05) }] : [])).sort((a, b) => b.box.width * b.box.height - a.box.width * a.box.height);
  return order.map(({ part }, index) => ({
    name: part.name, item: part.item, family: part.family, level: part.level, box: boxes[index]!, isSolid: isSolid(part), hasSize: part.size !== undefined,
    isHidden: part.size !== undefined && covers.some((cover) => cover.index > index && contains(cover.box, boxes[index]!)),
    label: `${part.name}, ${part.kind}`,
  }));
}

const isSolid = ({ family, size }: LayoutPart): boolean => family !== 'mechanical' && size !== undefined;
const crossAt = ({ x, y }: Point): Box => ({ x: x - CROSS / 2, y: y - CROSS / 2, width: CROSS, height: CROSS });
const grown = ({ x, y, width, height }: Box, by: number): Box => ({ x: x - by, y: y - by, width: width + 2 * by, height: height + 2 * by });
