/** Thin single-core wire of the low-voltage side. */
import { fromHandbook, optional } from '../part/field.ts';
import { defineRunKind } from '../part/run-kind.ts';
import { strandedConductor, strandedFields, strandsDiameter } from './pieces/stranded.ts';

export const runWire = defineRunKind({
  kind: 'wire',
  title: 'Wire',
  meaning: 'a thin stranded core with insulation, crimped into connectors',
  fields: {
    ...strandedFields,
    outside_diameter: optional('length', 'over everything; used instead of the wall', { example: '2.4 mm measured', minimum: 0, maximum: 0.05, aboveMinimum: true }),
    wall: fromHandbook('length', 'wire.wall', 'thickness of the insulation', { example: '0.4 mm', minimum: 0, maximum: 0.005, aboveMinimum: true }),
  },
  conductor: (fields) => strandedConductor(fields, fields.outside_diameter ?? strandsDiameter(fields) + 2 * fields.wall),
  observables: [
    { name: 'voltage from end to end', sense: 'read', meaning: 'tenths of a volt under load at most; the full supply when it is broken' },
    { name: 'green strands', sense: 'see', meaning: 'water has crept under the insulation' },
    { name: 'smell of hot plastic', sense: 'smell', meaning: 'it carries more than it can' },
  ],
});
