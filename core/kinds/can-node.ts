/**
 * A unit on the CAN bus of which only supply, ground and bus matter: display, gateway, sensor, bought-in unit.
 */
import { flag } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { canFields, canPorts } from './pieces/can.ts';
import { canTransceiverFields, wireCanTransceiver } from './pieces/can-transceiver.ts';
import { consumerFailures, consumerFields, consumerRole, currentNow, isRunning, startingSetting, supplyPorts, wireConsumer } from './pieces/consumer.ts';

export const canNode = defineKind({
  kind: 'can_node',
  title: 'CAN node',
  family: 'low_voltage',
  meaning: 'a unit of which only supply and CAN bus matter here',
  fields: { ...consumerFields, can_termination: canFields.can_termination, ...canTransceiverFields },
  settings: { on: flag('it is awake; unset: awake if it runs whenever it is fed'), starting: startingSetting },
  ports: () => [...supplyPorts, ...canPorts({ can: true })],
  wire: ({ fields, settings }, wiring) => {
    const awake = wireConsumer(fields, { running: isRunning(fields, settings.on), current: currentNow(fields, settings.starting), draw: 'current' }, wiring);
    wireCanTransceiver(fields, awake, fields.minimum_voltage, wiring);
  },
  roles: ({ name, fields }) => ({ consumers: [consumerRole(name, fields)] }),
  failures: [
    ...consumerFailures('dead: takes nothing', 'shorted inside'),
    { code: 'bus_shorted', meaning: 'its bus driver shorts CAN high to CAN low: nobody on the bus is heard', likelihood: 1, changes: () => [{ add: 'bus_short', a: 'can_h', b: 'can_l', resistance: 1 }] },
  ],
  observables: [
    { name: 'resistance of the bus', sense: 'read', meaning: 'between `can_h` and `can_l`, everything off: 60 Ω with both terminations, 120 Ω with one' },
    { name: 'voltage of each bus wire', sense: 'read', meaning: 'about 2.5 V to ground on a quiet bus' },
  ],
});
