/** A small converter that fills the high-voltage capacitors from the 12 V side before any contactor closes. */
import { fromHandbook, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { canFields, canPorts, wireCan } from './pieces/can.ts';
import { filterFields, insulationFields, insulationRoles, wireInsulation } from './pieces/insulation.ts';
import { poles } from './pieces/poles.ts';

export const prechargeConverter = defineKind({
  kind: 'precharge_converter',
  title: 'Precharge converter',
  family: 'high_voltage',
  meaning: 'fills the high-voltage capacitors from the 12 V battery; works while 12 V is at its port `enable`',
  fields: {
    output_voltage: required('voltage', 'voltage it charges the capacitors to', { example: '360 V datasheet', minimum: 0, maximum: 1500, aboveMinimum: true }),
    output_current: required('current', 'highest output current', { isLimit: true, example: '0.6 A datasheet', minimum: 0, aboveMinimum: true }),
    output_power: required('power', 'highest output power', { isLimit: true, example: '100 W label', minimum: 0, aboveMinimum: true }),
    efficiency: fromHandbook('ratio', 'precharge_converter.efficiency', 'output power over input power', { example: '85 %', minimum: 0.1, maximum: 1 }),
    output_resistance: fromHandbook('resistance', 'precharge_converter.output_resistance', 'by how much its output voltage droops per ampere', { example: '1 Ω', minimum: 0, maximum: 1e4, aboveMinimum: true }),
    idle_power: fromHandbook('power', 'precharge_converter.idle_power', 'what it takes from 12 V while enabled and not loaded', { example: '1.5 W', minimum: 0, maximum: 100, aboveMinimum: true }),
    minimum_supply_voltage: fromHandbook('voltage', 'control.minimum_supply_voltage', 'lowest 12 V supply it works at', { example: '9 V datasheet', minimum: 0, maximum: 60, aboveMinimum: true }),
    maximum_supply_voltage: fromHandbook('voltage', 'control.maximum_supply_voltage', 'highest 12 V supply it bears', { example: '16 V datasheet', minimum: 0, maximum: 60, aboveMinimum: true }),
    enable_voltage: fromHandbook('voltage', 'control.enable_voltage', 'voltage at `enable` that starts it', { example: '6 V', minimum: 0, maximum: 60, aboveMinimum: true }),
    enable_resistance: fromHandbook('resistance', 'control.enable_resistance', 'of the input `enable` to ground', { example: '10 kΩ', minimum: 0, maximum: 1e8, aboveMinimum: true }),
    ...canFields,
    ...insulationFields('precharge_converter.insulation_resistance'),
    ...filterFields,
  },
  settings: { voltage: optional('voltage', 'voltage it is told to charge to, instead of its `output_voltage`', { isLimit: true, example: '352 V', minimum: 0, maximum: 1500, aboveMinimum: true }) },
  ports: (fields) => [
    ...poles(2),
    { name: 'supply', carries: 'low_voltage', meaning: '12 V supply that the power comes from', holds: 2, pole: 'positive' },
    { name: 'ground', carries: 'low_voltage', meaning: 'ground of the 12 V side', holds: 2, pole: 'negative' },
    { name: 'enable', carries: 'signal', meaning: '12 V here starts it', holds: 1 },
    ...canPorts(fields),
  ],
  wire: ({ fields, settings }, wiring) => {
    const [supply, ground, enable] = [wiring.port('supply'), wiring.port('ground'), wiring.port('enable')];
    const started = wiring.inside('started');
    wireInsulation(fields, wiring);
    wireCan(fields, wiring);
    wiring.resistor('enable_input', enable, ground, fields.enable_resistance);
    // electronic switch: 10 mΩ, lets go at two thirds of the starting voltage; common practice, no source
    wiring.relay('start', supply, started, { coil: [enable, ground], pickUp: fields.enable_voltage, dropOut: (2 / 3) * fields.enable_voltage, contact: 'makes', resistance: 0.01, polarised: true });
    // empties its input capacitor when it is not started: 100 kΩ, common practice, no source
    wiring.resistor('input_bleed', started, ground, 100e3);
    wiring.converter('converter', {
      input: [started, ground], output: [wiring.port('pos'), wiring.port('neg')], voltage: settings.voltage ?? fields.output_voltage,
      currentLimit: fields.output_current, resistance: fields.output_resistance, efficiency: fields.efficiency,
      idlePower: fields.idle_power, minimumInput: fields.minimum_supply_voltage, powerLimit: fields.output_power,
    });
  },
  roles: ({ name, fields }) => ({
    prechargeConverter: { positive: 'pos', negative: 'neg', supplyPositive: 'supply', supplyNegative: 'ground', outputPower: fields.output_power, outputCurrent: fields.output_current, outputVoltage: fields.output_voltage, efficiency: fields.efficiency },
    // all it takes from 12 V flows through its electronic switch
    consumers: [{ name, positive: 'supply', negative: 'ground', minimumVoltage: fields.minimum_supply_voltage, maximumVoltage: fields.maximum_supply_voltage, element: 'start' }],
    insulation: insulationRoles(fields, false),
  }),
  failures: [
    { code: 'dead', meaning: 'it does not start although 12 V and enable are there', likelihood: 3, changes: () => [{ element: 'start', becomes: 'stuck_open' }] },
    { code: 'output_open', meaning: 'it takes its idle current but gives nothing', likelihood: 2, changes: () => [{ element: 'converter', becomes: 'open' }] },
    { code: 'does_not_stop', meaning: 'it runs without enable', likelihood: 1, changes: () => [{ element: 'start', becomes: 'stuck_closed' }] },
    { code: 'leak', meaning: 'its output leaks to the case', likelihood: 1, changes: () => [{ add: 'fault_pos', a: 'pos', b: 'chassis', resistance: 50e3 }] },
  ],
  observables: [
    { name: 'output voltage', sense: 'read', meaning: 'rises to the set voltage within the precharge time and stays' },
    { name: 'whine', sense: 'hear', meaning: 'it is running' },
  ],
});
