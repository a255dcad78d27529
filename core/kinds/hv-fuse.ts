/** A fuse for high direct voltage. What its sheet does not tell stays unknown. */
import { choice, fromHandbook, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { seriesEnds } from './pieces/poles.ts';
import { fuseRole, fuseSheetFields } from './pieces/protection.ts';

export const hvFuse = defineKind({
  kind: 'hv_fuse',
  title: 'High-voltage fuse',
  family: 'high_voltage',
  meaning: 'a fuse that can break direct current at the pack’s voltage',
  fields: {
    rating: required('current', 'current printed on it', { isLimit: true, example: '350 A label', minimum: 0, aboveMinimum: true }),
    style: choice(['full_range', 'partial_range'], 'whether it also clears overloads', {
      explain: { full_range: 'clears every current that melts it (letter g)', partial_range: 'must not be asked to clear small overcurrents (letter a)' },
    }),
    voltage_rating: optional('voltage', 'highest direct voltage it may break; the AC voltage does not count', { isLimit: true, example: '500 V label', minimum: 0, maximum: 3000, aboveMinimum: true }),
    ...fuseSheetFields,
    resistance: optional('resistance', 'cold resistance when known; used instead of the voltage drop', { example: '0.25 mΩ measured', minimum: 0, maximum: 1e3, aboveMinimum: true }),
    voltage_drop: fromHandbook('voltage', 'hv_fuse.voltage_drop', 'voltage across it at its rating', { example: '90 mV datasheet', minimum: 0, maximum: 5, aboveMinimum: true }),
  },
  settings: {},
  ports: () => seriesEnds(2),
  wire: ({ fields }, wiring) => {
    wiring.resistor('link', wiring.port('in'), wiring.port('out'), fields.resistance ?? fields.voltage_drop / fields.rating);
  },
  roles: ({ fields }) => ({
    protection: [fuseRole(fields, { element: 'link', a: 'in', b: 'out', style: fields.style, rating: fields.rating, voltageRating: fields.voltage_rating })],
  }),
  failures: [
    { code: 'blown', meaning: 'the element has melted', likelihood: 5, changes: () => [{ element: 'link', becomes: 'open' }] },
    { code: 'joint_resistive', meaning: 'a loose bolt at the fuse', likelihood: 3, changes: () => [{ element: 'link', becomes: 'resistive', resistance: 0.01 }] },
    { code: 'bridged', meaning: 'something that is no fuse sits in its place', likelihood: 1, changes: () => [{ element: 'link', becomes: 'shorted', resistance: 1e-4 }] },
  ],
  observables: [
    { name: 'voltage across it', sense: 'read', meaning: 'millivolts when whole; the full voltage when blown and everything else is closed' },
    { name: 'resistance, circuit dead', sense: 'read', meaning: 'a whole fuse reads as a short on any meter' },
    { name: 'discoloured ends', sense: 'see', meaning: 'a joint has been hot' },
  ],
});
