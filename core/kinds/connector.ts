/**
 * A plug and its socket: every pin joins its own `a` side to its own `b` side and touches no other pin.
 */
import { count, flag, fromHandbook, list, optional, text } from '../part/field.ts';
import type { ElementChange, Failure } from '../part/failure.ts';
import { defineKind } from '../part/kind.ts';
import type { Port } from '../part/kind.ts';

export const connector = defineKind({
  kind: 'connector',
  title: 'Connector',
  family: 'low_voltage',
  meaning: 'a plug and socket with one or more pins: pin 1 joins `a1` to `b1`; a named pin joins `a_name` to `b_name`',
  fields: {
    pins: count('how many pins it has', { minimum: 1, maximum: 160, example: '12' }),
    names: list(text('name of a pin', { example: 'wake' }), 'names of the pins, in order; pins beyond the list keep their number'),
    pin_rating: optional('current', 'continuous current of one pin with the wire in use', { isLimit: true, example: '13 A datasheet', minimum: 0, aboveMinimum: true }),
    voltage_rating: optional('voltage', 'highest voltage between pins', { isLimit: true, example: '60 V datasheet', minimum: 0, aboveMinimum: true }),
    pin_resistance: fromHandbook('resistance', 'connector.pin_resistance', 'resistance of one mated pin with its crimps', { example: '4 mΩ', minimum: 0, aboveMinimum: true }),
    signal_pins: list(text('name or number of a pin', { example: 'wake' }), 'pins that carry signals: CAN, sensors, the interlock loop; the others carry low-voltage power'),
    is_sealed: flag('it keeps water out'),
  },
  settings: { unplugged: flag('plug and socket are apart') },
  ports: (fields) => pinsOf(fields).flatMap(({ pin, a, b }): Port[] => {
    const carries = fields.signal_pins?.includes(pin) === true ? 'signal' : 'low_voltage';
    return [
      { name: a, carries, meaning: `pin ${pin}, one half`, holds: 1 },
      { name: b, carries, meaning: `pin ${pin}, other half`, holds: 1 },
    ];
  }),
  wire: ({ fields, settings }, wiring) => {
    for (const { element, a, b } of pinsOf(fields)) wiring.switch(element, wiring.port(a), wiring.port(b), settings.unplugged !== true, fields.pin_resistance);
  },
  roles: ({ fields }) => ({ pins: { rating: fields.pin_rating, pins: pinsOf(fields).filter(({ pin }) => fields.signal_pins?.includes(pin) !== true).map(({ pin, element }) => ({ pin, element })) } }),
  failures: [
    { code: 'apart', meaning: 'not latched: plug and socket have come apart', likelihood: 3, changes: ({ fields }) => pinsOf(fields).map(({ element }): ElementChange => ({ element, becomes: 'open' })) },
    { code: 'corroded', meaning: 'water has been in it: every pin is resistive', likelihood: 3, changes: ({ fields }) => pinsOf(fields).map(({ element }): ElementChange => ({ element, becomes: 'resistive', resistance: 2 })) },
  ],
  failuresByFields: ({ fields }) => {
    const pins = pinsOf(fields);
    return pins.flatMap(({ pin, element, a }, i): Failure<unknown>[] => {
      const next = pins[i + 1];
      return [
        { code: `pin_${pin}_open`, meaning: `pin ${pin} has been pushed back or was never crimped`, likelihood: 2, changes: () => [{ element, becomes: 'open' }] },
        { code: `pin_${pin}_resistive`, meaning: `pin ${pin} is spread or half crimped`, likelihood: 2, changes: () => [{ element, becomes: 'resistive', resistance: 1 }] },
        ...(next && fields.is_sealed !== true ? [{ code: `pin_${pin}_leaks_to_${next.pin}`, meaning: `water or dirt bridges pins ${pin} and ${next.pin}`, likelihood: 0.5, changes: () => [{ add: `leak_${pin}`, a, b: next.a, resistance: 2000 }] } satisfies Failure<unknown>] : []),
      ];
    });
  },
  observables: [
    { name: 'latch', sense: 'see', meaning: 'locked or not; a pull shows it' },
    { name: 'green or white crust', sense: 'see', meaning: 'water has been inside' },
    { name: 'voltage across a pin', sense: 'read', meaning: 'from `a` to `b` under load: millivolts when good' },
  ],
});

/** Pins in order. A name given twice counts once. */
function pinsOf({ pins, names }: { readonly pins?: number; readonly names?: readonly string[] | undefined }): { pin: string; element: string; a: string; b: string }[] {
  const all = Array.from({ length: Math.max(pins ?? 0, names?.length ?? 0) }, (_, i) => {
    const name = names?.[i];
    return name === undefined
      ? { pin: `${i + 1}`, element: `pin_${i + 1}`, a: `a${i + 1}`, b: `b${i + 1}` }
      : { pin: name, element: `pin_${name}`, a: `a_${name}`, b: `b_${name}` };
  });
  return all.filter((pin, i) => all.findIndex((other) => other.a === pin.a) === i);
}
