/**
 * How warm an insulated round cable gets in still air, and what it may carry.
 *
 * One cable, clear of walls and of other cables, no sun, direct current. Everything between conductor and surface
 * (insulation, screen, jacket) counts as one layer. For cables that touch, see `grouping.ts`.
 */
import { requireFinite, requirePositive } from './argument-rule.ts';
import { bracketedRoot } from '../solve/bracketed-root.ts';
import { resistanceAt, type ConductorMaterial } from './conductor-resistance.ts';

export interface CableInAir {
  /** at 20 °C per length [ohm/m] */
  readonly resistance20: number;
  readonly material: ConductorMaterial;
  /** over the strands [m] */
  readonly conductorDiameter: number;
  /** over the jacket [m] */
  readonly outsideDiameter: number;
  /** of the insulation [K.m/W] */
  readonly thermalResistivity: number;
}

export type CableTemperature =
  | { readonly outcome: 'steady'; readonly conductor: number; readonly surface: number; /** [W/m] */ readonly heat: number }
  /** hotter than the model holds for: `current` [A] is what would give `limit` [K] */
  | { readonly outcome: 'over_range'; readonly limit: number; readonly current: number };

/** Highest conductor temperature the free-air model is used for [K] (300 °C); our choice, no source. */
export const CABLE_MODEL_LIMIT = 573.15;

/**
 * Conductor and surface temperature of a cable that carries a steady direct current in still air.
 *
 * Heat made, I²R(T) per metre, equals heat given off. Unique: heat given off per ohm grows with temperature.
 *
 * @param current  [A], sign does not matter
 * @param ambient  air around the cable [K]
 * @returns temperatures [K] and heat [W/m], or `over_range` above 573 K
 * Range:   one horizontal cable in free air; outside diameter up to 0.15 m
 * Errors:  throws on sizes that are not > 0, an outside diameter not above the conductor's, or ambient outside 200..573 K
 * Source:  [iec-60287-2-1] free-air model, constants from memory
 * Checked: checks/reference/cable-rating.bs-7671-4f2a.check.ts, checks/reference/cable-rating.en-50618.check.ts
 */
export function steadyCableTemperature(cable: CableInAir, current: number, ambient: number): CableTemperature {
  checkCable(cable, ambient);
  requireFinite({ current });
  const limitCurrent = steadyCableCurrent(cable, CABLE_MODEL_LIMIT, ambient);
  if (Math.abs(current) > limitCurrent) return { outcome: 'over_range', limit: CABLE_MODEL_LIMIT, current: limitCurrent };
  if (current === 0) return { outcome: 'steady', conductor: ambient, surface: ambient, heat: 0 };
  const squared = current * current;
  // one unknown, the surface: heat to the air gives the conductor's temperature through the covering
  const covering = coveringThermalResistance(cable);
  const airPath = airPathOf(cable);
  const conductorAt = (surfaceRise: number): number => ambient + surfaceRise + airPath * surfaceRise ** 1.25 * covering;
  const excess = (surfaceRise: number): number => squared * resistanceAt(cable.resistance20, Math.min(conductorAt(surfaceRise), 700), cable.material) - airPath * surfaceRise ** 1.25;
  const surfaceRise = bracketedRoot(excess, 0, heatFrom(cable, CABLE_MODEL_LIMIT, ambient).surfaceRise * (1 + 1e-9));
  return { outcome: 'steady', conductor: conductorAt(surfaceRise), surface: ambient + surfaceRise, heat: airPath * surfaceRise ** 1.25 };
}

/**
 * Steady direct current that brings the conductor of a cable in still air to a given temperature.
 *
 * @param conductorTemperature  [K], up to 573 K; at or below ambient the answer is 0
 * @returns current [A]
 * Source:  [iec-60287-2-1], as `steadyCableTemperature`
 * Checked: checks/reference/cable-rating.bs-7671-4f2a.check.ts
 */
export function steadyCableCurrent(cable: CableInAir, conductorTemperature: number, ambient: number): number {
  checkCable(cable, ambient);
  if (!(conductorTemperature <= CABLE_MODEL_LIMIT)) throw new RangeError(`conductor temperature must be at most ${CABLE_MODEL_LIMIT} K, got ${conductorTemperature}`);
  if (conductorTemperature <= ambient) return 0;
  return Math.sqrt(heatFrom(cable, conductorTemperature, ambient).heat / resistanceAt(cable.resistance20, conductorTemperature, cable.material));
}

/**
 * Heat that a cable in still air gives off per kelvin of conductor rise, at a given conductor temperature [W/(m.K)].
 *
 * Grows with temperature. At ambient itself it falls to zero with the fourth root of the rise, so it is taken at a rise of at least 1 K.
 */
export function cableHeatConductance(cable: CableInAir, conductorTemperature: number, ambient: number): number {
  checkCable(cable, ambient);
  const rise = Math.max(1, conductorTemperature - ambient);
  return heatFrom(cable, ambient + rise, ambient).heat / rise;
}

/**
 * Thermal resistance of the covering between conductor and surface, per metre of cable [K.m/W].
 *
 * Source:  [iec-60287-2-1] T1 = rho/(2 pi) ln(1 + 2t/dc); with one layer 1 + 2t/dc is the ratio of the diameters
 */
export function coveringThermalResistance(cable: Pick<CableInAir, 'conductorDiameter' | 'outsideDiameter' | 'thermalResistivity'>): number {
  return (cable.thermalResistivity / (2 * Math.PI)) * Math.log(cable.outsideDiameter / cable.conductorDiameter);
}

/** Heat per metre is this times (surface rise)^1.25: pi De h, h = 0.21/De^0.60 + 3.94 (black, convection and radiation together, De in m). */
function airPathOf(cable: CableInAir): number {
  return Math.PI * cable.outsideDiameter * (0.21 / cable.outsideDiameter ** 0.6 + 3.94);
}

/** Splits the conductor's rise over covering and air. */
function heatFrom(cable: CableInAir, conductor: number, ambient: number): { heat: number; surfaceRise: number } {
  const rise = conductor - ambient;
  if (rise <= 0) return { heat: 0, surfaceRise: 0 };
  const perRise = airPathOf(cable);
  const covering = coveringThermalResistance(cable);
  const surfaceRise = surfaceRiseOf(perRise * covering, rise);
  return { heat: perRise * surfaceRise ** 1.25, surfaceRise };
}

/**
 * s with s + c s^1.25 = rise. The left side rises and bends upwards, so Newton's method from s = rise comes down to the root
 * and never passes it; some six steps (this is asked a hundred times for one cable).
 */
function surfaceRiseOf(c: number, rise: number): number {
  let surface = rise;
  for (let step = 0; step < 60; step += 1) {
    const quarter = Math.sqrt(Math.sqrt(surface));
    const next = surface - (surface + c * surface * quarter - rise) / (1 + 1.25 * c * quarter);
    if (!(next < surface) || next <= 0) return surface;
    if (surface - next <= 1e-15 * rise) return next;
    surface = next;
  }
  return surface;
}

function checkCable(cable: CableInAir, ambient: number): void {
  const { resistance20, conductorDiameter, outsideDiameter, thermalResistivity } = cable;
  requirePositive({ resistance20, conductorDiameter, outsideDiameter, thermalResistivity });
  if (!(outsideDiameter > conductorDiameter)) throw new RangeError(`outside diameter ${outsideDiameter} m must be above the conductor's ${conductorDiameter} m`);
  if (!(ambient >= 200 && ambient < CABLE_MODEL_LIMIT)) throw new RangeError(`ambient must be 200..${CABLE_MODEL_LIMIT} K, got ${ambient}`);
}
