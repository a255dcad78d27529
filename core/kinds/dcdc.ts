/**
 * The converter that feeds the 12 V side from the high voltage.
 * It runs when there is enough high voltage and what `started_by` names is there:
 * `wire`: 12 V at its port `enable`; `message`: the setting `on`, and 12 V at its own output for its electronics;
 * `high_voltage`: nothing more.
 */
import { choice, flag, fromHandbook, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { canFields, canPorts, wireCan } from './pieces/can.ts';
import { linkRole, smallLinkFields, stageKnee, wireLink } from './pieces/dc-link.ts';
import { filterFields, insulationFields, insulationRoles, wireInsulation } from './pieces/insulation.ts';
import { interlockFields, interlockOpens, interlockPorts, interlockRole, wireInterlock } from './pieces/interlock.ts';
import { poles } from './pieces/poles.ts';

/** Electronic switch in the path of the power: 1 mΩ, common practice, no source. */
const GATE_RESISTANCE = 1e-3;
/** Empties the small capacitors behind an open gate, so that the stage has no voltage of its own: 1 MΩ, common practice, no source. */
const BLEED = 1e6;

export const dcdc = defineKind({
  kind: 'dcdc',
  title: 'DC-DC converter',
  family: 'high_voltage',
  meaning: 'feeds the 12 V side from the high voltage',
  feedsLowVoltage: true,
  fields: {
    output_voltage: required('voltage', 'voltage it holds its output at', { example: '13.8 V measured', minimum: 0, maximum: 100, aboveMinimum: true }),
    output_current: required('current', 'highest output current', { isLimit: true, example: '110 A label', minimum: 0, aboveMinimum: true }),
    started_by: choice(['wire', 'message', 'high_voltage'], 'what makes it run', {
      explain: { wire: '12 V at its port `enable`', message: 'a CAN message: the setting `on`; its electronics need 12 V at its output first', high_voltage: 'runs whenever there is enough high voltage' },
    }),
    output_resistance: fromHandbook('resistance', 'dcdc.output_resistance', 'by how much its output voltage droops per ampere', { example: '2 mΩ', minimum: 0, maximum: 10, aboveMinimum: true }),
    efficiency: fromHandbook('ratio', 'dcdc.efficiency', 'output power over input power', { example: '92 %', minimum: 0.1, maximum: 1 }),
    idle_power: fromHandbook('power', 'dcdc.idle_power', 'what it takes from the high voltage while running and not loaded', { example: '15 W', minimum: 0, maximum: 500, aboveMinimum: true }),
    enable_voltage: fromHandbook('voltage', 'control.enable_voltage', 'voltage at `enable` that starts it', { example: '6 V', minimum: 0, maximum: 60, aboveMinimum: true }),
    enable_resistance: fromHandbook('resistance', 'control.enable_resistance', 'of the input `enable` to its negative output', { example: '10 kΩ', minimum: 0, maximum: 1e8, aboveMinimum: true }),
    wake_voltage: fromHandbook('voltage', 'control.minimum_supply_voltage', 'voltage at its output that its electronics need before it can run; used only when started by a message', { example: '9 V', minimum: 0, maximum: 60, aboveMinimum: true }),
    ...smallLinkFields('dcdc.link_capacitance'),
    ...insulationFields('dcdc.insulation_resistance'),
    ...filterFields,
    ...canFields,
    ...interlockFields,
  },
  settings: {
    on: flag('told by message to run; used only when started by a message'),
    voltage: optional('voltage', 'voltage it is told to hold, instead of its `output_voltage`', { isLimit: true, example: '14.2 V', minimum: 0, maximum: 100, aboveMinimum: true }),
  },
  ports: (fields) => [
    ...poles(2),
    { name: 'lv_pos', carries: 'low_voltage', meaning: 'output, positive', holds: 2, pole: 'positive' },
    { name: 'lv_neg', carries: 'low_voltage', meaning: 'output, negative', holds: 2, pole: 'negative' },
    ...(fields.started_by === 'wire' ? [{ name: 'enable', carries: 'signal', meaning: '12 V here starts it', holds: 1 } as const] : []),
    ...canPorts(fields),
    ...interlockPorts(fields),
  ],
  wire: ({ fields, settings }, wiring) => {
    const [pos, neg, out, ground] = [wiring.port('pos'), wiring.port('neg'), wiring.port('lv_pos'), wiring.port('lv_neg')];
    const stage = wiring.inside('stage');
    wiring.resistor('stage_bleed', stage, neg, BLEED);
    wireLink(fields, wiring);
    wireInsulation(fields, wiring);
    wireCan(fields, wiring);
    wireInterlock(fields, true, wiring);
    if (fields.started_by === 'wire') {
      const enable = wiring.port('enable');
      wiring.resistor('enable_input', enable, ground, fields.enable_resistance);
      wiring.relay('gate', pos, stage, { coil: [enable, ground], pickUp: fields.enable_voltage, dropOut: (2 / 3) * fields.enable_voltage, contact: 'makes', resistance: GATE_RESISTANCE, polarised: true });
    } else if (fields.started_by === 'message') {
      const told = wiring.inside('told');
      wiring.resistor('told_bleed', told, neg, BLEED);
      wiring.switch('command', pos, told, settings.on === true, GATE_RESISTANCE);
      wiring.relay('gate', told, stage, { coil: [out, ground], pickUp: fields.wake_voltage, dropOut: fields.wake_voltage, contact: 'makes', resistance: GATE_RESISTANCE, polarised: true });
    } else {
      wiring.switch('gate', pos, stage, true, GATE_RESISTANCE);
    }
    wiring.converter('converter', {
      input: [stage, neg], output: [out, ground], voltage: settings.voltage ?? fields.output_voltage, currentLimit: fields.output_current,
      resistance: fields.output_resistance, efficiency: fields.efficiency, idlePower: fields.idle_power, minimumInput: stageKnee(fields),
    });
  },
  roles: ({ fields, settings }) => ({
    lowVoltageSupply: { positive: 'lv_pos', negative: 'lv_neg', currentLimit: fields.output_current, element: 'converter', voltage: settings.voltage ?? fields.output_voltage },
    dcLink: linkRole(fields),
    insulation: insulationRoles(fields, false),
    ...interlockRole(fields),
  }),
  failures: [
    { code: 'does_not_start', meaning: 'it does not run although everything it needs is there', likelihood: 3, changes: () => [{ element: 'gate', becomes: 'stuck_open' }] },
    { code: 'output_open', meaning: 'its output fuse or output stage is open', likelihood: 3, changes: () => [{ element: 'converter', becomes: 'open' }] },
    { code: 'link_shorted', meaning: 'its input stage is a short between the poles', likelihood: 1, changes: () => [{ element: 'link', becomes: 'shorted', resistance: 0.05 }] },
    { code: 'leak', meaning: 'its input leaks to the case', likelihood: 1, changes: () => [{ add: 'fault_pos', a: 'pos', b: 'chassis', resistance: 50e3 }] },
  ],
  failuresByFields: ({ fields }) => (fields.interlock === true ? [{ code: 'plug_not_seated', meaning: 'the high-voltage plug is not pushed home: the interlock loop is open', likelihood: 4, changes: () => interlockOpens(fields) }] : []),
  observables: [
    { name: 'output voltage', sense: 'read', meaning: 'above the battery’s rest voltage when it runs' },
    { name: 'warm housing', sense: 'feel', meaning: 'it has been giving current' },
  ],
});
