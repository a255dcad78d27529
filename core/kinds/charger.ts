/**
 * The on-board charger: alternating current in, a limited current into the pack.
 *
 * The network is one of direct values, so the alternating side stands in by its rms values at unity power factor: the inlet
 * puts the station's rms voltage between `l` and `n`, and the charger is one converter per phase with a current, a voltage and a
 * power limit. Currents in the runs to the inlet are then the rms currents; a meter reading there is one of alternating voltage.
 * It delivers only when a mode says so by the setting `current` or `power`.
 * The pilot resistors of the vehicle side (IEC 61851-1 Annex A) sit here: 2.74 kΩ always, 1.3 kΩ beside it while it charges.
 */
import { count, flag, fromHandbook, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import type { Port } from '../part/kind.ts';
import { canFields, canPorts, wireCan } from './pieces/can.ts';
import { controlConsumer, controlSupplyFields, controlSupplyPorts, staysAsleep, wireControlSupply } from './pieces/control-supply.ts';
import { linkRole, smallLinkFields, wireLink } from './pieces/dc-link.ts';
import { filterFields, insulationFields, insulationRoles, wireInsulation } from './pieces/insulation.ts';
import { interlockFields, interlockOpens, interlockPorts, interlockRole, wireInterlock } from './pieces/interlock.ts';
import { poles } from './pieces/poles.ts';

/** IEC 61851-1 Annex A, vehicle side: states B and C. */
const PILOT_PRESENT = 2740;
const PILOT_CHARGE = 1300;
/** Relay and filter on the alternating side: 20 mΩ, common practice, no source. */
const INPUT_RESISTANCE = 0.02;
/** Discharge resistor of the input filter behind the relay: 1 MΩ, common practice, no source. */
const BLEED = 1e6;

export const charger = defineKind({
  kind: 'charger',
  title: 'On-board charger',
  family: 'high_voltage',
  meaning: 'charges the pack from alternating current',
  fields: {
    output_current: required('current', 'highest direct current into the pack', { isLimit: true, example: '20 A label', minimum: 0, aboveMinimum: true }),
    output_power: required('power', 'highest direct power into the pack', { isLimit: true, example: '6.6 kW label', minimum: 0, aboveMinimum: true }),
    phases: count('phases it can use; silent means 1', { need: 'optional', minimum: 1, maximum: 3, example: '1' }),
    minimum_input_voltage: fromHandbook('voltage', 'charger.minimum_input_voltage', 'lowest alternating voltage (rms, line to neutral) it works at', { example: '90 V', minimum: 0, maximum: 500, aboveMinimum: true }),
    efficiency: fromHandbook('ratio', 'charger.efficiency', 'output power over input power', { example: '93 %', minimum: 0.1, maximum: 1 }),
    idle_power: fromHandbook('power', 'charger.idle_power', 'what it takes from the alternating side while it runs, besides its losses', { example: '20 W', minimum: 0, maximum: 500, aboveMinimum: true }),
    output_resistance: fromHandbook('resistance', 'charger.output_resistance', 'by how much its voltage limit droops per ampere', { example: '50 mΩ', minimum: 0, maximum: 100, aboveMinimum: true }),
    proximity_input: flag('it reads the proximity contact itself'),
    ...smallLinkFields('charger.link_capacitance'),
    ...insulationFields('charger.insulation_resistance'),
    ...filterFields,
    ...controlSupplyFields('charger.supply_power'),
    ...canFields,
    ...interlockFields,
  },
  settings: {
    current: optional('current', 'direct current it is asked for', { isLimit: true, example: '16 A', minimum: 0, aboveMinimum: true }),
    power: optional('power', 'direct power it is asked for', { isLimit: true, example: '3.3 kW', minimum: 0, aboveMinimum: true }),
    voltage: optional('voltage', 'voltage it does not exceed; unset: its `maximum_voltage`', { isLimit: true, example: '398 V', minimum: 0, aboveMinimum: true }),
  },
  ports: (fields) => [
    ...poles(2),
    ...phaseNames(fields.phases).map((name, index): Port => ({ name, carries: 'high_voltage', meaning: `alternating current, line ${index + 1}`, holds: 1 })),
    { name: 'n', carries: 'high_voltage', meaning: 'alternating current, neutral or second line', holds: 1 },
    { name: 'pe', carries: 'low_voltage', meaning: 'protective conductor', holds: 2 },
    { name: 'pilot', carries: 'signal', meaning: 'control pilot', holds: 1 },
    ...(fields.proximity_input === true ? [{ name: 'proximity', carries: 'signal', meaning: 'proximity contact', holds: 1 } as const] : []),
    ...controlSupplyPorts(fields),
    ...canPorts(fields),
    ...interlockPorts(fields),
  ],
  wire: ({ fields, settings }, wiring) => {
    const [pos, neg, n, pe] = [wiring.port('pos'), wiring.port('neg'), wiring.port('n'), wiring.port('pe')];
    const delivers = settings.current !== undefined || settings.power !== undefined;
    const phases = phaseNames(fields.phases);
    wireLink(fields, wiring);
    wireInsulation(fields, wiring);
    for (const phase of phases) {
      const stage = wiring.inside(`stage_${phase}`);
      wiring.resistor(`stage_bleed_${phase}`, stage, n, BLEED);
      wiring.switch(`input_${phase}`, wiring.port(phase), stage, delivers, INPUT_RESISTANCE);
      wiring.converter(`output_${phase}`, {
        input: [stage, n], output: [pos, neg],
        voltage: settings.voltage ?? fields.maximum_voltage,
        currentLimit: Math.min(settings.current ?? fields.output_current, fields.output_current) / phases.length,
        powerLimit: Math.min(settings.power ?? fields.output_power, fields.output_power) / phases.length,
        resistance: fields.output_resistance * phases.length, efficiency: fields.efficiency,
        idlePower: fields.idle_power / phases.length, minimumInput: fields.minimum_input_voltage,
      });
    }
    const rectified = wiring.inside('rectified');
    wiring.diode('pilot_diode', wiring.port('pilot'), rectified, 0.7, 1);
    wiring.resistor('pilot_present', rectified, pe, PILOT_PRESENT);
    wiring.switch('pilot_charge', rectified, pe, delivers, PILOT_CHARGE);
    const fed = wireControlSupply(fields, wiring);
    if (fields.proximity_input === true) {
      // 330 Ω to its own 5 V while it is awake (SAE J1772, from memory)
      const pullUp = wiring.inside('pull_up');
      const ground = wiring.port('ground');
      wiring.source('five_volts', pullUp, ground, 5, 330);
      wiring.relay('proximity_input', pullUp, wiring.port('proximity'), { coil: [fed, ground], pickUp: fields.minimum_supply_voltage, dropOut: fields.minimum_supply_voltage, contact: 'makes', resistance: 0.1, polarised: true });
    }
    wireCan(fields, wiring);
    wireInterlock(fields, true, wiring);
  },
  roles: ({ name, fields, settings }) => ({
    dcLink: linkRole(fields),
    feedsPack: { positive: 'pos', negative: 'neg', isOn: settings.current !== undefined || settings.power !== undefined, voltage: settings.voltage ?? fields.maximum_voltage },
    mains: { lines: phaseNames(fields.phases), neutral: 'n', earth: 'pe' },
    insulation: insulationRoles(fields, false),
    consumers: [controlConsumer(name, fields)],
    ...interlockRole(fields),
  }),
  failures: [
    { code: 'no_output', meaning: 'it is asked to charge, its input relay stays open', likelihood: 3, changes: ({ fields }) => phaseNames(fields.phases).map((phase) => ({ element: `input_${phase}`, becomes: 'stuck_open' })) },
    { code: 'output_open', meaning: 'its output fuse or output stage is open', likelihood: 3, changes: ({ fields }) => phaseNames(fields.phases).map((phase) => ({ element: `output_${phase}`, becomes: 'open' })) },
    { code: 'pilot_open', meaning: 'its pilot circuit is broken: the station does not see the car', likelihood: 3, changes: () => [{ element: 'pilot_diode', becomes: 'open' }] },
    { code: 'link_shorted', meaning: 'its output stage is a short between the poles', likelihood: 1, changes: () => [{ element: 'link', becomes: 'shorted', resistance: 0.05 }] },
    { code: 'does_not_wake', meaning: 'its electronics do not wake although they are fed', likelihood: 2, changes: ({ fields }) => staysAsleep(fields) },
    { code: 'leak', meaning: 'its output leaks to the case', likelihood: 1, changes: () => [{ add: 'fault_pos', a: 'pos', b: 'chassis', resistance: 50e3 }] },
  ],
  failuresByFields: ({ fields }) => (fields.interlock === true ? [{ code: 'plug_not_seated', meaning: 'the high-voltage plug is not pushed home: the interlock loop is open', likelihood: 4, changes: () => interlockOpens(fields) }] : []),
  observables: [
    { name: 'pilot voltage', sense: 'read', meaning: '12 V nothing plugged in, 9 V seen, 6 V charging (positive half)' },
    { name: 'fan or pump', sense: 'hear', meaning: 'it is charging' },
    { name: 'voltage between its poles', sense: 'read', meaning: 'the pack’s voltage when the charge contactors are closed' },
  ],
});

/** `l`, `l2`, `l3`, as many as it uses. */
function phaseNames(phases: number | undefined): readonly string[] {
  return ['l', 'l2', 'l3'].slice(0, phases ?? 1);
}
