/**
 * A low-voltage consumer that is none of the others: heater, screen, lamps, wiper, charger socket.
 */
import { choice, flag, optional } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { consumerFailures, consumerFields, consumerRole, currentNow, isRunning, startingSetting, supplyPorts, wireConsumer } from './pieces/consumer.ts';

export const load = defineKind({
  kind: 'load',
  title: 'Low-voltage load',
  family: 'low_voltage',
  meaning: 'anything that takes low-voltage current and has no kind of its own',
  fields: {
    ...consumerFields,
    draws: choice(['resistance', 'current', 'power'], 'how its current follows the voltage; silent means resistance', {
      need: 'optional', fallback: 'resistance', explain: { resistance: 'more volts, more amperes: heater, lamp, coil', current: 'always the same amperes: linear regulator', power: 'fewer volts, more amperes: switching regulator, screen, computer' },
    }),
    input_capacitance: optional('capacitance', 'capacitor straight across its supply, when it has one', { example: '470 µF', minimum: 0, aboveMinimum: true }),
  },
  settings: { on: flag('it runs; unset: it runs if it runs whenever it is fed'), starting: startingSetting },
  ports: () => supplyPorts,
  wire: ({ fields, settings }, wiring) => {
    wireConsumer(fields, { running: isRunning(fields, settings.on), current: currentNow(fields, settings.starting), draw: fields.draws ?? 'resistance' }, wiring);
    if (fields.input_capacitance !== undefined) wiring.capacitor('input_capacitor', wiring.port('supply'), wiring.port('ground'), fields.input_capacitance);
  },
  roles: ({ name, fields }) => ({ consumers: [consumerRole(name, fields)] }),
  failures: consumerFailures('burnt out or broken inside: takes nothing', 'shorted inside'),
  observables: [
    { name: 'runs', sense: 'see', meaning: 'it does what it is for' },
    { name: 'voltage at its terminals', sense: 'read', meaning: 'between `supply` and `ground`, under load' },
  ],
});
