/**
 * Heat balances worked out once for all runs of one stock that lie in the same air and carry the same current: within a
 * draw the answers are numbers by what they depend on.
 */
import type { CarRun } from './car.ts';
import { remembered } from './remembered.ts';
import type { RunHeating } from './run-heating.ts';

export type HeatingMemo = Map<string, number>;

/** Conductor temperature of a run at a steady current [K]. */
export function steadyRunTemperature(run: CarRun, heating: RunHeating, current: number, memo: HeatingMemo): number {
  const { steady } = quickly(heating, memo);
  let temperature = steady.get(current);
  if (temperature === undefined) steady.set(current, (temperature = sharedHeating(memo, run, heating, ['steady', current], () => heating.steady(current))));
  return temperature;
}

/** Steady current that brings a run to its temperature rating where it lies [A]. */
export function runCapacity(run: CarRun, heating: RunHeating, memo: HeatingMemo): number {
  const rating = run.conductor!.temperatureRating;
  const { capacity } = quickly(heating, memo);
  let current = capacity.get(rating);
  if (current === undefined) capacity.set(rating, (current = sharedHeating(memo, run, heating, ['capacity', rating], () => heating.currentAt(rating))));
  return current;
}

interface Quick { readonly memo: HeatingMemo; readonly steady: Map<number, number>; readonly capacity: Map<number, number> }

const quickKnown = remembered((_: RunHeating): Quick[] => []);

/** The same question with the very same number has the same answer: found without spelling out the key. */
function quickly(heating: RunHeating, memo: HeatingMemo): Quick {
  const known = quickKnown(heating);
  let quick = known.find((one) => one.memo === memo);
  if (!quick) known.push((quick = { memo, steady: new Map(), capacity: new Map() }));
  return quick;
}

/** @param asked  what is asked and every number, beside conductor and air, that the answer depends on */
export function sharedHeating(memo: HeatingMemo, run: CarRun, heating: RunHeating, asked: readonly (string | number)[], compute: () => number): number {
  let key = placeOf(heating, run);
  // currents of one string differ by what leaks; at five digits they share an answer, which moves no temperature by 0.01 K
  const spelt = speltIn(memo);
  for (const item of asked) {
    if (typeof item !== 'number') { key += ` ${item}`; continue; }
    let digits = spelt.get(item);
    if (digits === undefined) spelt.set(item, (digits = item.toPrecision(5)));
    key += ` ${digits}`;
  }
  const found = memo.get(key);
  if (found !== undefined) return found;
  const value = compute();
  memo.set(key, value);
  return value;
}

/** Numbers at five digits: most are asked again for the next run or mode. */
const speltIn = remembered((_: HeatingMemo) => new Map<number, string>());

/** Conductor and air: equal for all runs with the same answers. */
const placeOf = remembered((heating: RunHeating, run: CarRun): string => {
  const { resistancePerLength, shape, insulationThermalResistivity, material, area } = run.conductor!;
  const [d1, d2] = shape.form === 'round' ? [shape.conductorDiameter, shape.outsideDiameter] : [shape.width, shape.thickness];
  return [shape.form, material, area, resistancePerLength, d1, d2, insulationThermalResistivity ?? 'bare', heating.ambient, heating.grouping].join(' ');
});
