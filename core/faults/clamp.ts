/**
 * Where a clamp for direct current fits: around a cable or wire of its own, with its insulation on, nothing opened and nothing unplugged.
 */
import type { Car } from '../car/car.ts';

/** Shorter pieces leave no room for it [m]. */
const ROOM = 0.15;

/** @returns names of runs */
export function clampable(car: Car): readonly string[] {
  return [...car.runs.values()].filter(({ conductor, length }) => conductor !== undefined && conductor.shape.form !== 'flat' && length !== undefined && length >= ROOM).map(({ name }) => name);
}

/** What a handheld clamp for direct current may be out by: share of the reading, and a fixed part from its zero [A]. Common practice, no source. */
export const CLAMP = { share: 0.02, fixed: 0.1 };
