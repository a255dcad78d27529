/** A disconnect that a small charge cuts on command (crash, gross overcurrent). It does not open by heat and fires once. */
import { flag, fromHandbook, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { seriesEnds } from './pieces/poles.ts';

export const pyroFuse = defineKind({
  kind: 'pyro_fuse',
  title: 'Pyrotechnic disconnect',
  family: 'high_voltage',
  meaning: 'a bar that a small charge cuts once, on command',
  fields: {
    rating: required('current', 'continuous current', { isLimit: true, example: '400 A label', minimum: 0, aboveMinimum: true }),
    voltage_rating: optional('voltage', 'highest direct voltage it may break', { isLimit: true, example: '500 V label', minimum: 0, maximum: 3000, aboveMinimum: true }),
    breaking_capacity: optional('current', 'highest current it can break at its rated voltage', { isLimit: true, example: '16 kA datasheet', minimum: 0, aboveMinimum: true }),
    time_constant_rating: optional('time', 'longest L/R of the circuit for which the voltage rating holds', { isLimit: true, example: '1 ms datasheet', minimum: 0, maximum: 1, aboveMinimum: true }),
    ambient: optional('temperature', 'air around it in its box', { example: '60 °C', minimum: 200, maximum: 500 }),
    resistance: fromHandbook('resistance', 'pyro_fuse.resistance', 'of the whole bar', { example: '0.08 mΩ measured', minimum: 0, maximum: 1, aboveMinimum: true }),
    trigger_resistance: fromHandbook('resistance', 'pyro_fuse.trigger_resistance', 'of the igniter; measure only with an igniter tester, a meter may fire it', { example: '2 Ω datasheet', minimum: 0, maximum: 1e3, aboveMinimum: true }),
  },
  settings: { fired: flag('it has fired: the bar is cut') },
  ports: () => [
    ...seriesEnds(2),
    { name: 'trigger_a', carries: 'signal', meaning: 'igniter', holds: 1 },
    { name: 'trigger_b', carries: 'signal', meaning: 'igniter', holds: 1 },
  ],
  wire: ({ fields, settings }, wiring) => {
    wiring.switch('link', wiring.port('in'), wiring.port('out'), settings.fired !== true, fields.resistance);
    wiring.resistor('igniter', wiring.port('trigger_a'), wiring.port('trigger_b'), fields.trigger_resistance);
  },
  roles: ({ fields }) => ({
    protection: [{
      element: 'link', a: 'in', b: 'out', style: 'pyrotechnic', rating: fields.rating, voltageRating: fields.voltage_rating,
      breakingCapacity: fields.breaking_capacity, minimumBreaking: undefined, timeConstantRating: fields.time_constant_rating,
      meltingEnergy: undefined, clearingEnergy: undefined, ambient: fields.ambient,
    }],
  }),
  failures: [
    { code: 'has_fired', meaning: 'it has fired, perhaps in the crash the car came from', likelihood: 6, changes: () => [{ element: 'link', becomes: 'open' }] },
    { code: 'igniter_open', meaning: 'the igniter or its wire is broken: it cannot fire', likelihood: 2, changes: () => [{ element: 'igniter', becomes: 'open' }] },
    { code: 'joint_resistive', meaning: 'a loose bolt at the bar', likelihood: 2, changes: () => [{ element: 'link', becomes: 'resistive', resistance: 0.01 }] },
  ],
  observables: [
    { name: 'raised piston or mark', sense: 'see', meaning: 'it has fired' },
    { name: 'voltage across it', sense: 'read', meaning: 'millivolts when whole' },
  ],
});
