/**
 * What all draws of a build have in common: which parts and runs there are, which of them lack nothing, and the roles they play.
 *
 * Roles differ from draw to draw in their numbers only, never in which there are or what they name: a kind decides that by which
 * fields the file gives. So whatever rests on names alone is worked out once for a shape.
 */
import type { Car } from './car.ts';
import { remembered } from './remembered.ts';

const slot = Symbol('shape');

/** The same object for every draw of a build in which the same parts are whole; a copy of a car has a shape of its own. */
export function shapeOf(car: Car): object {
  const known = (car as { readonly [slot]?: object })[slot];
  if (known !== undefined) return known;
  const own = {};
  giveShape(car, own);
  return own;
}

/** Only for whoever makes cars. */
export function giveShape(car: Car, shape: object): void {
  Object.defineProperty(car, slot, { value: shape, enumerable: false });
}

/**
 * Worked out once for all cars of one shape.
 * @param make  reads names, ports, roles that are there and ends of runs; no number of a draw, and keeps no part of the car
 */
export function byShape<V>(make: (car: Car) => V): (car: Car) => V {
  const known = remembered((_: object, car: Car) => make(car));
  return (car) => known(shapeOf(car), car);
}
