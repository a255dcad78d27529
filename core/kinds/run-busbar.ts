/** A flat solid bar, bare or covered. */
import { conductorMetals } from '../physics/conductor-resistance.ts';
import { choice, optional, required, text } from '../part/field.ts';
import { defineRunKind } from '../part/run-kind.ts';
import { insulationClasses } from './pieces/insulation-class.ts';

const celsius = (degrees: number): number => degrees + 273.15;

/**
 * What the covering allows. Bare: 200 °C after a short circuit (IEC 60364-5-54 Table A.54.6, ordinary conditions); 105 °C in service
 * is common practice, no source (tin and neighbouring plastics, not the copper). Epoxy powder: common practice, no source.
 */
const coverings = {
  bare: { temperatureRating: celsius(105), shortCircuitTemperature: celsius(200), thermalResistivity: undefined },
  heat_shrink: { ...insulationClasses.xlpo_125, shortCircuitTemperature: celsius(200) },
  dipped_pvc: insulationClasses.pvc_105,
  powder: { temperatureRating: celsius(130), shortCircuitTemperature: celsius(200), thermalResistivity: 5 },
} as const;

export const runBusbar = defineRunKind({
  kind: 'busbar',
  title: 'Busbar',
  meaning: 'a flat bar of copper or aluminium, bolted at both ends',
  fields: {
    width: required('length', 'broad side of its cross-section', { example: '20 mm measured', minimum: 0, maximum: 0.3, aboveMinimum: true }),
    thickness: required('length', 'thin side of its cross-section', { example: '3 mm measured', minimum: 0, maximum: 0.05, aboveMinimum: true }),
    material: choice(['copper', 'aluminium'], 'metal of the bar; silent means copper', { need: 'optional', fallback: 'copper' }),
    insulation: choice(['bare', 'heat_shrink', 'dipped_pvc', 'powder'], 'its covering', { explain: { heat_shrink: 'polyolefin sleeve, 125 °C', dipped_pvc: 'dipped in PVC, 105 °C', powder: 'epoxy powder, 130 °C' } }),
    temperature_rating: optional('temperature', 'highest temperature of the bar in service; used instead of the one of its covering', { isLimit: true, example: '105 °C', minimum: 300, maximum: 550 }),
    voltage_rating: optional('voltage', 'voltage its covering is made for', { isLimit: true, example: '1000 V datasheet', minimum: 0, maximum: 1e4, aboveMinimum: true }),
    minimum_bend_radius: optional('length', 'least inside radius it may be bent to', { isLimit: true, example: '4 mm', minimum: 0, aboveMinimum: true }),
    colour: text('colour of its covering', { example: 'orange' }),
  },
  conductor: (fields) => {
    const material = fields.material ?? 'copper';
    const area = fields.width * fields.thickness;
    const covering = coverings[fields.insulation];
    return {
      material,
      area,
      // solid metal: no stranding, so the resistivity itself (IEC 60028 for copper)
      resistancePerLength: conductorMetals[material].resistivity20 / area,
      shape: { form: 'flat', width: fields.width, thickness: fields.thickness },
      temperatureRating: fields.temperature_rating ?? covering.temperatureRating,
      shortCircuitTemperature: covering.shortCircuitTemperature,
      insulationThermalResistivity: covering.thermalResistivity,
      voltageRating: fields.voltage_rating,
      minimumBendRadius: fields.minimum_bend_radius,
      colour: fields.colour,
      isScreened: false,
    };
  },
  observables: [
    { name: 'voltage from bolt to bolt', sense: 'read', meaning: 'millivolts under load; more is a bad joint' },
    { name: 'colours of heat at a joint', sense: 'see', meaning: 'a joint has been hot' },
  ],
});
