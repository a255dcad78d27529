/**
 * A laboratory supply with a current limit that stands beside the vehicle while high voltage is switched on for the first time. No run
 * joins it: its leads are clipped on where the file says, in the states of the procedure that need it.
 *
 * Switched off (no voltage set) only its output capacitor, preload and leads are there. What it is tied to by its earth is taken as the
 * chassis, because the procedure joins chassis and protective earth while it is on.
 */
import { flag, fromHandbook, nameOf, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';

export const benchSource = defineKind({
  kind: 'bench_source',
  title: 'Bench source',
  family: 'high_voltage',
  standsBeside: true,
  meaning: 'laboratory supply with a current limit, beside the vehicle for the first high voltage; it has no place and no mass in the vehicle, and no run',
  fields: {
    maximum_voltage: required('voltage', 'highest voltage that it can be set to', { isLimit: true, example: '400 V label', minimum: 0, maximum: 2000, aboveMinimum: true }),
    maximum_current: required('current', 'highest current that its limit can be set to', { isLimit: true, example: '0.5 A label', minimum: 0, maximum: 1000, aboveMinimum: true }),
    maximum_power: optional('power', 'highest output power, where that is less than voltage times current', { isLimit: true, example: '100 W label', minimum: 0, aboveMinimum: true }),
    positive_at: nameOf('ports', 'port on the bus side of the open contactors where its positive clip goes; silent: the positive pole of the largest capacitor', { need: 'optional', example: 'J_pos.s1' }),
    negative_at: nameOf('ports', 'port where its negative clip goes; silent: the negative pole of the largest capacitor', { need: 'optional', example: 'J_neg.s1' }),
    earthed: flag('its negative terminal is tied to protective earth, and the link cannot be taken off'),
    lead_resistance: fromHandbook('resistance', 'bench_source.lead_resistance', 'of both leads, clips and the ammeter inside together', { example: '0.2 Ω measured', minimum: 0, maximum: 100, aboveMinimum: true }),
    output_capacitance: fromHandbook('capacitance', 'bench_source.output_capacitance', 'capacitor across its output, which no limit holds back', { example: '47 µF datasheet', minimum: 0, maximum: 1, aboveMinimum: true }),
    preload: fromHandbook('resistance', 'bench_source.preload', 'what stays across its output inside and empties it when it is switched off', { example: '47 kΩ measured', minimum: 0, maximum: 1e9, aboveMinimum: true }),
    insulation_resistance: fromHandbook('resistance', 'bench_source.insulation_resistance', 'from each output terminal to protective earth, earth link off', { example: '50 MΩ measured', minimum: 0, maximum: 1e13, aboveMinimum: true }),
  },
  settings: {
    voltage: optional('voltage', 'voltage that it is set to; silent: its output is off', { isLimit: true, example: '350 V', minimum: 0, maximum: 2000 }),
    current: optional('current', 'current that its limit is set to; silent: its `maximum_current`', { isLimit: true, example: '50 mA', minimum: 0, maximum: 1000, aboveMinimum: true }),
  },
  // not marked as poles: what must be so between two poles of the vehicle is not asked of a tool beside it
  ports: () => [
    { name: 'pos', carries: 'high_voltage', meaning: 'positive clip', holds: 1 },
    { name: 'neg', carries: 'high_voltage', meaning: 'negative clip', holds: 1 },
  ],
  wire: ({ fields, settings }, wiring) => {
    const [pos, neg, stage] = [wiring.port('pos'), wiring.port('neg'), wiring.inside('stage')];
    // it regulates to a millivolt an ampere, far below its leads; common practice, no source
    if (settings.voltage !== undefined) wiring.supply('supply', stage, neg, settings.voltage, settings.current ?? fields.maximum_current, 1e-3);
    wiring.capacitor('output_capacitor', stage, neg, fields.output_capacitance);
    wiring.resistor('preload', stage, neg, fields.preload);
    wiring.resistor('leads', stage, pos, fields.lead_resistance);
    wiring.resistor('leak_pos', pos, wiring.chassis, fields.insulation_resistance);
    wiring.resistor('leak_neg', neg, wiring.chassis, fields.insulation_resistance);
    // as any earth lead; common practice, no source
    if (fields.earthed === true) wiring.resistor('earth_link', neg, wiring.chassis, 0.1);
  },
  roles: ({ fields }) => ({
    benchSource: {
      positive: 'pos', negative: 'neg', element: 'leads', voltageSetting: 'voltage', currentSetting: 'current',
      maximumVoltage: fields.maximum_voltage, maximumCurrent: fields.maximum_current, maximumPower: fields.maximum_power,
      outputCapacitance: fields.output_capacitance, preload: fields.preload, isEarthed: fields.earthed === true, clipPositive: fields.positive_at, clipNegative: fields.negative_at,
    },
  }),
  failures: [],
  // switched off it can do nothing to the car
  failuresByFields: ({ settings, fields }) => (settings.voltage === undefined ? [] : [
    { code: 'output_off', meaning: 'its output is still off, or its limit stands at zero', likelihood: 3, changes: () => [{ element: 'supply', becomes: 'open' }] },
    { code: 'lead_off', meaning: 'a clip has come off, or a lead is broken', likelihood: 3, changes: () => [{ element: 'leads', becomes: 'open' }] },
    { code: 'leak', meaning: 'one of its terminals leaks to protective earth', likelihood: 1, changes: () => [{ add: 'fault_neg', a: 'neg', b: 'chassis', resistance: 20e3 }] },
    ...(fields.earthed === true ? [] : [{ code: 'earth_link', meaning: 'the link between its negative and its earth terminal is still on', likelihood: 2, changes: () => [{ add: 'earth', a: 'neg', b: 'chassis', resistance: 0.1 }] as const }]),
  ]),
  observables: [
    { name: 'voltage and current display', sense: 'read', meaning: 'what it gives now' },
    { name: 'limit lamp', sense: 'see', meaning: 'lit: the current limit holds the voltage down' },
  ],
});
