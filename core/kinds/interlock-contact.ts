/**
 * A contact of the interlock loop: closed while a cover is on or a plug is in, open before anything live can be reached.
 */
import { flag, fromHandbook, nameOf } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';

export const interlockContact = defineKind({
  kind: 'interlock_contact',
  title: 'Interlock contact',
  family: 'low_voltage',
  meaning: 'a contact in the interlock loop that opens when its cover comes off or its plug comes out',
  fields: {
    guards: nameOf('parts', 'part whose cover or plug it watches', { need: 'optional', example: 'junction' }),
    contact_resistance: fromHandbook('resistance', 'interlock_contact.contact_resistance', 'resistance of the closed contact', { example: '20 mΩ', minimum: 0, aboveMinimum: true }),
  },
  settings: { opened: flag('the cover is off or the plug is out') },
  worked: ['opened'],
  atRest: () => ({ opened: false }),
  ports: () => [
    { name: 'a', carries: 'signal', meaning: 'loop in', holds: 1 },
    { name: 'b', carries: 'signal', meaning: 'loop out', holds: 1 },
  ],
  wire: ({ fields, settings }, wiring) => wiring.switch('contact', wiring.port('a'), wiring.port('b'), settings.opened !== true, fields.contact_resistance),
  roles: () => ({ interlock: [['a', 'b']] }),
  failures: [
    { code: 'open', meaning: 'bent or dirty: the loop is broken though the cover is on', likelihood: 4, changes: () => [{ element: 'contact', becomes: 'stuck_open' }] },
    { code: 'bridged', meaning: 'jumpered or stuck: the loop stays closed though the cover is off', likelihood: 2, changes: () => [{ element: 'contact', becomes: 'stuck_closed' }] },
  ],
  observables: [
    { name: 'cover and plug seated', sense: 'see', meaning: 'the contact should be closed' },
    { name: 'resistance of the loop', sense: 'read', meaning: 'from end to end with the supply off: a few ohms at most' },
  ],
});
