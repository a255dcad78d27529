/** Insulation materials of cables: what they stand and how they hold heat back. */

export interface InsulationMaterial {
  readonly name: string;
  /** highest conductor temperature in service [K] */
  readonly temperatureRating: number;
  /** highest conductor temperature after a short circuit of at most 5 s [K] */
  readonly shortCircuitTemperature: number;
  /** [K.m/W] */
  readonly thermalResistivity: number;
  /** keys in SOURCES.md */
  readonly sources: readonly string[];
  readonly note: string;
}

/**
 * The materials by key. Service temperatures of a particular cable are on its jacket and rule over these.
 *
 * Source:  thermal resistivity [iec-60287-2-1], silicone from a maker; short-circuit temperatures [bs-7671] tables 43.1 and 54.2-54.4.
 *          Cross-linked polyolefin above 90 °C has no published short-circuit temperature here: it keeps the 250 °C of XLPE.
 */
export const insulationMaterials = {
  pvc: material('polyvinyl chloride', 70, 160, 5.0, ['bs-7671', 'iec-60287-2-1'], '160 °C up to 300 mm²; vehicle grades are rated to 85..105 °C'),
  rubber: material('rubber 60 °C', 60, 200, 5.0, ['bs-7671'], 'thermal resistivity from memory'),
  hofr_rubber: material('rubber 85..90 °C (welding cable)', 85, 220, 3.5, ['bs-7671', 'iec-60287-2-1'], 'resistivity as EPR'),
  epr: material('ethylene propylene rubber', 90, 250, 3.5, ['bs-7671', 'iec-60287-2-1'], 'thermoset'),
  xlpe: material('cross-linked polyethylene', 90, 250, 3.5, ['bs-7671', 'iec-60287-2-1'], 'thermoset'),
  xlpo: material('cross-linked polyolefin', 120, 250, 5.0, ['en-50618', 'common-practice'], 'vehicle and solar cable, classes 105, 125 and 150 °C; resistivity taken high'),
  silicone: material('silicone rubber', 180, 350, 5.0, ['bs-7671', 'iec-60287-2-1'], 'table 4F2A gives currents for a conductor at 150 °C; resistivity from a maker'),
} as const satisfies Record<string, InsulationMaterial>;

function material(name: string, rating: number, shortCircuit: number, thermalResistivity: number, sources: readonly string[], note: string): InsulationMaterial {
  return { name, temperatureRating: rating + 273.15, shortCircuitTemperature: shortCircuit + 273.15, thermalResistivity, sources, note };
}
