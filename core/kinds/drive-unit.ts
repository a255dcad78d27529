/** Inverter, motor and gear in one housing, as it comes out of a car. */
import { defineKind } from '../part/kind.ts';
import { tractionFailures, tractionFailuresByFields, tractionFields, tractionPorts, tractionRoles, tractionSettings, wireTraction } from './pieces/traction.ts';

export const driveUnit = defineKind({
  kind: 'drive_unit',
  title: 'Drive unit',
  family: 'high_voltage',
  meaning: 'inverter, motor and gear in one housing',
  fields: tractionFields('drive_unit.insulation_resistance'),
  settings: tractionSettings,
  ports: tractionPorts,
  wire: ({ fields, settings }, wiring) => wireTraction(fields, settings, wiring),
  roles: (part) => tractionRoles(part, true),
  failures: [
    ...tractionFailures,
    { code: 'winding_leak', meaning: 'the motor’s winding leaks to the housing: coolant or moisture in the motor', likelihood: 3, changes: () => [{ add: 'fault_winding_pos', a: 'pos', b: 'chassis', resistance: 40e3 }, { add: 'fault_winding_neg', a: 'neg', b: 'chassis', resistance: 40e3 }] },
  ],
  failuresByFields: tractionFailuresByFields,
  observables: [
    { name: 'voltage between its poles', sense: 'read', meaning: 'what is left on its capacitor; falls after it is cut off' },
    { name: 'supply current', sense: 'read', meaning: 'whether its electronics are awake' },
    { name: 'whistle', sense: 'hear', meaning: 'it is switching' },
    { name: 'twitch of the wheels', sense: 'see', meaning: 'it makes torque' },
  ],
});
