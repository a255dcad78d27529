/** How far apart two parts are. */
import type { CarPart } from '../car/car.ts';

/** Shortest way between the boxes of two parts [m]; 0 when they touch or are one; undefined when a place or size is not known. */
export function gapBetween(one: CarPart, other: CarPart): number | undefined {
  if (one === other) return 0;
  if (!one.at || !one.size || !other.at || !other.size) return undefined;
  let square = 0;
  for (let axis = 0; axis < 3; axis++) {
    const gap = Math.abs(one.at[axis]! - other.at[axis]!) - (one.size[axis]! + other.size[axis]!) / 2;
    if (gap > 0) square += gap * gap;
  }
  return Math.sqrt(square);
}
