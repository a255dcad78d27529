/**
 * What the insulation of a run allows, by the word that stands on its jacket.
 *
 * Source:  service and short-circuit temperatures and thermal resistivities of PVC, rubber, EPR, XLPE, XLPO and silicone from
 *          core/physics/insulation-material.ts ([bs-7671], [iec-60287-2-1]); the temperature class of vehicle wire (105, 125,
 *          150 °C) is the number in its own name (classes of ISO 6722-1, from memory);
 *          fluoropolymers: resistivity from handbook conductivities 0.24 and 0.25 W/(m.K), from memory; their short-circuit
 *          temperatures stay below the melting points 267 and 327 °C: common practice, no source.
 */
import { insulationMaterials } from '../../physics/insulation-material.ts';

export interface InsulationClass {
  /** highest conductor temperature in service [K] */
  readonly temperatureRating: number;
  /** highest conductor temperature after a short circuit [K] */
  readonly shortCircuitTemperature: number;
  /** [K.m/W] */
  readonly thermalResistivity: number;
}

const celsius = (degrees: number): number => degrees + 273.15;

export const insulationClasses = {
  pvc: insulationMaterials.pvc,
  pvc_105: { ...insulationMaterials.pvc, temperatureRating: celsius(105) },
  rubber: insulationMaterials.hofr_rubber,
  epr: insulationMaterials.epr,
  xlpe: insulationMaterials.xlpe,
  xlpo_125: { ...insulationMaterials.xlpo, temperatureRating: celsius(125) },
  xlpo_150: { ...insulationMaterials.xlpo, temperatureRating: celsius(150) },
  silicone_180: insulationMaterials.silicone,
  etfe_150: { temperatureRating: celsius(150), shortCircuitTemperature: celsius(220), thermalResistivity: 1 / 0.24 },
  ptfe_200: { temperatureRating: celsius(200), shortCircuitTemperature: celsius(290), thermalResistivity: 1 / 0.25 },
} as const satisfies Record<string, InsulationClass>;

export type InsulationName = keyof typeof insulationClasses;

export const insulationNames = Object.keys(insulationClasses) as readonly InsulationName[];

/** For the reference page. */
export const insulationMeanings: Readonly<Record<InsulationName, string>> = {
  pvc: 'ordinary PVC, 70 °C', pvc_105: 'vehicle PVC, 105 °C', rubber: 'rubber welding cable, 85 °C', epr: 'ethylene propylene rubber, 90 °C',
  xlpe: 'cross-linked polyethylene, 90 °C', xlpo_125: 'cross-linked polyolefin, 125 °C', xlpo_150: 'cross-linked polyolefin, 150 °C',
  silicone_180: 'silicone rubber, 180 °C; BS 7671 counts with 150 °C', etfe_150: 'ETFE fluoropolymer, 150 °C', ptfe_200: 'PTFE fluoropolymer, 200 °C',
};
