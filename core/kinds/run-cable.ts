/** Thick single-core cable, for the traction current or the 12 V battery. */
import { required } from '../part/field.ts';
import { defineRunKind } from '../part/run-kind.ts';
import { strandedConductor, strandedFields } from './pieces/stranded.ts';

export const runCable = defineRunKind({
  kind: 'cable',
  title: 'Cable',
  meaning: 'one thick stranded core with insulation, perhaps a screen, and lugs at its ends',
  fields: {
    ...strandedFields,
    outside_diameter: required('length', 'over everything', { example: '14.2 mm ±0.2 measured', minimum: 0, maximum: 0.1, aboveMinimum: true }),
  },
  conductor: (fields) => strandedConductor(fields, fields.outside_diameter),
  observables: [
    { name: 'voltage from end to end', sense: 'read', meaning: 'millivolts under load; more is a bad lug' },
    { name: 'hot lug', sense: 'feel', meaning: 'a bad crimp or a loose nut; use a thermometer while voltage is there' },
    { name: 'hard or browned jacket', sense: 'see', meaning: 'it has been too hot' },
  ],
});
