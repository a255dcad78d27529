/**
 * DC resistance of a stranded conductor, and how it grows with temperature.
 */

export type ConductorMaterial = 'copper' | 'aluminium';

/** Electrical properties of the two conductor metals at 20 °C. */
export interface ConductorMetal {
  /** [ohm.m] */
  readonly resistivity20: number;
  /** temperature coefficient of resistance at 20 °C [1/K] */
  readonly coefficient20: number;
}

/**
 * Copper: annealed standard (IEC 60028); aluminium: 28.264 nohm.m (IEC 60949 table 1 as in the reference notes).
 * The copper coefficient 0.00393 1/K equals 1/(234.5 + 20); aluminium 0.00403 1/K equals 1/(228 + 20): from memory.
 * The rounded table of IEC 60228 (Kt = 250/(230 + T)) differs by 0.4 % at 90 °C: both are legitimate, the exact form is used.
 */
export const conductorMetals: Readonly<Record<ConductorMaterial, ConductorMetal>> = {
  copper: { resistivity20: 17.241e-9, coefficient20: 1 / 254.5 },
  aluminium: { resistivity20: 28.264e-9, coefficient20: 1 / 248 },
};

/** 20 °C [K] */
export const REFERENCE_TEMPERATURE = 293.15;

/** Limits of the cross-section that `resistancePerLength20` answers for [m2]. */
export const CONDUCTOR_AREA_RANGE = { minimum: 0.2e-6, maximum: 400e-6 } as const;

/**
 * Greatest DC resistance per length at 20 °C of a flexible conductor (IEC 60228 class 5, plain copper).
 *
 * A standard size (within 1 %) takes the published row. Between sizes the ratio of the published value to
 * resistivity/area (stranding and lay: 1.10 .. 1.16) is interpolated over the logarithm of the area, and held constant
 * below 0.5 mm2 and above 240 mm2. Aluminium is the copper value times the ratio of the resistivities, because
 * class 5 has no aluminium rows.
 *
 * @param conductor.area      nominal cross-section [m2], 0.2e-6 .. 400e-6
 * @param conductor.material  copper or aluminium
 * @returns resistance per length [ohm/m]
 * Range:   0.2 .. 400 mm2; 0.2..0.5 and 240..400 mm2 have no class 5 row seen, the end ratio is held
 * Errors:  throws when the area is not inside the range: the build file's field already limits it
 * Source:  [iec-60228] table 3 (class 5), 0.5 .. 240 mm2
 * Checked: checks/reference/conductor-resistance.iec-60228.check.ts
 */
export function resistancePerLength20(conductor: { readonly area: number; readonly material: ConductorMaterial }): number {
  const { area, material } = conductor;
  if (!(area >= CONDUCTOR_AREA_RANGE.minimum * (1 - 1e-9) && area <= CONDUCTOR_AREA_RANGE.maximum * (1 + 1e-9))) {
    throw new RangeError(`conductor area must be 0.2..400 mm2, got ${area} m2`);
  }
  const copper = standardResistance(area) ?? (strandingRatio(area) * conductorMetals.copper.resistivity20) / area;
  return material === 'copper' ? copper : (copper * conductorMetals.aluminium.resistivity20) / conductorMetals.copper.resistivity20;
}

/**
 * Resistance of a metal conductor at a temperature, from its value at 20 °C.
 *
 * @param resistance20  at 20 °C, any length [ohm] or [ohm/m], >= 0
 * @param temperature   of the metal [K]; linear law, good from about 200 K to 600 K
 * @returns same unit as resistance20
 * Errors:  throws when the temperature is outside 200 .. 700 K or an argument is not finite
 * Source:  [iec-60228] linear law R = R20 (1 + alpha20 (T - 20 °C)); coefficients of IEC 60028, from memory
 * Checked: checks/reference/conductor-resistance.iec-60228.check.ts
 */
export function resistanceAt(resistance20: number, temperature: number, material: ConductorMaterial): number {
  if (!(Number.isFinite(resistance20) && resistance20 >= 0)) throw new RangeError(`resistance20 must be finite and >= 0, got ${resistance20}`);
  if (!(temperature >= 200 && temperature <= 700)) throw new RangeError(`conductor temperature must be 200..700 K, got ${temperature}`);
  return resistance20 * (1 + conductorMetals[material].coefficient20 * (temperature - REFERENCE_TEMPERATURE));
}

/** IEC 60228 class 5, plain copper: [nominal area m2, greatest resistance at 20 °C ohm/m]. */
export const class5Rows: readonly (readonly [number, number])[] = [
  [0.5e-6, 39.0e-3], [0.75e-6, 26.0e-3], [1e-6, 19.5e-3], [1.5e-6, 13.3e-3], [2.5e-6, 7.98e-3], [4e-6, 4.95e-3],
  [6e-6, 3.3e-3], [10e-6, 1.91e-3], [16e-6, 1.21e-3], [25e-6, 0.78e-3], [35e-6, 0.554e-3], [50e-6, 0.386e-3],
  [70e-6, 0.272e-3], [95e-6, 0.206e-3], [120e-6, 0.161e-3], [150e-6, 0.129e-3], [185e-6, 0.106e-3], [240e-6, 0.0801e-3],
];

function standardResistance(area: number): number | undefined {
  return class5Rows.find(([standard]) => Math.abs(area / standard - 1) <= 0.01)?.[1];
}

/** Published resistance over resistivity/area, interpolated over log area. */
function strandingRatio(area: number): number {
  const ratioOf = ([size, resistance]: readonly [number, number]): number => (resistance * size) / conductorMetals.copper.resistivity20;
  const first = class5Rows[0]!;
  const last = class5Rows[class5Rows.length - 1]!;
  if (area <= first[0]) return ratioOf(first);
  if (area >= last[0]) return ratioOf(last);
  const above = class5Rows.findIndex(([size]) => size > area);
  const low = class5Rows[above - 1]!;
  const high = class5Rows[above]!;
  const share = Math.log(area / low[0]) / Math.log(high[0] / low[0]);
  return ratioOf(low) + share * (ratioOf(high) - ratioOf(low));
}
