/**
 * Short-circuit heating of a conductor without heat loss: which I²t brings it to which temperature.
 */
import { requireNotNegative, requirePositive } from './argument-rule.ts';
import type { ConductorMaterial } from './conductor-resistance.ts';

/** K [A.s^(1/2)/m2] and beta [K] of the adiabatic equation; beta counts from 0 °C. */
export const adiabaticConstants: Readonly<Record<ConductorMaterial, { readonly factor: number; readonly beta: number }>> = {
  copper: { factor: 226e6, beta: 234.5 },
  aluminium: { factor: 148e6, beta: 228 },
};

const ZERO_CELSIUS = 273.15;

/** Longest short circuit for which heat loss may be left out [s] (IEC 60364-4-43 clause 434.5.2). */
export const ADIABATIC_TIME_LIMIT = 5;

/**
 * Factor k of a conductor heated from one temperature to another: area >= sqrt(I²t) / k.
 *
 * @param start, end  [K], end above start; a loaded cable starts at its rating, a cold one at about 303 K
 * @returns k [A.s^(1/2)/m2]; a million times the tabulated A.s^(1/2)/mm2
 * Range:   up to 5 s
 * Source:  [iec-60949] clause 3; K and beta: copper 226 and 234.5, aluminium 148 and 228 (K from memory, recomputed)
 * Checked: checks/reference/adiabatic.iec-60949.check.ts
 */
export function adiabaticFactor(material: ConductorMaterial, start: number, end: number): number {
  checkTemperatures(start, end);
  const { factor, beta } = adiabaticConstants[material];
  return factor * Math.sqrt(Math.log((end - ZERO_CELSIUS + beta) / (start - ZERO_CELSIUS + beta)));
}

/**
 * Greatest I²t that a conductor takes before it passes a temperature, nothing lost on the way.
 *
 * @param area        metal cross-section [m2]
 * @param start, end  [K]
 * @returns I²t [A2.s]; 0 when it already starts at the end temperature
 * Source, Checked: as `adiabaticFactor`
 */
export function allowedHeating(area: number, material: ConductorMaterial, start: number, end: number): number {
  requirePositive({ area });
  if (end <= start) return 0;
  return (adiabaticFactor(material, start, end) * area) ** 2;
}

/** Cross-section that takes an I²t between two temperatures [m2]. Source, Checked: as `adiabaticFactor`. */
export function areaForHeating(heating: number, material: ConductorMaterial, start: number, end: number): number {
  requireNotNegative({ heating });
  return Math.sqrt(heating) / adiabaticFactor(material, start, end);
}

/** Temperature after a short circuit, or `melts` when the linear resistance law has left its range. */
export type ShortCircuitTemperature =
  | { readonly outcome: 'temperature'; readonly temperature: number }
  | { readonly outcome: 'melts'; readonly meltingPoint: number };

/** Melting points [K]: copper 1084.6 °C, aluminium 660.3 °C (from memory). */
const meltingPoints: Readonly<Record<ConductorMaterial, number>> = { copper: 1357.8, aluminium: 933.5 };

/**
 * Temperature of a conductor after an I²t that came too fast for any heat to leave.
 *
 * @param heating  I²t [A2.s], >= 0
 * @param start    [K]
 * @returns end temperature [K], an upper bound for slower heating; `melts` above the metal's melting point
 * Source, Checked: as `adiabaticFactor`
 */
export function shortCircuitTemperature(area: number, material: ConductorMaterial, start: number, heating: number): ShortCircuitTemperature {
  requirePositive({ area, start });
  requireNotNegative({ heating });
  const { factor, beta } = adiabaticConstants[material];
  const temperature = (start - ZERO_CELSIUS + beta) * Math.exp(heating / (factor * area) ** 2) - beta + ZERO_CELSIUS;
  if (!(temperature < meltingPoints[material])) return { outcome: 'melts', meltingPoint: meltingPoints[material] };
  return { outcome: 'temperature', temperature };
}

function checkTemperatures(start: number, end: number): void {
  requirePositive({ start, end });
  if (!(end > start)) throw new RangeError(`end temperature ${end} K must be above the start ${start} K`);
  if (!(start >= 200 && end <= 1000)) throw new RangeError(`temperatures must be within 200..1000 K, got ${start} and ${end}`);
}
