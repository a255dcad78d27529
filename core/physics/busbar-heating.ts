/**
 * How warm a flat bar gets in still air, and what it may carry: natural convection and radiation against I²R.
 *
 * One straight horizontal bar, long enough that its ends do not cool it, away from walls, direct current.
 */
import { requireFinite, requirePositive } from './argument-rule.ts';
import { bracketedRoot } from '../solve/bracketed-root.ts';
import { conductorMetals, resistanceAt, type ConductorMaterial } from './conductor-resistance.ts';

export interface FlatBar {
  /** [m], the larger side */
  readonly width: number;
  /** [m] */
  readonly thickness: number;
  readonly material: ConductorMaterial;
  /** of the surface [1]: about 0.1 bright, 0.3 lightly oxidised, 0.7 heavily oxidised, 0.9 painted or sleeved (from memory) */
  readonly emissivity: number;
  readonly lies: 'on_edge' | 'flat';
}

export type BusbarTemperature =
  | { readonly outcome: 'steady'; readonly temperature: number; /** [W/m] */ readonly heat: number }
  | { readonly outcome: 'over_range'; readonly limit: number; readonly current: number };

/** Highest bar temperature the model is used for [K] (200 °C): air properties and softening of hard copper; our choice. */
export const BUSBAR_MODEL_LIMIT = 473.15;

/** Stefan-Boltzmann constant [W/(m2.K4)]. */
const RADIATION = 5.670374e-8;

/**
 * Temperature of a flat bar that carries a steady direct current in still air.
 *
 * @param current  [A]
 * @param ambient  air and surroundings [K], 220 K .. 473 K
 * @returns temperature [K] and heat [W/m], or `over_range` above 473 K
 * Source:  heat balance; convection after Churchill and Chu 1975 (vertical faces) and McAdams (horizontal faces), from memory
 * Checked: checks/reference/busbar.cda-pub-22.check.ts
 */
export function steadyBusbarTemperature(bar: FlatBar, current: number, ambient: number): BusbarTemperature {
  checkBar(bar, ambient);
  requireFinite({ current });
  const limitCurrent = steadyBusbarCurrent(bar, BUSBAR_MODEL_LIMIT, ambient);
  if (Math.abs(current) > limitCurrent) return { outcome: 'over_range', limit: BUSBAR_MODEL_LIMIT, current: limitCurrent };
  if (current === 0) return { outcome: 'steady', temperature: ambient, heat: 0 };
  const excess = (temperature: number): number => current * current * barResistance(bar, temperature) - busbarHeatLoss(bar, temperature, ambient);
  const temperature = bracketedRoot(excess, ambient, BUSBAR_MODEL_LIMIT);
  return { outcome: 'steady', temperature, heat: busbarHeatLoss(bar, temperature, ambient) };
}

/**
 * Steady direct current that brings a flat bar in still air to a given temperature.
 *
 * @param temperature  of the bar [K], up to 473 K; at or below ambient the answer is 0
 * @returns current [A]
 * Source, Checked: as `steadyBusbarTemperature`
 */
export function steadyBusbarCurrent(bar: FlatBar, temperature: number, ambient: number): number {
  checkBar(bar, ambient);
  if (!(temperature <= BUSBAR_MODEL_LIMIT)) throw new RangeError(`bar temperature must be at most ${BUSBAR_MODEL_LIMIT} K, got ${temperature}`);
  if (temperature <= ambient) return 0;
  return Math.sqrt(busbarHeatLoss(bar, temperature, ambient) / barResistance(bar, temperature));
}

/**
 * Heat that a warm flat bar gives to still air and its surroundings, per metre of length.
 *
 * @returns [W/m], >= 0; 0 when the bar is not warmer than the air
 * Range:   Rayleigh number below 1e9 on each face, which holds for bars up to 0.2 m
 */
export function busbarHeatLoss(bar: FlatBar, temperature: number, ambient: number): number {
  checkBar(bar, ambient);
  if (temperature <= ambient) return 0;
  const { width, thickness } = bar;
  const radiation = 2 * (width + thickness) * bar.emissivity * RADIATION * (temperature ** 4 - ambient ** 4);
  const upright = bar.lies === 'on_edge' ? width : thickness;
  const level = bar.lies === 'on_edge' ? thickness : width;
  const rise = temperature - ambient;
  const convection = 2 * upright * verticalCoefficient(upright, temperature, ambient) + level * 1.5 * levelCoefficient(level, temperature, ambient);
  return radiation + convection * rise;
}

/** Nu = 0.68 + 0.670 Ra^(1/4) / (1 + (0.492/Pr)^(9/16))^(4/9), laminar, height as the length [W/(m2.K)]. */
function verticalCoefficient(height: number, temperature: number, ambient: number): number {
  const air = airAt((temperature + ambient) / 2);
  const rayleigh = rayleighNumber(height, temperature, ambient);
  const nusselt = 0.68 + (0.67 * rayleigh ** 0.25) / (1 + (0.492 / air.prandtl) ** (9 / 16)) ** (4 / 9);
  return (nusselt * air.conductivity) / height;
}

/** Upper face Nu = 0.54 Ra^(1/4), lower face half of it (hence the factor 1.5 above); length = area/perimeter of a strip = level/2. */
function levelCoefficient(level: number, temperature: number, ambient: number): number {
  const air = airAt((temperature + ambient) / 2);
  const length = level / 2;
  return (0.54 * rayleighNumber(length, temperature, ambient) ** 0.25 * air.conductivity) / length;
}

function rayleighNumber(length: number, temperature: number, ambient: number): number {
  const film = (temperature + ambient) / 2;
  const air = airAt(film);
  return (9.80665 * (temperature - ambient) * length ** 3 * air.prandtl) / (film * air.viscosity ** 2);
}

/** Dry air at 101 325 Pa, 220 .. 480 K: Sutherland's law and a power law for the conductivity, from memory (within 1 %). */
function airAt(film: number): { conductivity: number; viscosity: number; prandtl: number } {
  const dynamic = (1.458e-6 * film ** 1.5) / (film + 110.4);
  const conductivity = (2.64638e-3 * film ** 1.5) / (film + 245.4 * 10 ** (-12 / film));
  const density = 101325 / (287.05 * film);
  return { conductivity, viscosity: dynamic / density, prandtl: (dynamic * 1006) / conductivity };
}

function barResistance(bar: FlatBar, temperature: number): number {
  return resistanceAt(conductorMetals[bar.material].resistivity20 / (bar.width * bar.thickness), temperature, bar.material);
}

function checkBar(bar: FlatBar, ambient: number): void {
  requirePositive({ width: bar.width, thickness: bar.thickness });
  if (!(bar.emissivity >= 0 && bar.emissivity <= 1)) throw new RangeError(`emissivity must be 0..1, got ${bar.emissivity}`);
  if (!(ambient >= 220 && ambient < BUSBAR_MODEL_LIMIT)) throw new RangeError(`ambient must be 220..${BUSBAR_MODEL_LIMIT} K, got ${ambient}`);
}
