/** A measuring resistor in one pole. Its sense wires are at the pole's voltage unless electronics on it separate them. */
import { flag, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { canFields, canPorts, wireCan } from './pieces/can.ts';
import { controlConsumer, controlSupplyFields, controlSupplyPorts, staysAsleep, wireControlSupply } from './pieces/control-supply.ts';
import { seriesEnds } from './pieces/poles.ts';

export const shunt = defineKind({
  kind: 'shunt',
  title: 'Shunt',
  family: 'high_voltage',
  meaning: 'a measuring resistor in one pole, bare or with electronics on it',
  fields: {
    resistance: required('resistance', 'between its studs', { example: '0.1 mΩ label', minimum: 0, maximum: 1, aboveMinimum: true }),
    rating: optional('current', 'continuous current', { isLimit: true, example: '500 A label', minimum: 0, aboveMinimum: true }),
    electronics: flag('electronics on it measure and report; then it needs a 12 V supply and has no sense wires'),
    ...controlSupplyFields('shunt.supply_power'),
    ...canFields,
  },
  settings: {},
  ports: (fields) => [
    ...seriesEnds(2),
    ...(fields.electronics === true
      ? [...controlSupplyPorts(fields), ...canPorts(fields)]
      : [
          { name: 'sense_a', carries: 'high_voltage', meaning: 'sense wire at the end `in`; at the pole’s voltage', holds: 1 } as const,
          { name: 'sense_b', carries: 'high_voltage', meaning: 'sense wire at the end `out`; at the pole’s voltage', holds: 1 } as const,
        ]),
  ],
  wire: ({ fields }, wiring) => {
    const [a, b] = [wiring.port('in'), wiring.port('out')];
    wiring.resistor('shunt', a, b, fields.resistance);
    if (fields.electronics === true) {
      wireControlSupply(fields, wiring);
      wireCan(fields, wiring);
    } else {
      // taps on the same metal: 1 mΩ, common practice, no source
      wiring.resistor('tap_a', a, wiring.port('sense_a'), 1e-3);
      wiring.resistor('tap_b', b, wiring.port('sense_b'), 1e-3);
    }
  },
  roles: ({ name, fields }) => ({
    rated: [{ elements: ['shunt'], continuousCurrent: fields.rating }],
    ...(fields.electronics === true ? { consumers: [controlConsumer(name, fields)] } : {}),
  }),
  failures: [
    { code: 'joint_resistive', meaning: 'a loose bolt at the shunt', likelihood: 4, changes: () => [{ element: 'shunt', becomes: 'resistive', resistance: 0.01 }] },
    { code: 'broken', meaning: 'the measuring bar is broken', likelihood: 1, changes: () => [{ element: 'shunt', becomes: 'open' }] },
  ],
  failuresByFields: ({ fields }) => (fields.electronics === true
    ? [{ code: 'does_not_wake', meaning: 'its electronics do not wake although they are fed', likelihood: 3, changes: () => staysAsleep(fields) }]
    : [{ code: 'sense_open', meaning: 'a sense wire is off: the current reads as nothing', likelihood: 3, changes: () => [{ element: 'tap_a', becomes: 'open' }] }]),
  observables: [{ name: 'millivolts across it', sense: 'read', meaning: 'current times its resistance' }],
});
