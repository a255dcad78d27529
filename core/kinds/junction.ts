/** One bar with several studs: everything on it is one point. */
import { choice, count, fromHandbook, optional } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import type { Port } from '../part/kind.ts';
import { insulationFields, insulationRoles } from './pieces/insulation.ts';

export const junction = defineKind({
  kind: 'junction',
  title: 'Junction bar',
  family: 'high_voltage',
  meaning: 'an insulated bar with studs where runs of one pole meet',
  fields: {
    studs: count('studs on the bar', { minimum: 1, maximum: 24, example: '4' }),
    carries: choice(['high_voltage', 'low_voltage'], 'what is on it; silent means high voltage', { need: 'optional' }),
    pole: choice(['positive', 'negative'], 'which pole it belongs to, when it belongs to one', { need: 'optional' }),
    lugs: count('lugs that may be stacked on each stud; silent means 2', { need: 'optional', minimum: 1, maximum: 4, example: '2' }),
    rating: optional('current', 'continuous current of the bar', { isLimit: true, example: '400 A label', minimum: 0, aboveMinimum: true }),
    voltage_rating: optional('voltage', 'voltage its insulators are made for', { isLimit: true, example: '1000 V label', minimum: 0, maximum: 3000, aboveMinimum: true }),
    bar_resistance: fromHandbook('resistance', 'junction.bar_resistance', 'from one stud to the next', { example: '20 µΩ', minimum: 0, maximum: 1, aboveMinimum: true }),
    ...insulationFields('junction.insulation_resistance'),
  },
  settings: {},
  ports: (fields) => Array.from({ length: fields.studs ?? 0 }, (_, index): Port => ({
    name: `stud_${index + 1}`, carries: fields.carries ?? 'high_voltage', meaning: `stud ${index + 1} of the bar`, holds: fields.lugs ?? 2,
    ...(fields.pole === undefined ? {} : { pole: fields.pole }),
  })),
  wire: ({ fields }, wiring) => {
    for (let stud = 1; stud < fields.studs; stud++) wiring.resistor(`bar_${stud}`, wiring.port(`stud_${stud}`), wiring.port(`stud_${stud + 1}`), fields.bar_resistance);
    wiring.resistor('leak', wiring.port('stud_1'), wiring.chassis, fields.insulation_resistance);
  },
  roles: ({ fields }) => (fields.carries === 'low_voltage' ? {} : {
    rated: [{ elements: Array.from({ length: Math.max(0, fields.studs - 1) }, (_, index) => `bar_${index + 1}`), continuousCurrent: fields.rating, voltage: fields.voltage_rating }],
    insulation: insulationRoles(fields, false, ['stud_1']),
  }),
  failures: [
    { code: 'leak', meaning: 'dirt or moisture on the insulators', likelihood: 2, changes: () => [{ add: 'fault', a: 'stud_1', b: 'chassis', resistance: 50e3 }] },
  ],
  failuresByFields: ({ fields }) => Array.from({ length: Math.max(0, fields.studs - 1) }, (_, index) => ({
    code: `bar_loose_${index + 1}`, meaning: `a loose joint between stud ${index + 1} and stud ${index + 2}`, likelihood: 1,
    changes: () => [{ element: `bar_${index + 1}`, becomes: 'resistive', resistance: 0.01 } as const],
  })),
  observables: [
    { name: 'voltage between two studs', sense: 'read', meaning: 'nothing but millivolts; more is a loose stud' },
    { name: 'browned insulator', sense: 'see', meaning: 'a joint has been hot' },
  ],
});
