/**
 * What a run may carry for good where it lies, by its heat balance.
 */
import { runCapacity } from '../../car/heating-memo.ts';
import type { HeatingMemo } from '../../car/heating-memo.ts';
import type { Car, CarRun } from '../../car/car.ts';
import { runHeating } from '../../car/run-heating.ts';

export type Ampacity = { readonly outcome: 'current'; readonly current: number; readonly ambient: number } | { readonly outcome: 'needs'; readonly needs: readonly string[] };

/**
 * Steady current that brings the conductor to its temperature rating.
 *
 * @param memo  of one draw: runs of one stock in the same air share their answer
 * @returns [A], 0 in air as hot as the rating; `needs` when the conductor is not described well enough
 */
export function ampacity(car: Car, run: CarRun, memo: HeatingMemo): Ampacity {
  const known = runHeating(car, run);
  return known.outcome === 'needs' ? known : { outcome: 'current', current: runCapacity(run, known.heating, memo), ambient: known.heating.ambient };
}
