/**
 * The socket in the body that the charging cable goes into. While `plugged` the station stands behind it: its rms voltage
 * between lines and neutral (see the charger for how alternating current stands in the network), neutral joined to the
 * protective conductor as in an earthed supply, its pilot (12 V through 1 kΩ, IEC 61851-1 Annex A) and the resistor in
 * the cable's plug that codes its current.
 */
import { choice, count, flag, fromHandbook, optional } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import type { Port } from '../part/kind.ts';
import { insulationFields, insulationRoles, wireInsulation } from './pieces/insulation.ts';

export const chargeInlet = defineKind({
  kind: 'charge_inlet',
  title: 'Charge inlet',
  family: 'high_voltage',
  meaning: 'the socket for the charging cable',
  fields: {
    type: choice(['type_1', 'type_2'], 'shape of the plug', { explain: { type_1: 'five pins, one phase (SAE J1772, IEC 62196-2 type 1)', type_2: 'seven pins, one or three phases (IEC 62196-2 type 2)' } }),
    phases: count('lines that are wired; silent means 1', { need: 'optional', minimum: 1, maximum: 3, example: '1' }),
    rating: optional('current', 'continuous current per line', { isLimit: true, example: '32 A label', minimum: 0, aboveMinimum: true }),
    contact_resistance: fromHandbook('resistance', 'charge_inlet.contact_resistance', 'of one mated pin', { example: '0.5 mΩ', minimum: 0, maximum: 1, aboveMinimum: true }),
    lock: flag('a motor locks the plug'),
    lock_resistance: fromHandbook('resistance', 'charge_inlet.lock_resistance', 'of the lock motor standing still; used only with a lock', { example: '8 Ω measured', minimum: 0, maximum: 1e4, aboveMinimum: true }),
    ...insulationFields('charge_inlet.insulation_resistance'),
  },
  settings: {
    plugged: flag('a cable from a live station is in'),
    station_voltage: optional('voltage', 'rms voltage from line to neutral; unset: 230 V', { example: '230 V', minimum: 0, maximum: 500, aboveMinimum: true }),
    cable_rating: optional('current', 'current that the cable’s plug is coded for; unset: 32 A', { example: '32 A', minimum: 0, aboveMinimum: true }),
  },
  worked: ['plugged'],
  atRest: () => ({ plugged: false }),
  ports: (fields) => [
    ...phaseNames(fields.phases).map((name, index): Port => ({ name, carries: 'high_voltage', meaning: `alternating current, line ${index + 1}`, holds: 1 })),
    { name: 'n', carries: 'high_voltage', meaning: 'alternating current, neutral or second line', holds: 1 },
    { name: 'pe', carries: 'low_voltage', meaning: 'protective conductor; to the chassis and to the charger', holds: 3 },
    { name: 'pilot', carries: 'signal', meaning: 'control pilot', holds: 1 },
    { name: 'proximity', carries: 'signal', meaning: 'proximity contact', holds: 2 },
    ...(fields.lock === true
      ? [
          { name: 'lock_a', carries: 'low_voltage', meaning: 'lock motor', holds: 1 } as const,
          { name: 'lock_b', carries: 'low_voltage', meaning: 'lock motor', holds: 1 } as const,
        ]
      : []),
  ],
  wire: ({ fields, settings }, wiring) => {
    const [n, pe, pilot, proximity] = [wiring.port('n'), wiring.port('pe'), wiring.port('pilot'), wiring.port('proximity')];
    const isPlugged = settings.plugged === true;
    const lines = phaseNames(fields.phases);
    wireInsulation(fields, wiring, [...lines, 'n']);
    // each switch stands behind its source, so that an unplugged station hangs on the car's own pins and nowhere else
    for (const line of lines) {
      const behind = wiring.inside(`station_${line}`);
      wiring.source(`station_${line}`, wiring.port(line), behind, settings.station_voltage ?? STATION_VOLTAGE, STATION_RESISTANCE);
      wiring.switch(`pin_${line}`, behind, n, isPlugged, 2 * fields.contact_resistance);
    }
    wiring.switch('station_earth', n, pe, isPlugged, STATION_RESISTANCE + 2 * fields.contact_resistance);
    const oscillator = wiring.inside('station_pilot');
    wiring.source('station_pilot', pilot, oscillator, 12, PILOT_SOURCE);
    wiring.switch('pin_pilot', oscillator, pe, isPlugged, fields.contact_resistance);
    wiring.switch('cable_code', proximity, pe, isPlugged, cableCode(fields.type, settings.cable_rating ?? CABLE_RATING));
    if (fields.type === 'type_1') wiring.resistor('inlet_proximity', proximity, pe, 2700);
    if (fields.lock === true) wiring.resistor('lock_motor', wiring.port('lock_a'), wiring.port('lock_b'), fields.lock_resistance);
  },
  roles: ({ fields, settings }) => ({
    insulation: insulationRoles(fields, true, [...phaseNames(fields.phases), 'n']),
    mains: {
      lines: phaseNames(fields.phases), neutral: 'n', earth: 'pe',
      inlet: {
        pins: phaseNames(fields.phases).map((line) => `pin_${line}`), isPlugged: settings.plugged === true, voltage: settings.station_voltage ?? STATION_VOLTAGE,
        rating: fields.rating, cableRating: settings.cable_rating ?? CABLE_RATING,
      },
    },
  }),
  failures: [
    { code: 'pilot_pin', meaning: 'the pilot pin is bent or corroded', likelihood: 4, changes: () => [{ element: 'pin_pilot', becomes: 'stuck_open' }] },
    { code: 'line_pin_resistive', meaning: 'a burnt line pin', likelihood: 3, changes: () => [{ element: 'pin_l', becomes: 'resistive', resistance: 0.2 }] },
    { code: 'proximity_pin', meaning: 'the proximity pin makes no contact: the car does not know that the plug is in', likelihood: 2, changes: () => [{ element: 'cable_code', becomes: 'stuck_open' }] },
    { code: 'protective_pin', meaning: 'the protective pin makes no contact: no earth, and no return for pilot and proximity', likelihood: 1, changes: () => [{ element: 'station_earth', becomes: 'stuck_open' }, { element: 'pin_pilot', becomes: 'stuck_open' }, { element: 'cable_code', becomes: 'stuck_open' }] },
    { code: 'wet', meaning: 'water between the pins and the body', likelihood: 2, changes: () => [{ add: 'fault_l', a: 'l', b: 'chassis', resistance: 50e3 }] },
  ],
  failuresByFields: ({ fields }) => (fields.lock === true ? [{ code: 'lock_motor_open', meaning: 'the lock motor or its wire is broken', likelihood: 3, changes: () => [{ element: 'lock_motor', becomes: 'open' } as const] }] : []),
  observables: [
    { name: 'pilot voltage', sense: 'read', meaning: '12 V station alone, 9 V car seen, 6 V charging (positive half)' },
    { name: 'proximity resistance, unplugged', sense: 'read', meaning: 'open for type 2; the inlet’s own resistor for type 1' },
    { name: 'melted or green pin', sense: 'see', meaning: 'a pin has been hot or wet' },
  ],
});

/** What stands in for settings that a mode leaves out, as they say [V], [A]. */
const STATION_VOLTAGE = 230;
const CABLE_RATING = 32;
/** Pilot source of the station (IEC 61851-1 Table A.2, from memory). */
const PILOT_SOURCE = 1000;
/** Loop of a house circuit up to the inlet: 0.3 Ω, shared by supply and earth; common practice, no source. */
const STATION_RESISTANCE = 0.3;

/** Resistor between proximity and protective conductor in the plug [ohm]: IEC 61851-1 Table B.2 for type 2; SAE J1772 latched for type 1. */
function cableCode(type: 'type_1' | 'type_2', rating: number): number {
  if (type === 'type_1') return 150;
  if (rating <= 13) return 1500;
  if (rating <= 20) return 680;
  return rating <= 32 ? 220 : 100;
}

/** `l`, `l2`, `l3`, as many as are wired. */
function phaseNames(phases: number | undefined): readonly string[] {
  return ['l', 'l2', 'l3'].slice(0, phases ?? 1);
}
