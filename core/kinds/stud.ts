/** A single insulated stud: several lugs under one nut. */
import { choice, count } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { insulationFields, insulationRoles } from './pieces/insulation.ts';

export const stud = defineKind({
  kind: 'stud',
  title: 'Insulated stud',
  family: 'high_voltage',
  meaning: 'one insulated bolt where the lugs of several runs meet',
  fields: {
    carries: choice(['high_voltage', 'low_voltage'], 'what is on it; silent means high voltage', { need: 'optional' }),
    pole: choice(['positive', 'negative'], 'which pole it belongs to, when it belongs to one', { need: 'optional' }),
    lugs: count('lugs that may be stacked on it; silent means 3', { need: 'optional', minimum: 1, maximum: 6, example: '3' }),
    ...insulationFields('junction.insulation_resistance'),
  },
  settings: {},
  ports: (fields) => [{ name: 'stud', carries: fields.carries ?? 'high_voltage', meaning: 'the bolt', holds: fields.lugs ?? 3, ...(fields.pole === undefined ? {} : { pole: fields.pole }) }],
  wire: ({ fields }, wiring) => {
    wiring.resistor('leak', wiring.port('stud'), wiring.chassis, fields.insulation_resistance);
  },
  roles: ({ fields }) => (fields.carries === 'low_voltage' ? {} : { insulation: insulationRoles(fields, false, ['stud']) }),
  failures: [{ code: 'leak', meaning: 'dirt or moisture on the insulator', likelihood: 1, changes: () => [{ add: 'fault', a: 'stud', b: 'chassis', resistance: 50e3 }] }],
  observables: [{ name: 'browned insulator', sense: 'see', meaning: 'a joint has been hot' }],
});
