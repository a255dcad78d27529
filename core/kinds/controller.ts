/**
 * A vehicle controller: it wakes, reads inputs, and switches outputs.
 *
 * Behind its waking switch lies the inside point `logic`: fed while the controller is awake. Every output follows `logic`
 * and not the mode alone, so a controller without supply, ground or wake signal releases its outputs in the network too.
 * A high-side output joins `supply` to its port, a low-side output joins its port to `ground`.
 */
import { choice, flag, fromHandbook, group, list, map, optional, required, text } from '../part/field.ts';
import type { Failure } from '../part/failure.ts';
import { defineKind } from '../part/kind.ts';
import type { Port } from '../part/kind.ts';
import type { SwitchingRole } from '../part/role.ts';
import { canFields, canPorts } from './pieces/can.ts';
import { BROWN_OUT, canTransceiverFields, wireCanTransceiver } from './pieces/can-transceiver.ts';
import { supplyFields, supplyPorts } from './pieces/consumer.ts';

export const controller = defineKind({
  kind: 'controller',
  title: 'Controller',
  family: 'low_voltage',
  meaning: 'a unit with inputs and outputs that decides: vehicle controller, body controller, battery controller',
  fields: {
    current: required('current', 'current it takes when awake, without its outputs and on top of its standby current', { example: '0.25 A datasheet', minimum: 0, aboveMinimum: true }),
    ...supplyFields,
    wakes_by: choice(['setting', 'wake_pin', 'supply'], 'what wakes it; silent means setting', {
      need: 'optional', fallback: 'setting', explain: { setting: 'the mode says so (CAN, a button of its own)', wake_pin: 'voltage on its port `wake`: the key or a wake line', supply: 'it is awake whenever it is fed' },
    }),
    wake_voltage: fromHandbook('voltage', 'controller.wake_voltage', 'voltage on `wake` that wakes it', { example: '5 V datasheet', minimum: 0, aboveMinimum: true }),
    inputs: map(group({
      pull: choice(['up', 'down', 'none'], 'what holds the input when nothing drives it', { explain: { up: 'to its supply, or to `pull_voltage`', down: 'to its ground', none: 'only its input resistance' } }),
      pull_voltage: optional('voltage', 'level it is pulled up to, when that is not the supply', { example: '5 V', minimum: 0, aboveMinimum: true }),
      resistance: optional('resistance', 'of this pull resistor', { example: '4.7 kΩ', minimum: 0, aboveMinimum: true }),
    }, 'one input'), 'inputs by the name of their port: `{ brake: { pull: down } }`'),
    outputs: map(group({
      side: choice(['high', 'low'], 'what it switches', { explain: { high: 'joins `supply` to the port', low: 'joins the port to `ground`' } }),
      current_limit: optional('current', 'highest continuous current of this output', { isLimit: true, example: '2 A datasheet', minimum: 0, aboveMinimum: true }),
      resistance: optional('resistance', 'of this output when on', { example: '80 mΩ', minimum: 0, aboveMinimum: true }),
    }, 'one output'), 'outputs by the name of their port: `{ main_contactor: { side: high, current_limit: 2 A } }`'),
    output_resistance: fromHandbook('resistance', 'controller.output_resistance', 'resistance of an output when on, unless it states its own', { example: '80 mΩ', minimum: 0, aboveMinimum: true }),
    pull_resistance: fromHandbook('resistance', 'controller.pull_resistance', 'pull resistor of an input, unless it states its own', { example: '10 kΩ', minimum: 0, aboveMinimum: true }),
    input_resistance: fromHandbook('resistance', 'controller.input_resistance', 'resistance of every input to ground besides its pull', { example: '100 kΩ', minimum: 0, aboveMinimum: true }),
    input_capacitance: optional('capacitance', 'capacitor straight across its supply, when it has one', { example: '220 µF', minimum: 0, aboveMinimum: true }),
    ...canFields,
    ...canTransceiverFields,
  },
  settings: {
    on: list(text('name of an output', { example: 'main_contactor' }), 'outputs that it switches on, as long as it is awake and fed'),
    awake: flag('it is awake, when a setting wakes it; unset: awake if it switches anything on'),
  },
  settingWords: ({ outputs }) => ({ on: Object.keys(outputs ?? {}) }),
  ports: (fields) => [
    ...supplyPorts,
    ...(fields.wakes_by === 'wake_pin' ? [{ name: 'wake', carries: 'signal', meaning: 'voltage here wakes it', holds: 1 } satisfies Port] : []),
    ...canPorts(fields),
    ...Object.keys(fields.inputs ?? {}).map((name): Port => ({ name, carries: 'signal', meaning: 'input', holds: 1 })),
    ...Object.entries(fields.outputs ?? {}).map(([name, output]): Port => ({ name, carries: 'low_voltage', meaning: `output, ${output.side} side`, holds: 1 })),
  ],
  wire: ({ fields, settings }, wiring) => {
    const [supply, ground, logic] = [wiring.port('supply'), wiring.port('ground'), wiring.inside('logic')];
    const whileAwake = { coil: [logic, ground] as const, pickUp: fields.minimum_voltage, dropOut: BROWN_OUT * fields.minimum_voltage, contact: 'makes' as const, polarised: true };

    if (fields.wakes_by === 'wake_pin') {
      const wake = wiring.port('wake');
      wiring.resistor('wake_input', wake, ground, fields.input_resistance);
      wiring.relay('wake_switch', supply, logic, { coil: [wake, ground], pickUp: fields.wake_voltage, dropOut: BROWN_OUT * fields.wake_voltage, contact: 'makes', polarised: true, resistance: LOGIC_RESISTANCE });
    } else {
      const awake = fields.wakes_by === 'supply' || (settings.awake ?? (settings.on ?? []).length > 0);
      wiring.switch('wake_switch', supply, logic, awake, LOGIC_RESISTANCE);
    }
    wiring.currentLoad('taking', logic, ground, fields.current, fields.minimum_voltage);
    if (fields.standby_current !== undefined) wiring.currentLoad('standby', supply, ground, fields.standby_current, fields.minimum_voltage);
    if (fields.input_capacitance !== undefined) wiring.capacitor('input_capacitor', supply, ground, fields.input_capacitance);

    for (const [name, input] of Object.entries(fields.inputs ?? {})) {
      const resistance = input.resistance ?? fields.pull_resistance;
      const port = wiring.port(name);
      wiring.resistor(`input_${name}`, port, ground, fields.input_resistance);
      if (input.pull === 'down') wiring.resistor(`pull_${name}`, port, ground, resistance);
      if (input.pull === 'up' && input.pull_voltage === undefined) wiring.resistor(`pull_${name}`, logic, port, resistance);
      if (input.pull === 'up' && input.pull_voltage !== undefined) {
        const level = wiring.inside(`level_of_${name}`);
        wiring.source(`level_${name}`, level, ground, input.pull_voltage, 0);
        wiring.relay(`pull_${name}`, level, port, { ...whileAwake, resistance });
      }
    }
    // all drivers of a side hang on one rail, which is there only while the logic runs
    const [highRail, lowRail] = [wiring.inside('high_rail'), wiring.inside('low_rail')];
    wiring.relay('high_side', supply, highRail, { ...whileAwake, resistance: RAIL_RESISTANCE });
    wiring.relay('low_side', lowRail, ground, { ...whileAwake, resistance: RAIL_RESISTANCE });
    for (const [name, output] of Object.entries(fields.outputs ?? {})) {
      const [a, b] = output.side === 'high' ? [highRail, wiring.port(name)] : [wiring.port(name), lowRail];
      wiring.switch(`output_${name}`, a, b, settings.on?.includes(name) === true, output.resistance ?? fields.output_resistance);
    }
    if (canPorts(fields).length > 0) wireCanTransceiver(fields, logic, fields.minimum_voltage, wiring);
  },
  roles: ({ name, fields }) => ({
    consumers: [{
      name, positive: 'supply', negative: 'ground', minimumVoltage: fields.minimum_voltage, maximumVoltage: fields.maximum_voltage, element: 'taking',
      ...(fields.standby_current !== undefined ? { standbyElement: 'standby' } : {}),
    }],
    switching: Object.entries(fields.outputs ?? {}).map(([output, { side, current_limit }]): SwitchingRole => ({
      element: `output_${output}`, a: side === 'high' ? 'supply' : output, b: side === 'high' ? output : 'ground', by: 'electronics',
      rating: current_limit, ratingAt: `outputs.${output}.current_limit`, voltageRating: undefined, breakingCurrent: undefined, makingCurrent: undefined, coil: undefined,
    })),
  }),
  failures: [
    { code: 'does_not_wake', meaning: 'it has supply, ground and its wake signal and still sleeps', likelihood: 2, changes: () => [{ element: 'wake_switch', becomes: 'stuck_open' }] },
    { code: 'stays_awake', meaning: 'it does not go to sleep: it drains the battery', likelihood: 2, changes: () => [{ element: 'wake_switch', becomes: 'stuck_closed' }] },
    { code: 'supply_shorted', meaning: 'its supply input is shorted inside', likelihood: 1, changes: () => [{ add: 'supply_short', a: 'supply', b: 'ground', resistance: 0.05 }] },
  ],
  failuresByFields: ({ fields }) => [
    ...Object.entries(fields.outputs ?? {}).flatMap(([name, { side }]): Failure<unknown>[] => [
      { code: `output_${name}_dead`, meaning: `output ${name} does not switch on`, likelihood: 2, changes: () => [{ element: `output_${name}`, becomes: 'stuck_open' }] },
      { code: `output_${name}_stuck_on`, meaning: `the driver of output ${name} has failed to a short: always on`, likelihood: 1, changes: () => [{ add: `output_${name}_short`, a: side === 'high' ? 'supply' : name, b: side === 'high' ? name : 'ground', resistance: DRIVER_SHORT }] },
    ]),
    ...(canPorts(fields).length > 0 ? [{ code: 'bus_shorted', meaning: 'its bus driver shorts CAN high to CAN low', likelihood: 0.5, changes: () => [{ add: 'bus_short', a: 'can_h', b: 'can_l', resistance: 1 }] } satisfies Failure<unknown>] : []),
  ],
  observables: [
    { name: 'voltage at its supply', sense: 'read', meaning: 'between `supply` and `ground` at its own plug, under load' },
    { name: 'voltage at an output', sense: 'read', meaning: 'high side on: the supply voltage to ground; low side on: near 0 V to ground' },
    { name: 'bus traffic', sense: 'read', meaning: 'it sends messages: it is awake' },
  ],
});


/** Path from the supply pin to the logic: small beside everything the logic takes. */
const LOGIC_RESISTANCE = 0.01;
/** Copper from the supply and ground pins to the drivers [ohm]; common practice, no source. */
const RAIL_RESISTANCE = 1e-6;
/** A driver that has failed to a short [ohm]; common practice, no source. */
const DRIVER_SHORT = 0.05;
