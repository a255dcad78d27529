/** How the three views share the sheet, and which parts carry a number on it. */
import { area } from '../frame/page-size.ts';
import { centreBoxes } from './centre.ts';
import { detailWindows } from './detail-windows.ts';
import type { Window } from './detail-windows.ts';
import { extentsOf, longestSide } from './extents.ts';
import type { Extents } from './extents.ts';
import { balloonsAround } from './labels.ts';
import type { Balloon } from './labels.ts';
import type { LayoutModel, LayoutPart, LayoutRun } from './model.ts';
import { viewContent } from './view-content.ts';
import type { ViewContent } from './view-content.ts';
import { largestScale } from './views.ts';
import type { Box, PlacedView } from './views.ts';

export interface ViewOnSheet { readonly content: ViewContent; /** what the view covers [mm] */ readonly box: Box; readonly balloons: readonly Balloon[] }

/** Three views in third-angle arrangement. */
export interface ThreeViews {
  readonly scale: number;
  readonly plan: ViewOnSheet; readonly side: ViewOnSheet; readonly rear: ViewOnSheet;
  /** free for the numbered list [mm]; undefined: too narrow */
  readonly keyBox: Box | undefined;
  /** found no room for a number */
  readonly left: readonly string[];
}

export interface DetailPage { readonly letter: string; readonly scale: number; readonly window: Window; readonly plan: ViewOnSheet; readonly keyBox: Box; readonly left: readonly string[] }

export interface Arrangement { readonly general: ThreeViews; readonly lowVoltage: ThreeViews | undefined; readonly details: readonly DetailPage[] }

/** Space around the views [mm]: for titles, balloons, axes, axle loads, dimensions, the legend. */
const LEFT = 15;
const BETWEEN = 26;
const RIGHT = 4;
const ABOVE_PLAN = 16;
const BELOW_PLAN = 21;
const BELOW_GROUND = 28;
const LEGEND = 7;
const KEY_GAP = 12;
/** balloon row to the edge of the view */
const ROW_GAP = 6.5;
/** A part is worth a number on the first page from this size on [m]. */
const LARGE = 0.3;
const MOST_DETAILS = 8;

export function arrange(model: LayoutModel): Arrangement {
  const extents = extentsOf(model);
  const general = threeViews(model, extents, ({ carries }) => carries === 'high_voltage', (part) => part.family !== 'low_voltage' || longestSide(part) >= LARGE, () => true);
  const isSmall = (part: LayoutPart): boolean => part.at !== undefined && (part.family === 'low_voltage' || general.left.includes(part.name));
  const scale = detailScale(general.scale);
  const windows = detailWindows(model.parts.filter(isSmall), { x: (DETAIL.width * scale) / 1000, y: (DETAIL.height * scale) / 1000 }, MOST_DETAILS);
  const inDetails = new Set(windows.flatMap(({ parts }) => parts));
  const isWanted = (part: LayoutPart): boolean => isSmall(part) && !inDetails.has(part.name);
  const hasLowVoltage = model.parts.some(isSmall) || model.runs.some(({ carries }) => carries !== 'high_voltage');
  return {
    general,
    lowVoltage: hasLowVoltage ? threeViews(model, extents, ({ carries }) => carries !== 'high_voltage', isWanted, isWanted) : undefined,
    details: windows.map((window, index) => detailPage(model, window, String.fromCharCode(65 + index))),
  };
}

/** @param numbered  parts that carry a number where no name fits in;  @param named  parts that may carry their name inside */
function threeViews(model: LayoutModel, { front, rear, half, top, bottom }: Extents, runs: (run: LayoutRun) => boolean, numbered: (part: LayoutPart) => boolean, named: (part: LayoutPart) => boolean): ThreeViews {
  const size = (metres: number, scale: number): number => (metres * 1000) / scale;
  const scale = largestScale((one) => LEFT + size(rear - front, one) + BETWEEN + size(2 * half, one) + RIGHT <= area.width
    && ABOVE_PLAN + size(2 * half, one) + BELOW_PLAN + size(top - bottom, one) + BELOW_GROUND + LEGEND <= area.height);
  const [across, wide, high] = [size(rear - front, scale), size(2 * half, scale), size(top - bottom, scale)];
  const spare = area.height - (ABOVE_PLAN + wide + BELOW_PLAN + high + BELOW_GROUND + LEGEND);
  const planBox: Box = { x: LEFT, y: ABOVE_PLAN + spare * 0.25, width: across, height: wide };
  const sideTop = planBox.y + wide + BELOW_PLAN + spare * 0.4;
  const originX = LEFT - size(front, scale);
  const ground = sideTop + size(top, scale);
  const rearBox: Box = { x: LEFT + across + BETWEEN, y: sideTop, width: wide, height: high };
  const view = (placed: PlacedView): ViewContent => viewContent(model, placed, { runs, named, taken: centreBoxes(placed, model.centre) });
  const plan = view({ view: 'plan', scale, origin: { x: originX, y: planBox.y + wide / 2 } });
  const side = view({ view: 'side', scale, origin: { x: originX, y: ground } });
  const rearView = view({ view: 'rear', scale, origin: { x: rearBox.x + wide / 2, y: ground } });
  const inPlan = new Set(plan.names.flatMap(({ names }) => names));
  const inOthers = new Set([...side.names, ...rearView.names].flatMap(({ names }) => names));
  const hidden = new Set(plan.parts.filter(({ isHidden }) => isHidden).map(({ name }) => name));
  const wanted = model.parts.filter((part) => part.at !== undefined && numbered(part) && !inPlan.has(part.name) && !(hidden.has(part.name) && inOthers.has(part.name)));
  const around = balloonsAround(outlines(plan, wanted), planBox, [
    { row: 'top', at: planBox.y - ROW_GAP, from: planBox.x + 2, to: planBox.x + across - 2 },
    { row: 'bottom', at: planBox.y + wide + ROW_GAP, from: planBox.x + 2, to: planBox.x + across - 2 },
  ]);
  const keyLeft = LEFT + across + KEY_GAP;
  return {
    scale, left: around.left,
    plan: { content: plan, box: planBox, balloons: around.balloons }, side: { content: side, box: { x: LEFT, y: sideTop, width: across, height: high }, balloons: [] }, rear: { content: rearView, box: rearBox, balloons: [] },
    keyBox: area.width - keyLeft < 44 ? undefined : { x: keyLeft, y: 1, width: area.width - keyLeft, height: sideTop - 10 },
  };
}

/** Largest first: what finds no room must be the small ones. */
function outlines(content: ViewContent, wanted: readonly LayoutPart[]): ViewContent['parts'] {
  const size = new Map(wanted.map((part) => [part.name, longestSide(part)]));
  return content.parts.filter(({ name }) => size.has(name)).sort((a, b) => size.get(b.name)! - size.get(a.name)! || a.item - b.item);
}

/** What a detail may cover on paper [mm]; the numbered list stands to its right. */
const DETAIL = { width: 252, height: 190 } as const;
const DETAIL_KEY = 96;

function detailScale(general: number): number {
  return largestScale((scale) => scale * 4 >= general);
}

function detailPage(model: LayoutModel, window: Window, letter: string): DetailPage {
  const [along, across] = [window.rear - window.front, window.right - window.left];
  const scale = largestScale((one) => (along * 1000) / one <= DETAIL.width + 0.01 && (across * 1000) / one <= DETAIL.height + 0.01);
  const [width, height] = [(along * 1000) / scale, (across * 1000) / scale];
  const box: Box = { x: 12 + (DETAIL.width - width) / 2, y: 16 + (DETAIL.height - height) / 2, width, height };
  const placed: PlacedView = { view: 'plan', scale, origin: { x: box.x - (window.front * 1000) / scale, y: box.y + (window.right * 1000) / scale } };
  const content = viewContent(model, placed, { window: box, runs: () => true, named: () => true });
  const named = new Set(content.names.flatMap(({ names }) => names));
  const isInside = ({ at }: LayoutPart): boolean => at !== undefined && at[0] >= window.front && at[0] <= window.rear && at[1] >= window.left && at[1] <= window.right;
  const wanted = model.parts.filter((part) => isInside(part) && !named.has(part.name) && (part.family !== 'mechanical' || longestSide(part) < 2 * Math.max(along, across)));
  const { balloons, left } = balloonsAround(outlines(content, wanted), box, [
    { row: 'top', at: box.y - ROW_GAP, from: box.x + 2, to: box.x + width - 2 }, { row: 'bottom', at: box.y + height + ROW_GAP, from: box.x + 2, to: box.x + width - 2 },
    { row: 'left', at: box.x - ROW_GAP, from: box.y + 2, to: box.y + height - 2 }, { row: 'right', at: box.x + width + ROW_GAP, from: box.y + 2, to: box.y + height - 2 },
  ]);
  return { letter, scale, window, plan: { content, box, balloons }, left, keyBox: { x: area.width - DETAIL_KEY, y: 10, width: DETAIL_KEY, height: area.height - 10 - LEGEND - 8 } };
}
