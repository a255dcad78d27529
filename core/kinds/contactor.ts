/** A sealed contactor for high direct voltage: one main contact, a coil, sometimes an auxiliary contact that shows where the main one is. */
import { flag, fromHandbook, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { coilCommand, coilConsumers, coilFields, coilPorts, coilRole, coilSettings, wireCoil } from './pieces/coil.ts';
import { seriesEnds } from './pieces/poles.ts';

export const contactor = defineKind({
  kind: 'contactor',
  title: 'Contactor',
  family: 'high_voltage',
  meaning: 'a switch in one high-voltage pole that a 12 V coil closes',
  fields: {
    rating: required('current', 'continuous current of the main contact', { isLimit: true, example: '250 A label', minimum: 0, aboveMinimum: true }),
    voltage_rating: required('voltage', 'highest direct voltage it may switch', { isLimit: true, example: '900 V label', minimum: 0, maximum: 3000, aboveMinimum: true }),
    breaking_current: optional('current', 'highest current it can break once at its rated voltage', { isLimit: true, example: '2000 A datasheet', minimum: 0, aboveMinimum: true }),
    making_current: optional('current', 'highest current it may close onto', { isLimit: true, example: '650 A datasheet', minimum: 0, aboveMinimum: true }),
    contact_resistance: fromHandbook('resistance', 'contactor.contact_resistance', 'of the closed main contact', { example: '0.2 mΩ measured', minimum: 0, maximum: 1, aboveMinimum: true }),
    auxiliary: flag('it has an auxiliary contact that is closed when the main contact is closed'),
    auxiliary_resistance: fromHandbook('resistance', 'contactor.auxiliary_resistance', 'of the closed auxiliary contact; used only when it has one', { example: '0.2 Ω', minimum: 0, maximum: 1e3, aboveMinimum: true }),
    ...coilFields,
  },
  settings: coilSettings,
  ports: ({ auxiliary }) => [
    ...seriesEnds(2),
    ...coilPorts,
    ...(auxiliary === true
      ? [
          { name: 'aux_a', carries: 'signal', meaning: 'auxiliary contact', holds: 1 } as const,
          { name: 'aux_b', carries: 'signal', meaning: 'auxiliary contact', holds: 1 } as const,
        ]
      : []),
  ],
  wire: ({ fields, settings }, wiring) => {
    const command = coilCommand(fields, wiring);
    wireCoil(fields, settings.pulling_in === true, wiring);
    wiring.relay('contact', wiring.port('in'), wiring.port('out'), { ...command, contact: 'makes', resistance: fields.contact_resistance });
    if (fields.auxiliary === true) wiring.relay('auxiliary', wiring.port('aux_a'), wiring.port('aux_b'), { ...command, contact: 'makes', resistance: fields.auxiliary_resistance });
  },
  roles: ({ name, fields }) => ({
    switching: [{ element: 'contact', a: 'in', b: 'out', by: 'coil', rating: fields.rating, voltageRating: fields.voltage_rating, breakingCurrent: fields.breaking_current, makingCurrent: fields.making_current, coil: coilRole(fields) }],
    ...coilConsumers(name, fields),
  }),
  failures: [
    { code: 'welded', meaning: 'the main contact is welded and stays closed; the auxiliary contact stays with it', likelihood: 3, changes: ({ fields }) => [{ element: 'contact', becomes: 'stuck_closed' }, ...(fields.auxiliary === true ? [{ element: 'auxiliary', becomes: 'stuck_closed' } as const] : [])] },
    { code: 'does_not_close', meaning: 'the coil gets its voltage but the armature does not move', likelihood: 1, changes: ({ fields }) => contactsStayOpen(fields) },
    { code: 'coil_open', meaning: 'the coil wire is broken: no current, no click', likelihood: 2, changes: ({ fields }) => [{ element: 'coil', becomes: 'open' }, ...contactsStayOpen(fields)] },
    { code: 'coil_shorted', meaning: 'the coil or its suppressor is a short: the fuse of the coil circuit opens', likelihood: 1, changes: ({ fields }) => [{ element: 'coil', becomes: 'shorted', resistance: 0.2 }, ...contactsStayOpen(fields)] },
    { code: 'contact_resistive', meaning: 'pitted main contact: it passes current but gets hot', likelihood: 2, changes: () => [{ element: 'contact', becomes: 'resistive', resistance: 0.02 }] },
  ],
  failuresByFields: ({ fields }) => (fields.auxiliary === true
    ? [{ code: 'auxiliary_open', meaning: 'the main contact closes but the auxiliary contact says that it did not', likelihood: 2, changes: () => [{ element: 'auxiliary', becomes: 'stuck_open' }] }]
    : []),
  observables: [
    { name: 'clack', sense: 'hear', meaning: 'the armature has moved; it does not prove that the contact is closed or open' },
    { name: 'voltage across the contact', sense: 'read', meaning: 'near 0 V when closed, or when both sides happen to be at one voltage' },
    { name: 'coil current', sense: 'read', meaning: 'shows a coil that is whole and fed' },
    { name: 'warm case', sense: 'feel', meaning: 'a fed coil is warm after some minutes' },
  ],
});

const contactsStayOpen = (fields: { readonly auxiliary: boolean | undefined }) => [
  { element: 'contact', becomes: 'stuck_open' } as const,
  ...(fields.auxiliary === true ? [{ element: 'auxiliary', becomes: 'stuck_open' } as const] : []),
];
