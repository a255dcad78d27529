/** An inverter on its own: makes the motor's three phases from the high voltage. */
import { defineKind } from '../part/kind.ts';
import { tractionFailures, tractionFailuresByFields, tractionFields, tractionPorts, tractionRoles, tractionSettings, wireTraction } from './pieces/traction.ts';

export const inverter = defineKind({
  kind: 'inverter',
  title: 'Inverter',
  family: 'high_voltage',
  meaning: 'turns the high voltage into the motor’s phases; the motor’s phase cables belong to it',
  fields: tractionFields('inverter.insulation_resistance'),
  settings: tractionSettings,
  ports: tractionPorts,
  wire: ({ fields, settings }, wiring) => wireTraction(fields, settings, wiring),
  roles: (part) => tractionRoles(part, true),
  failures: tractionFailures,
  failuresByFields: tractionFailuresByFields,
  observables: [
    { name: 'voltage between its poles', sense: 'read', meaning: 'what is left on its capacitor; falls after it is cut off' },
    { name: 'supply current', sense: 'read', meaning: 'whether its electronics are awake' },
    { name: 'whistle', sense: 'hear', meaning: 'it is switching' },
  ],
});
