/**
 * A plug-in relay: a coil between `coil_a` and `coil_b`, and one contact at `common`.
 * Only the coil's voltage moves it; a mode cannot set it.
 */
import { choice, fromHandbook, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import type { ElementChange } from '../part/failure.ts';
import type { Port } from '../part/kind.ts';
import type { SwitchingRole } from '../part/role.ts';

export const relay = defineKind({
  kind: 'relay',
  title: 'Relay',
  family: 'low_voltage',
  meaning: 'a coil that moves one low-voltage contact',
  fields: {
    rating: required('current', 'continuous current of the contact', { isLimit: true, example: '30 A label', minimum: 0, aboveMinimum: true }),
    contact: choice(['make', 'break', 'changeover'], 'what the contact does when the coil is fed; silent means make', {
      need: 'optional', fallback: 'make', explain: { make: '`common` to `no` closes', break: '`common` to `nc` opens', changeover: '`common` goes over from `nc` to `no`' },
    }),
    coil_voltage: required('voltage', 'nominal voltage of the coil', { example: '12 V label', minimum: 0, aboveMinimum: true, maximum: 60 }),
    coil_resistance: optional('resistance', 'measured between the coil pins; used instead of the coil power', { example: '90 Ω measured', minimum: 0, aboveMinimum: true }),
    coil_power: fromHandbook('power', 'relay.coil_power', 'power of the coil at its nominal voltage', { example: '1.6 W datasheet', minimum: 0, aboveMinimum: true }),
    pick_up: optional('voltage', 'voltage at which it pulls in; used instead of the share', { example: '7.2 V datasheet', minimum: 0, aboveMinimum: true }),
    pick_up_share: fromHandbook('ratio', 'relay.pick_up_share', 'share of the coil voltage at which it pulls in', { example: '60 %', minimum: 0, aboveMinimum: true, maximum: 1 }),
    drop_out: optional('voltage', 'voltage at which it lets go; used instead of the share', { example: '2.4 V datasheet', minimum: 0, aboveMinimum: true }),
    drop_out_share: fromHandbook('ratio', 'relay.drop_out_share', 'share of the coil voltage at which it lets go', { example: '20 %', minimum: 0, aboveMinimum: true, maximum: 1 }),
    contact_resistance: fromHandbook('resistance', 'relay.contact_resistance', 'resistance of the closed contact with its socket', { example: '5 mΩ', minimum: 0, aboveMinimum: true }),
    voltage_rating: optional('voltage', 'highest DC voltage that the contact breaks at its rating', { isLimit: true, example: '28 V datasheet', minimum: 0, aboveMinimum: true }),
    making_current: optional('current', 'highest current that it may close onto (lamps, capacitors)', { isLimit: true, example: '120 A datasheet', minimum: 0, aboveMinimum: true }),
    suppression: choice(['none', 'resistor', 'diode'], 'what is built in across the coil; silent means none', {
      need: 'optional', fallback: 'none', explain: { diode: 'conducts from `coil_b` to `coil_a`: then `coil_a` must be the positive side', resistor: 'works either way round' },
    }),
    suppression_resistance: fromHandbook('resistance', 'relay.suppression_resistance', 'the resistor across the coil, when suppression is resistor', { example: '680 Ω label', minimum: 0, aboveMinimum: true }),
    operate_time: fromHandbook('time', 'relay.operate_time', 'from feeding the coil to the contact moving', { example: '8 ms', minimum: 0 }),
    release_time: fromHandbook('time', 'relay.release_time', 'from taking the coil off to the contact moving back', { example: '5 ms', minimum: 0 }),
  },
  settings: {},
  ports: ({ contact }) => {
    const ports: Port[] = [
      { name: 'coil_a', carries: 'low_voltage', meaning: 'coil, positive side when it has a diode (86)', holds: 1 },
      { name: 'coil_b', carries: 'low_voltage', meaning: 'coil, other side (85)', holds: 1 },
      { name: 'common', carries: 'low_voltage', meaning: 'moving contact (30)', holds: 2 },
    ];
    if (contact !== 'break') ports.push({ name: 'no', carries: 'low_voltage', meaning: 'contact that closes when the coil is fed (87)', holds: 2 });
    if (contact === 'break' || contact === 'changeover') ports.push({ name: 'nc', carries: 'low_voltage', meaning: 'contact that is closed at rest (87a)', holds: 2 });
    return ports;
  },
  wire: ({ fields }, wiring) => {
    const [a, b] = [wiring.port('coil_a'), wiring.port('coil_b')];
    wiring.resistor('coil', a, b, coilResistance(fields));
    if (fields.suppression === 'resistor') wiring.resistor('suppression', a, b, fields.suppression_resistance);
    if (fields.suppression === 'diode') wiring.diode('suppression', b, a, 0.7, 0.05);
    const { pickUp, dropOut } = coilLimits(fields);
    for (const throwOf of throws(fields.contact)) {
      wiring.relay(throwOf.element, wiring.port('common'), wiring.port(throwOf.port), {
        coil: [a, b], pickUp, dropOut, contact: throwOf.does, resistance: fields.contact_resistance,
        operateTime: fields.operate_time, releaseTime: fields.release_time,
        // reversed, the diode takes the current and leaves the coil less than it needs
        polarised: fields.suppression === 'diode',
      });
    }
  },
  roles: ({ fields }) => ({
    switching: throws(fields.contact).map((throwOf): SwitchingRole => ({
      element: throwOf.element, a: 'common', b: throwOf.port, by: 'coil', rating: fields.rating, voltageRating: fields.voltage_rating,
      breakingCurrent: undefined, makingCurrent: fields.making_current,
      coil: { element: 'coil', positive: 'coil_a', negative: 'coil_b', ...coilLimits(fields) },
    })),
  }),
  failures: [
    { code: 'does_not_move', meaning: 'the coil or the armature has failed: fed or not, the contact stays at rest', likelihood: 3,
      changes: ({ fields }) => [{ element: 'coil', becomes: 'open' }, ...throws(fields.contact).map((t): ElementChange => ({ element: t.element, becomes: t.does === 'makes' ? 'stuck_open' : 'stuck_closed' }))] },
    { code: 'welded', meaning: 'the contact that carries the load has welded; the coil moves nothing', likelihood: 3,
      changes: ({ fields }) => throws(fields.contact).map((t, i): ElementChange => ({ element: t.element, becomes: i === 0 ? 'stuck_closed' : 'stuck_open' })) },
    { code: 'contact_burnt', meaning: 'the contact that carries the load does not conduct any more', likelihood: 4, changes: ({ fields }) => [{ element: throws(fields.contact)[0].element, becomes: 'stuck_open' }] },
    { code: 'contact_resistive', meaning: 'pitted or sooted contact', likelihood: 4, changes: ({ fields }) => [{ element: throws(fields.contact)[0].element, becomes: 'resistive', resistance: 1 }] },
  ],
  failuresByFields: ({ fields }) => fields.suppression === 'diode' || fields.suppression === 'resistor'
    ? [{ code: 'suppression_shorted', meaning: 'the suppressor across the coil has failed to a short: the coil’s fuse or driver goes', likelihood: 1, changes: () => [{ element: 'suppression', becomes: 'shorted', resistance: 0.05 }] }]
    : [],
  observables: [
    { name: 'click', sense: 'hear', meaning: 'the armature has moved; it does not prove that the contact conducts' },
    { name: 'voltage across the coil', sense: 'read', meaning: 'whether it is asked to pull in' },
    { name: 'warm body', sense: 'feel', meaning: 'the coil is fed' },
  ],
});

interface Throw { readonly element: string; readonly port: 'no' | 'nc'; readonly does: 'makes' | 'breaks' }

/** The contacts it has; the first is the one that carries the load. */
function throws(contact: 'make' | 'break' | 'changeover' | undefined): readonly [Throw, ...Throw[]] {
  const make: Throw = { element: 'contact_no', port: 'no', does: 'makes' };
  const rest: Throw = { element: 'contact_nc', port: 'nc', does: 'breaks' };
  return contact === 'break' ? [rest] : contact === 'changeover' ? [make, rest] : [make];
}

interface CoilFields {
  readonly coil_voltage: number; readonly coil_power: number; readonly coil_resistance: number | undefined;
  readonly pick_up: number | undefined; readonly pick_up_share: number; readonly drop_out: number | undefined; readonly drop_out_share: number;
}

function coilResistance(fields: CoilFields): number {
  return fields.coil_resistance ?? fields.coil_voltage ** 2 / fields.coil_power;
}

/** It cannot let go above where it pulls in: two doubtful numbers that cross are brought together. */
function coilLimits(fields: CoilFields): { pickUp: number; dropOut: number } {
  const pickUp = fields.pick_up ?? fields.pick_up_share * fields.coil_voltage;
  return { pickUp, dropOut: Math.min(pickUp, fields.drop_out ?? fields.drop_out_share * fields.coil_voltage) };
}
