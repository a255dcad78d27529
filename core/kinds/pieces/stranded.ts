/** A stranded conductor with round insulation: what cable and wire have in common. */
import { leastBendRadius } from '../../physics/bend-radius.ts';
import { conductorDiameter } from '../../physics/conductor-diameter.ts';
import { CONDUCTOR_AREA_RANGE, resistancePerLength20 } from '../../physics/conductor-resistance.ts';
import type { RealisedFields } from '../../part/field.ts';
import type { Conductor } from '../../part/run-kind.ts';
import { choice, flag, fromHandbook, optional, required, text } from '../../part/field.ts';
import { insulationClasses, insulationMeanings, insulationNames } from './insulation-class.ts';

export const strandedFields = {
  conductor_area: required('area', 'metal cross-section, in mm² or AWG', { isLimit: true, example: '50 mm² label', minimum: CONDUCTOR_AREA_RANGE.minimum, maximum: CONDUCTOR_AREA_RANGE.maximum }),
  material: choice(['copper', 'aluminium'], 'metal of the conductor; silent means copper', { need: 'optional', fallback: 'copper' }),
  insulation: choice(insulationNames, 'what is around the conductor', { explain: insulationMeanings }),
  temperature_rating: optional('temperature', 'highest conductor temperature printed on it; used instead of the one of its insulation', { isLimit: true, example: '125 °C label', minimum: 300, maximum: 550 }),
  voltage_rating: optional('voltage', 'voltage printed on it', { isLimit: true, example: '1000 V label', minimum: 0, maximum: 1e4, aboveMinimum: true }),
  resistance_per_length: optional('resistance_per_length', 'measured, at 20 °C; used instead of the table of IEC 60228 class 5', { example: '0.39 mΩ/m measured', minimum: 0, maximum: 1, aboveMinimum: true }),
  fill_factor: fromHandbook('ratio', 'run.fill_factor', 'metal area as a share of the circle around the strands', { example: '72 %', minimum: 0.4, maximum: 1 }),
  minimum_bend_radius: optional('length', 'least bend radius from its sheet; used instead of the usual multiple of its diameter', { isLimit: true, example: '85 mm datasheet', minimum: 0, aboveMinimum: true }),
  moves: flag('it is bent in use, to a swinging drive unit or a door'),
  screened: flag('it has a screen'),
  colour: text('colour of the jacket', { example: 'orange' }),
} as const;

type StrandedValues = RealisedFields<typeof strandedFields>;

/**
 * The conductor for a given outside diameter. A strand bundle that would not fit into that diameter is taken as filling it.
 * @param outsideDiameter  over everything [m]
 */
export function strandedConductor(fields: StrandedValues, outsideDiameter: number): Conductor {
  const material = fields.material ?? 'copper';
  const isScreened = fields.screened === true;
  const insulation = insulationClasses[fields.insulation];
  return {
    material,
    area: fields.conductor_area,
    resistancePerLength: fields.resistance_per_length ?? resistancePerLength20({ area: fields.conductor_area, material }),
    shape: { form: 'round', conductorDiameter: Math.min(strandsDiameter(fields), outsideDiameter), outsideDiameter },
    temperatureRating: fields.temperature_rating ?? insulation.temperatureRating,
    shortCircuitTemperature: insulation.shortCircuitTemperature,
    insulationThermalResistivity: insulation.thermalResistivity,
    voltageRating: fields.voltage_rating,
    minimumBendRadius: fields.minimum_bend_radius ?? leastBendRadius(outsideDiameter, { isScreened, moves: fields.moves === true }),
    colour: fields.colour,
    isScreened,
  };
}

export const strandsDiameter = (fields: Pick<StrandedValues, 'conductor_area' | 'fill_factor'>): number => conductorDiameter(fields.conductor_area, fields.fill_factor);
