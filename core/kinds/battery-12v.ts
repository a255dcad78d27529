/**
 * The battery of the low-voltage side: 12 V or 24 V, lead-acid or lithium iron phosphate.
 *
 * A lead-acid battery gives current through a few milliohms but takes it back only slowly: near full charge a supply of
 * 14.2 V feeds it a few amperes, not hundreds. So the way in (`charge_path`) is a resistance of its own, always there,
 * and the way out adds `discharge_path`, which conducts outwards only; together they are the internal resistance.
 * A lithium battery has one resistance for both directions.
 */
import { choice, fromHandbook, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { restVoltage, seriesCellsFor } from './pieces/rest-voltage.ts';

export const battery12v = defineKind({
  kind: 'battery_12v',
  title: '12 V battery',
  family: 'low_voltage',
  meaning: 'the low-voltage battery, 12 V or 24 V, that wakes the car and holds up its controllers',
  feedsLowVoltage: true,
  fields: {
    chemistry: choice(['flooded', 'agm', 'lfp'], 'what it is made of', {
      explain: { flooded: 'lead-acid with liquid acid', agm: 'lead-acid with the acid held in glass mat, or gel', lfp: 'lithium iron phosphate with its own protection board' },
    }),
    nominal_voltage: required('voltage', 'voltage printed on it; decides how many cells are in series', { isLimit: true, example: '12 V', minimum: 6, maximum: 60 }),
    capacity: required('charge', 'charge it gives when new, at the 20-hour rate', { example: '60 Ah label', minimum: 0, aboveMinimum: true }),
    state_of_charge: fromHandbook('ratio', 'battery_12v.state_of_charge', 'how full it is', { example: '90 %', minimum: 0, maximum: 1 }),
    rest_voltage: optional('voltage', 'terminal voltage measured after hours of rest; used instead of the table', { example: '12.58 V measured', minimum: 0, aboveMinimum: true, maximum: 70 }),
    internal_resistance: fromHandbook('resistance', 'battery_12v.internal_resistance', 'resistance of the whole battery between its posts when it gives current', { example: '6 mΩ', minimum: 0, aboveMinimum: true }),
    charge_resistance: fromHandbook('resistance', 'battery_12v.charge_resistance', 'lead-acid only: volts above rest voltage per ampere that it takes when charged', { example: '0.2 Ω', minimum: 0, aboveMinimum: true }),
  },
  settings: {},
  ports: () => [
    { name: 'pos', carries: 'low_voltage', meaning: 'positive post', holds: 6, pole: 'positive' },
    { name: 'neg', carries: 'low_voltage', meaning: 'negative post', holds: 6, pole: 'negative' },
  ],
  wire: ({ fields }, wiring) => {
    const [pos, neg] = [wiring.port('pos'), wiring.port('neg')];
    const voltage = fields.rest_voltage
      ?? restVoltage(fields.chemistry, fields.state_of_charge, seriesCellsFor(fields.chemistry, fields.nominal_voltage));
    const out = fields.internal_resistance;
    if (fields.chemistry === 'lfp') {
      wiring.source('cells', pos, neg, voltage, out);
      return;
    }
    // the way in is never easier than the way out; the shape of the network is the same in every draw
    const back = Math.max(fields.charge_resistance, 1.01 * out);
    const inside = wiring.inside('inside');
    wiring.source('cells', inside, neg, voltage, 0);
    wiring.resistor('charge_path', pos, inside, back);
    wiring.diode('discharge_path', inside, pos, 0, out * back / (back - out));
  },
  roles: ({ fields }) => ({
    lowVoltageBattery: { positive: 'pos', negative: 'neg', capacity: fields.capacity, element: 'cells', charge: chargeVoltage(fields) },
  }),
  failures: [
    { code: 'open_inside', meaning: 'a link between cells has parted, or the protection board has switched off', likelihood: 1, changes: () => [{ element: 'cells', becomes: 'open' }] },
    { code: 'worn_out', meaning: 'sulphated or aged: it shows its voltage at rest and collapses under load', likelihood: 4, changes: ({ fields }) => [{ element: 'cells', becomes: 'resistive', resistance: 30 * fields.internal_resistance }] },
  ],
  observables: [
    { name: 'rest voltage', sense: 'read', meaning: 'volts between the posts after some hours without load' },
    { name: 'swollen or wet case', sense: 'see', meaning: 'overcharged or a cell has failed: do not use it' },
    { name: 'smell of rotten eggs', sense: 'smell', meaning: 'a lead-acid battery is gassing: it is being overcharged' },
  ],
});

/**
 * Voltage of a cell while it is charged, at 25 °C [V]: the least that fills it in the end, and the most that does no harm.
 * Lead-acid float 2.20 .. 2.30, absorption 2.40 .. 2.47 (flooded), up to 2.45 (glass mat); iron phosphate 3.40 .. 3.65.
 * Common practice, from memory; the battery's own sheet rules.
 */
const CHARGE_VOLTAGE = {
  flooded: { least: 2.2, most: 14.8 / 6, chemistry: 'flooded lead-acid' },
  agm: { least: 2.2, most: 2.45, chemistry: 'AGM or gel' },
  lfp: { least: 3.35, most: 3.65, chemistry: 'iron phosphate' },
} as const;

function chargeVoltage({ chemistry, nominal_voltage }: { readonly chemistry: keyof typeof CHARGE_VOLTAGE; readonly nominal_voltage: number }): { least: number; most: number; chemistry: string } {
  const cells = seriesCellsFor(chemistry, nominal_voltage);
  const { least, most, chemistry: called } = CHARGE_VOLTAGE[chemistry];
  return { least: cells * least, most: cells * most, chemistry: called };
}
