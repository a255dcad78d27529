/** Where the centre of gravity falls in a view. */
import type { CentreOfGravity } from './model.ts';
import { toPaper } from './views.ts';
import type { Box, PlacedView, Point } from './views.ts';

/** Half of its sign [mm]. */
export const CENTRE_RADIUS = 2.2;

/** undefined where one of the view's axes is not known. */
export function centreOnPaper(placed: PlacedView, centre: CentreOfGravity | undefined): Point | undefined {
  if (!centre) return undefined;
  const { x, y, z } = centre;
  if (placed.view !== 'side' && y === undefined) return undefined;
  if (placed.view !== 'plan' && z === undefined) return undefined;
  return toPaper(placed, [x, y ?? 0, z ?? 0]);
}

/** What its signs cover. */
export function centreBoxes(placed: PlacedView, centre: { readonly before: CentreOfGravity | undefined; readonly after: CentreOfGravity | undefined }): readonly Box[] {
  const around = CENTRE_RADIUS + 0.4;
  return [centre.before, centre.after].flatMap((one) => { const at = centreOnPaper(placed, one); return at ? [{ x: at.x - around, y: at.y - around, width: 2 * around, height: 2 * around }] : []; });
}
