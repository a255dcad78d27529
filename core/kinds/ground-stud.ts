/**
 * A bolt that joins wires to the bodywork: the return path of most of the low-voltage side.
 */
import { fromHandbook } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';

export const groundStud = defineKind({
  kind: 'ground_stud',
  title: 'Ground stud',
  family: 'low_voltage',
  meaning: 'a bolt that joins wires to the bodywork',
  fields: {
    joint_resistance: fromHandbook('resistance', 'ground_stud.joint_resistance', 'from the lugs on the stud into the bodywork', { example: '0.3 mΩ measured', minimum: 0, aboveMinimum: true }),
  },
  settings: {},
  ports: () => [{ name: 'stud', carries: 'low_voltage', meaning: 'the bolt; lugs are stacked on it', holds: 6, pole: 'negative' }],
  wire: ({ fields }, wiring) => wiring.resistor('joint', wiring.port('stud'), wiring.chassis, fields.joint_resistance),
  roles: () => ({}),
  failures: [
    { code: 'painted_or_rusty', meaning: 'paint, rust or a loose nut under the lugs', likelihood: 6, changes: () => [{ element: 'joint', becomes: 'resistive', resistance: 0.5 }] },
    { code: 'off', meaning: 'the nut was never put on, or the bolt has torn off', likelihood: 1, changes: () => [{ element: 'joint', becomes: 'open' }] },
  ],
  observables: [
    { name: 'bare metal under the lug', sense: 'see', meaning: 'paint or rust there is the usual fault' },
    { name: 'voltage to bare bodywork', sense: 'read', meaning: 'under load, from the lug to clean metal: millivolts when good' },
  ],
});
