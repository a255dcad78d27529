/** What the builder pulls by hand to split the pack; often with a fuse inside and a contact for the interlock loop. */
import { choice, flag, fromHandbook, optional } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { interlockFields, interlockOpens, interlockPorts, interlockRole, wireInterlock } from './pieces/interlock.ts';
import { seriesEnds } from './pieces/poles.ts';
import { fuseRole, fuseSheetFields } from './pieces/protection.ts';

export const serviceDisconnect = defineKind({
  kind: 'service_disconnect',
  title: 'Service disconnect',
  family: 'high_voltage',
  meaning: 'a plug or blade that is pulled by hand and splits the pack',
  fields: {
    rating: optional('current', 'continuous current of its contacts', { isLimit: true, example: '350 A label', minimum: 0, aboveMinimum: true }),
    voltage_rating: optional('voltage', 'highest direct voltage of the disconnect and of the fuse inside', { isLimit: true, example: '450 V label', minimum: 0, maximum: 3000, aboveMinimum: true }),
    breaking_current: optional('current', 'current it may be pulled under; most may be pulled only without current', { isLimit: true, example: '5 A datasheet', minimum: 0 }),
    contact_resistance: fromHandbook('resistance', 'service_disconnect.contact_resistance', 'of its contacts when it is in', { example: '0.2 mΩ measured', minimum: 0, maximum: 1, aboveMinimum: true }),
    fuse_rating: optional('current', 'of the fuse inside; silent: there is no fuse inside', { isLimit: true, example: '350 A label', minimum: 0, aboveMinimum: true }),
    fuse_style: choice(['full_range', 'partial_range'], 'of the fuse inside; silent counts as partial range, the less able of the two', { need: 'optional' }),
    fuse_voltage_drop: fromHandbook('voltage', 'hv_fuse.voltage_drop', 'across the fuse inside at its rating; used only when there is one', { example: '90 mV datasheet', minimum: 0, maximum: 5, aboveMinimum: true }),
    ...fuseSheetFields,
    ...interlockFields,
  },
  settings: { pulled: flag('it is out: the pack is split and the interlock loop open') },
  worked: ['pulled'],
  atRest: () => ({ pulled: false }),
  ports: (fields) => [...seriesEnds(2), ...interlockPorts(fields)],
  wire: ({ fields, settings }, wiring) => {
    const isIn = settings.pulled !== true;
    const out = wiring.port('out');
    const middle = fields.fuse_rating === undefined ? out : wiring.inside('fuse');
    wiring.switch('blade', wiring.port('in'), middle, isIn, fields.contact_resistance);
    if (fields.fuse_rating !== undefined) wiring.resistor('link', middle, out, fields.fuse_voltage_drop / fields.fuse_rating);
    wireInterlock(fields, isIn, wiring);
  },
  roles: ({ fields }) => ({
    rated: [{ elements: ['blade'], continuousCurrent: fields.rating, voltage: fields.voltage_rating }],
    disconnect: { element: 'blade', a: 'in', b: 'out', hasInterlock: fields.interlock === true, outSetting: 'pulled' },
    switching: [{ element: 'blade', a: 'in', b: 'out', by: 'hand', rating: fields.rating, voltageRating: fields.voltage_rating, breakingCurrent: fields.breaking_current, makingCurrent: undefined, coil: undefined }],
    ...(fields.fuse_rating === undefined ? {} : { protection: [fuseRole(fields, { element: 'link', a: 'in', b: 'out', style: fields.fuse_style ?? 'partial_range', rating: fields.fuse_rating, voltageRating: fields.voltage_rating })] }),
    ...interlockRole(fields),
  }),
  failures: [
    { code: 'contact_resistive', meaning: 'burnt or slack blades', likelihood: 2, changes: () => [{ element: 'blade', becomes: 'resistive', resistance: 0.01 }] },
    { code: 'contact_open', meaning: 'the main contacts do not touch although it looks pushed in', likelihood: 1, changes: () => [{ element: 'blade', becomes: 'stuck_open' }] },
  ],
  failuresByFields: ({ fields }) => [
    ...(fields.fuse_rating === undefined ? [] : [{ code: 'fuse_blown', meaning: 'the fuse inside has melted', likelihood: 4, changes: () => [{ element: 'link', becomes: 'open' } as const] }]),
    ...(fields.interlock === true ? [{ code: 'not_seated', meaning: 'it is not pushed home: the main contacts touch, the interlock contact does not', likelihood: 4, changes: () => interlockOpens(fields) }] : []),
  ],
  observables: [
    { name: 'lever position', sense: 'see', meaning: 'pulled or in; half-way is neither' },
    { name: 'voltage across its holder', sense: 'read', meaning: 'when pulled: part of the pack’s voltage may stand here' },
  ],
});
