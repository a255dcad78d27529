/**
 * What the two bus pins of a CAN node amount to for a meter: each pin goes through its input resistance to a common middle,
 * and while the node is awake the middle is held at 2.5 V, the recessive level. Bits on the bus are not modelled.
 * Ports and terminating resistor are those of `can.ts`.
 *
 * Source:  ISO 11898-2, recessive output voltage 2.5 V nominal and internal resistance of a pin (values from memory)
 * Checked: core/kinds/controller.test.ts
 */
import { fromHandbook } from '../../part/field.ts';
import type { Wiring } from '../../part/wiring.ts';
import { wireCan } from './can.ts';

export const canTransceiverFields = {
  can_input_resistance: fromHandbook('resistance', 'can.input_resistance', 'resistance from each bus pin to the middle of its receiver', { example: '25 kΩ', minimum: 0, aboveMinimum: true }),
} as const;

interface CanTransceiverValues { readonly can_termination: boolean | undefined; readonly can_input_resistance: number }

/**
 * Elements `can_h_input`, `can_l_input`, `can_recessive`, `can_driver` and, where there is one, `termination`.
 *
 * @param awake  point that has the supply voltage while the node is awake
 * @param workingVoltage  least voltage there for the bus driver to work [V]
 */
export function wireCanTransceiver(fields: CanTransceiverValues, awake: string, workingVoltage: number, wiring: Wiring): void {
  const [high, low, ground] = [wiring.port('can_h'), wiring.port('can_l'), wiring.port('ground')];
  const [middle, level] = [wiring.inside('can_middle'), wiring.inside('can_level')];
  wiring.resistor('can_h_input', high, middle, fields.can_input_resistance);
  wiring.resistor('can_l_input', low, middle, fields.can_input_resistance);
  wiring.source('can_recessive', level, ground, RECESSIVE_LEVEL, 0);
  wiring.relay('can_driver', level, middle, {
    coil: [awake, ground], pickUp: workingVoltage, dropOut: BROWN_OUT * workingVoltage, contact: 'makes', resistance: DRIVER_RESISTANCE, polarised: true,
  });
  wireCan(fields, wiring);
}

const RECESSIVE_LEVEL = 2.5;
/** Small beside the input resistances it feeds. */
const DRIVER_RESISTANCE = 100;
/** Once working, electronics go on working a little below the voltage they start at. */
export const BROWN_OUT = 0.9;
