/**
 * Heat balances worked out once for all runs of one stock that lie in the same air and carry the same current: within a
 * draw the answers are numbers by what they depend on.
 */
import type { CarRun } from './car.ts';
import type { RunHeating } from './run-heating.ts';

export type HeatingMemo = Map<string, number>;

/** Conductor temperature of a run at a steady current [K]. */
export function steadyRunTemperature(run: CarRun, heating: RunHeating, current: number, memo: HeatingMemo): number {
  return sharedHeating(memo, run, heating, ['steady', current], () => heating.steady(current));
}

/** Steady current that brings a run to its temperature rating where it lies [A]. */
export function runCapacity(run: CarRun, heating: RunHeating, memo: HeatingMemo): number {
  const rating = run.conductor!.temperatureRating;
  return sharedHeating(memo, run, heating, ['capacity', rating], () => heating.currentAt(rating));
}

/** @param asked  what is asked and every number, beside conductor and air, that the answer depends on */
export function sharedHeating(memo: HeatingMemo, run: CarRun, heating: RunHeating, asked: readonly (string | number)[], compute: () => number): number {
  let key = placeOf(run, heating);
  // currents of one string differ by what leaks; at five digits they share an answer, which moves no temperature by 0.01 K
  for (const item of asked) key += ` ${typeof item === 'number' ? item.toPrecision(5) : item}`;
  const found = memo.get(key);
  if (found !== undefined) return found;
  const value = compute();
  memo.set(key, value);
  return value;
}

const places = new WeakMap<RunHeating, string>();

/** Conductor and air: equal for all runs with the same answers. */
function placeOf(run: CarRun, heating: RunHeating): string {
  const known = places.get(heating);
  if (known !== undefined) return known;
  const { resistancePerLength, shape, insulationThermalResistivity, material, area } = run.conductor!;
  const [d1, d2] = shape.form === 'round' ? [shape.conductorDiameter, shape.outsideDiameter] : [shape.width, shape.thickness];
  const place = [shape.form, material, area, resistancePerLength, d1, d2, insulationThermalResistivity ?? 'bare', heating.ambient, heating.grouping].join(' ');
  places.set(heating, place);
  return place;
}
