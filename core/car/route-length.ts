/**
 * Length of a run: as given, or along its route from part to part through its `via` points plus slack.
 */
import type { Position } from '../part/field.ts';

export interface RouteLength { readonly metres: number | undefined; readonly is: 'given' | 'route' | 'missing' }

/**
 * @param fields  the run's plain fields: `length` [m], `via` positions [m], `slack` share [1]
 * @param from    place of the part at the start, centre of its box [m]
 * @param to      place of the part at the end [m]
 * @returns length [m]; `missing` when it is not given and one of the ends has no place
 * Range: straight lines between the points; the slack is the builder's allowance for bends and terminations
 */
export function routeLength(fields: Readonly<Record<string, unknown>>, from: Position | undefined, to: Position | undefined): RouteLength {
  const given = fields['length'];
  if (typeof given === 'number') return { metres: given, is: 'given' };
  if (!from || !to) return { metres: undefined, is: 'missing' };
  const via = (fields['via'] ?? []) as readonly Position[];
  const points = [from, ...via, to];
  let metres = 0;
  for (let index = 1; index < points.length; index++) metres += distance(points[index - 1] as Position, points[index] as Position);
  const slack = typeof fields['slack'] === 'number' ? fields['slack'] : 0;
  return { metres: metres * (1 + slack), is: 'route' };
}

function distance(a: Position, b: Position): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}
