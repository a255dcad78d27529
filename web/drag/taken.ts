/** A part that is being moved over the drawing. */
import { printValue } from '../../core/quantity/print-value.ts';
import { page } from '../../sheets/frame/page-size.ts';
import type { View } from '../../sheets/layout/views.ts';
import { printAs } from '../../sheets/unit-choice.ts';
import type { UnitChoice } from '../../sheets/unit-choice.ts';
import type { Edit } from '../../core/build/edit-build.ts';
import type { Acts } from '../bench.ts';
import { scanNodeAt, scanText } from '../drawer/scan-text.ts';
import { moveCoordinates } from './move-coordinate.ts';

export type Moved = readonly [number, number, number];

export interface Taken {
  readonly path: string; readonly view: View; readonly scale: number;
  /** where it is on the page [mm] */
  readonly box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  /** so far, x, y, z [m] */
  readonly moved: Moved;
  readonly by: 'pointer' | 'keys';
}

/** The part that an element of the drawing belongs to; undefined when it is none that can be moved. */
export function takenFrom(target: Element, drawing: SVGSVGElement, by: Taken['by']): Taken | undefined {
  const element = target.closest('[data-drag]') ?? target.querySelector('[data-drag]');
  const path = element?.getAttribute('data-drag');
  const view = element?.getAttribute('data-view');
  const scale = Number(element?.getAttribute('data-scale'));
  if (!element || path == null || (view !== 'plan' && view !== 'side' && view !== 'rear') || !(scale > 0)) return undefined;
  const [paper, at] = [drawing.getBoundingClientRect(), element.getBoundingClientRect()];
  const mm = page.width / paper.width;
  return { path, view, scale, by, moved: [0, 0, 0], box: { x: (at.left - paper.left) * mm, y: (at.top - paper.top) * mm, width: at.width * mm, height: at.height * mm } };
}

export function snapped(moved: Moved, grid: number): Moved {
  const snap = (value: number): number => round(Math.round(value / grid) * grid);
  return [snap(moved[0]), snap(moved[1]), snap(moved[2])];
}

export function further(moved: Moved, by: Moved): Moved {
  return [round(moved[0] + by[0]), round(moved[1] + by[1]), round(moved[2] + by[2])];
}

/** Whole tenths of a millimetre, without the noise of sums. */
function round(value: number): number {
  return Math.round(value * 1e4) / 1e4 + 0;
}

export const nameOf = (path: string): string => path.split('.')[1] ?? path;
const ways: readonly (readonly [string, string])[] = [['rearward', 'forward'], ['right', 'left'], ['up', 'down']];

export function inWords(moved: Moved, units: UnitChoice): string {
  const said = moved.flatMap((value, axis) => (value === 0 ? [] : [`${printValue(Math.abs(value), 'length', printAs(units, 'length'))} ${ways[axis]?.[value > 0 ? 0 : 1]}`]));
  return said.length === 0 ? 'not moved' : said.join(', ');
}

/** @returns undefined: its position is not three numbers with a unit */
function editsOf({ path, moved }: Pick<Taken, 'path' | 'moved'>, text: string): readonly Edit[] | undefined {
  const at = scanNodeAt(scanText(text).root, ['parts', nameOf(path), 'at']);
  const next = at && moveCoordinates(at.entries.map(({ text: written }) => written ?? ''), moved);
  return next?.flatMap((to, axis) => (to === undefined ? [] : [{ do: 'set' as const, path: `${path}.at.${'xyz'[axis]}`, to }]));
}

/** Held still for a moment: it may be put down here, and what that brings about is worked out meanwhile. */
export function heldStill(taken: Pick<Taken, 'path' | 'moved'>, { now, expect }: Acts): void {
  const edits = editsOf(taken, now().text);
  if (edits && edits.length > 0) expect(edits);
}

/** Writes the coordinates that have changed, as one step. */
export async function putDown({ path, moved }: Pick<Taken, 'path' | 'moved'>, { now, edit, announce }: Acts): Promise<void> {
  const name = nameOf(path);
  if (moved.every((value) => value === 0)) return;
  const edits = editsOf({ path, moved }, now().text);
  if (!edits) { announce(`${name} cannot be moved here: its position is not three numbers with a unit. Open its card.`); return; }
  const problem = await edit(edits, `place of ${name}`);
  announce(problem ?? `${name} moved ${inWords(moved, now().choices.units)}.`);
}
