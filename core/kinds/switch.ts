/**
 * A switch worked by hand, foot, door or crash: independent poles, or one wiper with named positions (a key switch).
 */
import { choice, count, flag, fromHandbook, list, map, optional, text } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import type { Port } from '../part/kind.ts';
import type { SwitchingRole } from '../part/role.ts';

export const switchKind = defineKind({
  kind: 'switch',
  title: 'Switch',
  family: 'low_voltage',
  meaning: 'a switch that a hand, a foot, a door or a crash works: poles `a1`-`b1`, `a2`-`b2` …, or `common` and named outputs',
  fields: {
    poles: count('how many separate contacts move together; silent means one; not used when `positions` is there', { need: 'optional', minimum: 1, maximum: 8, example: '2' }),
    rest: choice(['open', 'closed'], 'contacts when nobody touches it; silent means open', { need: 'optional', fallback: 'open', explain: { closed: 'an emergency stop or a crash switch: working it opens the circuit' } }),
    worked_by: choice(['hand', 'foot', 'door', 'crash', 'other'], 'what works it: only one that a hand works is a place for somebody who is to switch off; silent means hand', { need: 'optional', fallback: 'hand', explain: { door: 'a door, a lid or a flap', crash: 'a crash or inertia switch', other: 'pressure, vacuum, heat, weight on a seat' } }),
    action: choice(['maintained', 'momentary'], 'whether it stays where it is put; silent means maintained', { need: 'optional', fallback: 'maintained' }),
    positions: map(list(text('output joined to `common`', { example: 'ignition' }), 'outputs joined to `common` in this position'),
      'positions of a key or selector switch with the outputs that each joins to `common`; the first is the one at rest: `{ off: [], on: [ignition], start: [ignition, start] }`'),
    rating: optional('current', 'continuous current of a contact', { isLimit: true, example: '10 A label', minimum: 0, aboveMinimum: true }),
    voltage_rating: optional('voltage', 'highest DC voltage that a contact breaks at its rating', { isLimit: true, example: '28 V label', minimum: 0, aboveMinimum: true }),
    contact_resistance: fromHandbook('resistance', 'switch.contact_resistance', 'resistance of a closed contact', { example: '10 mΩ', minimum: 0, aboveMinimum: true }),
  },
  settings: {
    closed: flag('its contacts are closed; unset means as it is at rest'),
    position: text('name of the position it is in; unset means the first', { example: 'on' }),
  },
  worked: ['closed', 'position'],
  atRest: ({ rest, positions }) => (positions ? { position: Object.keys(positions)[0] } : { closed: rest === 'closed' }),
  settingWords: ({ positions }) => ({ position: Object.keys(positions ?? {}) }),
  ports: ({ poles, positions }) => positions
    ? [
        { name: 'common', carries: 'low_voltage', meaning: 'wiper: feed', holds: 2 },
        ...outputsOf(positions).map((name): Port => ({ name, carries: 'low_voltage', meaning: `joined to \`common\` in: ${positionsWith(positions, name).join(', ')}`, holds: 2 })),
      ]
    : contacts(poles).flatMap((n): Port[] => [
        { name: `a${n}`, carries: 'low_voltage', meaning: `contact ${n}, one side`, holds: 2 },
        { name: `b${n}`, carries: 'low_voltage', meaning: `contact ${n}, other side`, holds: 2 },
      ]),
  wire: ({ fields, settings }, wiring) => {
    if (fields.positions) {
      const position = settings.position ?? Object.keys(fields.positions)[0];
      const joined = (position === undefined ? undefined : fields.positions[position]) ?? [];
      for (const output of outputsOf(fields.positions)) wiring.switch(`to_${output}`, wiring.port('common'), wiring.port(output), joined.includes(output), fields.contact_resistance);
      return;
    }
    const closed = settings.closed ?? fields.rest === 'closed';
    for (const n of contacts(fields.poles)) wiring.switch(`contact_${n}`, wiring.port(`a${n}`), wiring.port(`b${n}`), closed, fields.contact_resistance);
  },
  roles: ({ fields }) => ({
    switching: elementsOf(fields).map(({ element, a, b }): SwitchingRole => ({
      element, a, b, by: 'hand', workedBy: fields.worked_by ?? 'hand', rating: fields.rating, voltageRating: fields.voltage_rating, breakingCurrent: undefined, makingCurrent: undefined, coil: undefined,
    })),
  }),
  failures: [
    { code: 'does_not_make', meaning: 'worn or dirty: no contact closes', likelihood: 4, changes: ({ fields }) => elementsOf(fields).map(({ element }) => ({ element, becomes: 'stuck_open' })) },
    { code: 'resistive', meaning: 'dirty or burnt contacts', likelihood: 4, changes: ({ fields }) => elementsOf(fields).map(({ element }) => ({ element, becomes: 'resistive', resistance: 2 })) },
  ],
  failuresByFields: ({ fields }) => elementsOf(fields).map(({ element, a, b }) => ({
    code: `${element}_stuck_closed`, meaning: `the contact from ${a} to ${b} does not open any more`, likelihood: 1, changes: () => [{ element, becomes: 'stuck_closed' as const }],
  })),
  observables: [
    { name: 'position', sense: 'see', meaning: 'where its lever, key or button stands' },
    { name: 'snap', sense: 'feel', meaning: 'the mechanism moves; it does not prove that the contact conducts' },
  ],
});

type Positions = Readonly<Record<string, readonly string[]>>;

const contacts = (poles: number | undefined): number[] => Array.from({ length: poles ?? 1 }, (_, i) => i + 1);
const outputsOf = (positions: Positions): string[] => [...new Set(Object.values(positions).flat())].filter((name) => name !== 'common');
const positionsWith = (positions: Positions, output: string): string[] => Object.keys(positions).filter((name) => positions[name]?.includes(output));

function elementsOf({ positions, poles }: { readonly positions: Positions | undefined; readonly poles: number | undefined }): { element: string; a: string; b: string }[] {
  return positions
    ? outputsOf(positions).map((b) => ({ element: `to_${b}`, a: 'common', b }))
    : contacts(poles).map((n) => ({ element: `contact_${n}`, a: `a${n}`, b: `b${n}` }));
}
