/**
 * A lamp, LED or buzzer that tells the driver something. It runs whenever it is fed.
 */
import { choice, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { supplyFields, supplyPorts } from './pieces/consumer.ts';

export const indicator = defineKind({
  kind: 'indicator',
  title: 'Indicator',
  family: 'low_voltage',
  meaning: 'a lamp, LED or buzzer that tells the driver something',
  fields: {
    type: choice(['lamp', 'led', 'buzzer'], 'what it is', { explain: { led: 'with its series resistor; works one way round only', buzzer: 'electronic; works one way round only' } }),
    current: required('current', 'current it takes at its rated voltage', { example: '20 mA label', minimum: 0, aboveMinimum: true }),
    rated_voltage: supplyFields.rated_voltage,
    minimum_voltage: supplyFields.minimum_voltage,
    maximum_voltage: supplyFields.maximum_voltage,
  },
  settings: {},
  ports: () => supplyPorts,
  wire: ({ fields }, wiring) => {
    const [supply, ground] = [wiring.port('supply'), wiring.port('ground')];
    if (fields.type === 'lamp') {
      wiring.resistor('taking', supply, ground, fields.rated_voltage / fields.current);
      return;
    }
    const drop = Math.min(fields.type === 'led' ? 2 : 1.5, 0.9 * fields.rated_voltage);
    wiring.diode('taking', supply, ground, drop, (fields.rated_voltage - drop) / fields.current);
  },
  roles: ({ name, fields }) => ({
    indicator: { element: 'taking' },
    consumers: [{ name, positive: 'supply', negative: 'ground', minimumVoltage: fields.minimum_voltage, maximumVoltage: fields.maximum_voltage, element: 'taking' }],
  }),
  failures: [
    { code: 'burnt_out', meaning: 'filament or LED has gone open', likelihood: 5, changes: () => [{ element: 'taking', becomes: 'open' }] },
    { code: 'shorted_inside', meaning: 'shorted in its socket', likelihood: 1, changes: () => [{ element: 'taking', becomes: 'shorted', resistance: 0.05 }] },
  ],
  observables: [
    { name: 'lights or sounds', sense: 'see', meaning: 'it has voltage the right way round' },
  ],
});
