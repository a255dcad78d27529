/**
 * What a run may carry for good where it lies, by its heat balance.
 */
import type { Car, CarRun } from '../../car/car.ts';
import { BUSBAR_MODEL_LIMIT, steadyBusbarCurrent } from '../../physics/busbar-heating.ts';
import { CABLE_MODEL_LIMIT, steadyCableCurrent } from '../../physics/cable-heating.ts';
import { groupingFactor } from '../../physics/grouping.ts';

/** Emissivity of a lightly oxidised bar [1], from memory. */
const BARE_EMISSIVITY = 0.3;
const COVERED_EMISSIVITY = 0.9;
/** Coldest air that the bar model answers for [K]; colder air counts as this. */
const COLDEST_FOR_BARS = 220;

export type Ampacity = { readonly outcome: 'current'; readonly current: number; readonly ambient: number } | { readonly outcome: 'needs'; readonly needs: readonly string[] };

/**
 * Steady current that brings the conductor to its temperature rating.
 *
 * @returns [A], 0 in air as hot as the rating; `needs` when the conductor is not described well enough
 * Source: as `steadyCableCurrent`, `steadyBusbarCurrent`, `groupingFactor`
 */
export function ampacity(car: Car, run: CarRun): Ampacity {
  const { conductor } = run;
  if (!conductor) return { outcome: 'needs', needs: run.missing };
  const ambient = typeof run.fields['ambient'] === 'number' ? run.fields['ambient'] : car.conditions.ambient;
  const grouping = groupingFactor(typeof run.fields['bundled'] === 'number' ? run.fields['bundled'] : 1);
  if (grouping.outcome !== 'factor') return { outcome: 'needs', needs: [`runs.${run.name}.bundled`] };
  const { shape, material, insulationThermalResistivity, temperatureRating } = conductor;
  const current = (free: number): Ampacity => ({ outcome: 'current', current: grouping.factor * free, ambient });
  if (shape.form === 'flat') {
    if (ambient >= BUSBAR_MODEL_LIMIT) return current(0);
    const bar = { width: Math.max(shape.width, shape.thickness), thickness: Math.min(shape.width, shape.thickness), material, emissivity: insulationThermalResistivity === undefined ? BARE_EMISSIVITY : COVERED_EMISSIVITY, lies: 'flat' as const };
    return current(steadyBusbarCurrent(bar, Math.min(temperatureRating, BUSBAR_MODEL_LIMIT), Math.max(ambient, COLDEST_FOR_BARS)));
  }
  const { outsideDiameter, conductorDiameter } = shape;
  if (!(outsideDiameter > conductorDiameter)) return { outcome: 'needs', needs: [`runs.${run.name}.outside_diameter`] };
  if (insulationThermalResistivity === undefined) return { outcome: 'needs', needs: [`runs.${run.name}.insulation`] };
  if (ambient >= CABLE_MODEL_LIMIT) return current(0);
  const cable = { resistance20: conductor.resistancePerLength, material, conductorDiameter, outsideDiameter, thermalResistivity: insulationThermalResistivity };
  return current(steadyCableCurrent(cable, Math.min(temperatureRating, CABLE_MODEL_LIMIT), ambient));
}
