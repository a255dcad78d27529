/** Peak temperature of a cable in still air under a repeated duty. */
import { bracketedRoot } from '../solve/bracketed-root.ts';
import { CABLE_MODEL_LIMIT, cableHeatConductance, type CableInAir } from './cable-heating.ts';
import type { ConductorMaterial } from './conductor-resistance.ts';
import { periodicTemperature, type DutyStep } from './duty-heating.ts';

/** Heat that metals hold [J/(m3.K)]: copper 3.45e6, aluminium 2.5e6 (IEC 60949 table 1). */
export const METAL_HEAT: Readonly<Record<ConductorMaterial, number>> = { copper: 3.45e6, aluminium: 2.5e6 };
/** Heat that insulation and jacket hold [J/(m3.K)]: rubbers 1.7e6 .. 2.4e6, cross-linked polyolefin 2.4e6 (IEC 60853-2, from memory); the low end, which errs to the hot side. */
export const COVERING_HEAT = 1.7e6;

export interface CableThermal extends CableInAir {
  /** metal cross-section [m2] */
  readonly area: number;
}

export type CableDutyTemperature =
  | { readonly outcome: 'periodic'; readonly peak: number; readonly lowest: number; readonly mean: number; readonly timeConstant: number }
  | { readonly outcome: 'over_range'; readonly limit: number };

/**
 * Settled peak conductor temperature of a cable under a repeated duty.
 *
 * Thermal mass: the metal, and that share of the covering that follows the conductor (Van Wormer's coefficient).
 * The heat path is the free-air one at the mean temperature of the settled period, found by iteration, so a constant
 * current gives exactly the steady temperature.
 *
 * @param duty     steps of one period
 * @param ambient  air around the cable [K]
 * @returns temperatures and thermal time constant, or `over_range` when the mean or peak would pass 573 K
 * Range:   one cable in still air; heat of the covering is taken low (1.7e6 J/(m3.K)), which errs to the hot side
 * Source:  [iec-60287-2-1] heat path; [iec-60853-2] Van Wormer share, from memory; [iec-60949] heat of metals
 * Checked: cable-duty.test.ts (constant current equals `steadyCableTemperature`; long and short periods bracket it)
 */
export function cableDutyTemperature(cable: CableThermal, duty: readonly DutyStep[], ambient: number): CableDutyTemperature {
  const heatCapacity = cableHeatCapacity(cable);
  const settled = (mean: number): ReturnType<typeof periodicTemperature> =>
    periodicTemperature({ resistance20: cable.resistance20, material: cable.material, heatCapacity, conductance: cableHeatConductance(cable, mean, ambient) }, duty, ambient);
  // mean temperature that the duty gives, minus the one the heat path was taken at: falls as the latter rises
  const gap = (mean: number): number => {
    const outcome = settled(mean);
    return outcome.outcome === 'runaway' ? CABLE_MODEL_LIMIT : outcome.mean - mean;
  };
  const atLimit = gap(CABLE_MODEL_LIMIT);
  if (atLimit > 0) return { outcome: 'over_range', limit: CABLE_MODEL_LIMIT };
  // the better the heat path, the lower the mean: what the path at the limit gives lies below the settled mean, what the path there gives above it
  const below = CABLE_MODEL_LIMIT + atLimit;
  const rise = gap(below);
  const mean = rise <= 0 ? below : bracketedRoot(gap, below, Math.min(CABLE_MODEL_LIMIT, below + rise));
  const outcome = settled(mean);
  if (outcome.outcome === 'runaway' || outcome.peak > CABLE_MODEL_LIMIT) return { outcome: 'over_range', limit: CABLE_MODEL_LIMIT };
  return { outcome: 'periodic', peak: outcome.peak, lowest: outcome.lowest, mean: outcome.mean, timeConstant: heatCapacity / cableHeatConductance(cable, mean, ambient) };
}

/**
 * Heat per kelvin that moves with the conductor of a cable [J/(K.m)]: metal, and Van Wormer's share of the covering,
 * p = 1/(2 ln r) - 1/(r² - 1), r = outside diameter / conductor diameter.
 */
export function cableHeatCapacity(cable: CableThermal): number {
  const ratio = cable.outsideDiameter / cable.conductorDiameter;
  const share = 1 / (2 * Math.log(ratio)) - 1 / (ratio * ratio - 1);
  const covering = (Math.PI / 4) * (cable.outsideDiameter ** 2 - cable.conductorDiameter ** 2);
  return cable.area * METAL_HEAT[cable.material] + share * covering * COVERING_HEAT;
}
