/**
 * Handbook rows and tables of conductors and insulation. The numbers of standards live once, beside the formulas that use
 * them in `core/physics`; here they become rows that can be shown.
 */
import type { HandbookRow, HandbookTable } from '../core/part/catalogue.ts';
import { class5Rows } from '../core/physics/conductor-resistance.ts';
import { insulationMaterials, type InsulationMaterial } from '../core/physics/insulation-material.ts';

/** Service temperatures that cables of a material are sold with [°C]; common practice, no source. */
const serviceRanges: Readonly<Record<string, string>> = { pvc: '70..105', hofr_rubber: '85..90', epr: '90..110', xlpe: '90..125', xlpo: '90..150', silicone: '150..200' };

/** `insulation.<material>.temperature_rating`, `.short_circuit_temperature`, `.thermal_resistivity`. */
const insulationRows: readonly HandbookRow[] = Object.entries<InsulationMaterial>(insulationMaterials).flatMap(([key, material]) => {
  const source = material.sources[0] ?? 'common-practice';
  const celsius = (kelvin: number): string => String(Math.round(kelvin - 273.15));
  const service = celsius(material.temperatureRating);
  const short = celsius(material.shortCircuitTemperature);
  const heat = material.thermalResistivity;
  return [
    { key: `insulation.${key}.temperature_rating`, quantity: 'temperature', value: `${service} °C`, range: `${serviceRanges[key] ?? `${service}..${service}`} °C`, source, note: `${material.name}; ${material.note}` },
    { key: `insulation.${key}.short_circuit_temperature`, quantity: 'temperature', value: `${short} °C`, range: `${short}..${short} °C`, source, note: `${material.name}; at most 5 s` },
    { key: `insulation.${key}.thermal_resistivity`, quantity: 'thermal_resistivity', value: `${heat} K·m/W`, range: `3.5..6 K·m/W`, source: material.sources.at(-1) ?? source, note: `${material.name}; published values of insulations lie between 3.5 and 6` },
  ] satisfies HandbookRow[];
});

export const conductorRows: readonly HandbookRow[] = [
  ...insulationRows,
  { key: 'conductor.fill', quantity: 'ratio', value: '72 %', range: '65..78 %', source: 'common-practice', note: 'metal area in the circle around a flexible conductor (class 5 and 6); from a secondary note' },
  { key: 'busbar.emissivity.bare', quantity: 'ratio', value: '10 %', range: '5..40 %', source: 'cda-pub-22', note: 'bare copper: 10 % makes the heat balance meet the rating formula of the handbook; tarnished bars radiate more; range from memory' },
  { key: 'busbar.emissivity.sleeved', quantity: 'ratio', value: '90 %', range: '80..95 %', source: 'common-practice', note: 'painted or sleeved; from memory' },
];

export const conductorTables: readonly HandbookTable[] = [
  {
    key: 'conductor.class_5.plain',
    columns: [{ name: 'area', quantity: 'area' }, { name: 'greatest resistance at 20 °C', quantity: 'resistance_per_length' }],
    rows: class5Rows, source: 'iec-60228', note: 'flexible conductor, class 5, plain copper; at 50 mm² below class 2, which is genuine',
  },
  {
    key: 'conductor.class_5.tinned',
    columns: [{ name: 'area', quantity: 'area' }, { name: 'greatest resistance at 20 °C', quantity: 'resistance_per_length' }],
    rows: ([
      [0.5, 40.1], [0.75, 26.7], [1, 20], [1.5, 13.7], [2.5, 8.21], [4, 5.09], [6, 3.39], [10, 1.95], [16, 1.24],
      [25, 0.795], [35, 0.565], [50, 0.393], [70, 0.277], [95, 0.21], [120, 0.164],
    ] as const).map(([area, resistance]) => [area * 1e-6, resistance * 1e-3]),
    source: 'iec-60228', note: 'the same, tinned copper',
  },
  {
    key: 'cable.welding',
    columns: [{ name: 'area', quantity: 'area' }, { name: 'covering thickness', quantity: 'length' }, { name: 'outside diameter', quantity: 'length' }, { name: 'bend radius', quantity: 'length' }],
    rows: ([[16, 2, 9.7], [25, 2, 11.2], [35, 2, 12.4], [50, 2.2, 14.3], [70, 2.4, 16.3], [95, 2.6, 18.6], [120, 2.8, 20.3]] as const)
      .map(([area, covering, outside]) => [area * 1e-6, covering * 1e-3, outside * 1e-3, 6 * outside * 1e-3]),
    source: 'bs-638-4', note: 'flexible rubber cable, type 0361TQ, nominal; bend 6 times the diameter',
  },
];
