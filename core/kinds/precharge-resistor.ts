/** A resistor with the relay that puts it across an open contactor, to fill capacitors gently. */
import { fromHandbook, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { coilCommand, coilConsumers, coilFields, coilPorts, coilRole, coilSettings, wireCoil } from './pieces/coil.ts';
import { seriesEnds } from './pieces/poles.ts';

export const prechargeResistor = defineKind({
  kind: 'precharge_resistor',
  title: 'Precharge resistor with relay',
  family: 'high_voltage',
  meaning: 'a resistor and its relay, across a contactor, that fill the capacitors before the contactor closes',
  fields: {
    resistance: required('resistance', 'of the resistor', { example: '60 Ω measured', minimum: 0, maximum: 1e6, aboveMinimum: true }),
    pulse_energy: optional('energy', 'heat the resistor bears in one short pulse', { isLimit: true, example: '250 J datasheet', minimum: 0, aboveMinimum: true }),
    continuous_power: optional('power', 'heat the resistor bears for ever', { isLimit: true, example: '100 W label', minimum: 0, aboveMinimum: true }),
    rating: optional('current', 'continuous current of the relay contact', { isLimit: true, example: '10 A label', minimum: 0, aboveMinimum: true }),
    voltage_rating: optional('voltage', 'highest direct voltage the relay contact may switch', { isLimit: true, example: '450 V label', minimum: 0, maximum: 3000, aboveMinimum: true }),
    breaking_current: optional('current', 'highest current the relay contact can break at its rated voltage', { isLimit: true, example: '10 A datasheet', minimum: 0, aboveMinimum: true }),
    making_current: optional('current', 'highest current the relay contact may close onto', { isLimit: true, example: '20 A datasheet', minimum: 0, aboveMinimum: true }),
    contact_resistance: fromHandbook('resistance', 'precharge_resistor.contact_resistance', 'of the closed relay contact', { example: '10 mΩ', minimum: 0, maximum: 10, aboveMinimum: true }),
    ...coilFields,
  },
  settings: coilSettings,
  ports: () => [...seriesEnds(2), ...coilPorts],
  wire: ({ fields, settings }, wiring) => {
    const between = wiring.inside('between', true);
    wireCoil(fields, settings.pulling_in === true, wiring);
    wiring.relay('contact', wiring.port('in'), between, { ...coilCommand(fields, wiring), contact: 'makes', resistance: fields.contact_resistance });
    wiring.resistor('resistor', between, wiring.port('out'), fields.resistance);
  },
  roles: ({ name, fields }) => ({
    prechargeResistor: { resistorElement: 'resistor', contactElement: 'contact', resistance: fields.resistance, pulseEnergy: fields.pulse_energy, continuousPower: fields.continuous_power, a: 'in', b: 'out' },
    switching: [{ element: 'contact', a: 'in', b: 'out', by: 'coil', rating: fields.rating, voltageRating: fields.voltage_rating, breakingCurrent: fields.breaking_current, makingCurrent: fields.making_current, coil: coilRole(fields) }],
    ...coilConsumers(name, fields),
  }),
  failures: [
    { code: 'resistor_open', meaning: 'the resistor is burnt through: nothing precharges', likelihood: 5, changes: () => [{ element: 'resistor', becomes: 'open' }] },
    { code: 'relay_welded', meaning: 'the relay contact is welded: the capacitors are live whenever the other pole is closed', likelihood: 2, changes: () => [{ element: 'contact', becomes: 'stuck_closed' }] },
    { code: 'relay_does_not_close', meaning: 'the coil gets its voltage but the contact does not close', likelihood: 2, changes: () => [{ element: 'contact', becomes: 'stuck_open' }] },
    { code: 'coil_open', meaning: 'the coil wire is broken', likelihood: 2, changes: () => [{ element: 'coil', becomes: 'open' }, { element: 'contact', becomes: 'stuck_open' }] },
  ],
  observables: [
    { name: 'click', sense: 'hear', meaning: 'the relay has moved; it does not prove that the contact is closed' },
    { name: 'voltage across the resistor', sense: 'read', meaning: 'falls to nothing while the capacitors fill; stays high when something draws current behind it' },
    { name: 'hot resistor', sense: 'feel', meaning: 'it has carried current for longer than a precharge lasts' },
  ],
});
