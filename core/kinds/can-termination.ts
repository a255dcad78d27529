/**
 * A termination resistor at one end of the CAN bus. Each bus has two, one at each end.
 */
import { fromHandbook } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { canPorts } from './pieces/can.ts';

export const canTermination = defineKind({
  kind: 'can_termination',
  title: 'CAN termination',
  family: 'low_voltage',
  meaning: 'the resistor at one end of a CAN bus',
  fields: { resistance: fromHandbook('resistance', 'can.termination', 'between `can_h` and `can_l`', { example: '120 Ω label', minimum: 0, aboveMinimum: true }) },
  settings: {},
  ports: () => canPorts({ can: true }),
  wire: ({ fields }, wiring) => wiring.resistor('resistor', wiring.port('can_h'), wiring.port('can_l'), fields.resistance),
  roles: () => ({}),
  failures: [
    { code: 'open', meaning: 'not plugged in or broken', likelihood: 3, changes: () => [{ element: 'resistor', becomes: 'open' }] },
    { code: 'shorted', meaning: 'CAN high touches CAN low in the plug', likelihood: 1, changes: () => [{ element: 'resistor', becomes: 'shorted', resistance: 0.1 }] },
  ],
  observables: [{ name: 'resistance', sense: 'read', meaning: 'unplugged, between its pins' }],
});
