/**
 * A diode in a wire: lets two switches wake one controller without feeding each other.
 */
import { fromHandbook, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';

export const diode = defineKind({
  kind: 'diode',
  title: 'Diode',
  family: 'low_voltage',
  meaning: 'a diode in a low-voltage wire: current only from `anode` to `cathode`',
  fields: {
    rating: required('current', 'continuous current', { isLimit: true, example: '3 A label', minimum: 0, aboveMinimum: true }),
    drop: fromHandbook('voltage', 'diode.drop', 'voltage it keeps for itself as soon as it conducts', { example: '0.7 V datasheet', minimum: 0, maximum: 3 }),
    resistance: fromHandbook('resistance', 'diode.resistance', 'volts more per ampere once it conducts', { example: '30 mΩ', minimum: 0, aboveMinimum: true }),
    reverse_voltage: optional('voltage', 'highest voltage that it blocks', { example: '400 V label', minimum: 0, aboveMinimum: true }),
  },
  settings: {},
  ports: () => [
    { name: 'anode', carries: 'low_voltage', meaning: 'where current enters', holds: 1 },
    { name: 'cathode', carries: 'low_voltage', meaning: 'where it leaves; the ring on the body', holds: 1 },
  ],
  wire: ({ fields }, wiring) => wiring.diode('junction', wiring.port('anode'), wiring.port('cathode'), fields.drop, fields.resistance),
  roles: () => ({}),
  failures: [
    { code: 'open', meaning: 'burnt through: nothing passes', likelihood: 1, changes: () => [{ element: 'junction', becomes: 'open' }] },
    { code: 'shorted', meaning: 'passes both ways: its two sources feed each other', likelihood: 2, changes: () => [{ element: 'junction', becomes: 'shorted', resistance: 0.01 }] },
  ],
  observables: [{ name: 'diode test of a meter', sense: 'read', meaning: 'about half a volt one way, nothing the other' }],
});
