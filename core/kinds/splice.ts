/**
 * One point that joins several wires: a crimped or welded splice, a terminal strip, a busbar of a fuse box.
 */
import { count, flag, fromHandbook } from '../part/field.ts';
import type { ElementChange, Failure } from '../part/failure.ts';
import { defineKind } from '../part/kind.ts';
import type { Port } from '../part/kind.ts';

export const splice = defineKind({
  kind: 'splice',
  title: 'Splice',
  family: 'low_voltage',
  meaning: 'one point that joins several wires, one at each of `w1`, `w2` …',
  fields: {
    wires: count('how many wires it joins', { minimum: 2, maximum: 60, example: '4' }),
    wire_resistance: fromHandbook('resistance', 'splice.wire_resistance', 'resistance from each wire to the common point', { example: '0.2 mΩ', minimum: 0, aboveMinimum: true }),
    is_signal: flag('it joins signal wires: CAN, sensors, the interlock loop'),
  },
  settings: {},
  ports: ({ wires, is_signal }) => numbers(wires).map((n): Port => ({ name: `w${n}`, carries: is_signal === true ? 'signal' : 'low_voltage', meaning: `wire ${n}`, holds: 1 })),
  wire: ({ fields }, wiring) => {
    const common = wiring.inside('common', true);
    for (const n of numbers(fields.wires)) wiring.resistor(`wire_${n}`, wiring.port(`w${n}`), common, fields.wire_resistance);
  },
  roles: () => ({}),
  failures: [
    { code: 'corroded', meaning: 'water has wicked in: every wire is resistive', likelihood: 3, changes: ({ fields }) => numbers(fields.wires).map((n): ElementChange => ({ element: `wire_${n}`, becomes: 'resistive', resistance: 0.5 })) },
    { code: 'touches_body', meaning: 'its cover has chafed through on the body', likelihood: 1, changes: () => [{ add: 'chafed', a: 'common', b: 'chassis', resistance: 0.02 }] },
  ],
  failuresByFields: ({ fields }) => numbers(fields.wires).map((n): Failure<unknown> => ({
    code: `wire_${n}_open`, meaning: `wire ${n} has pulled out`, likelihood: 2, changes: () => [{ element: `wire_${n}`, becomes: 'open' }],
  })),
  observables: [{ name: 'green or hard wire', sense: 'see', meaning: 'corrosion has crept under the insulation' }],
});

const numbers = (wires: number | undefined): number[] => Array.from({ length: wires ?? 0 }, (_, i) => i + 1);
