/**
 * The 12 V side of a high-voltage part's own electronics: supply and ground, a wake-up input where there is one,
 * what it takes awake and what it takes asleep.
 * Without a wake-up input it is awake whenever the supply is there.
 */
import type { Port } from '../../part/kind.ts';
import type { RealisedFields } from '../../part/field.ts';
import type { ConsumerRole } from '../../part/role.ts';
import type { ElementChange } from '../../part/failure.ts';
import type { Wiring } from '../../part/wiring.ts';
import { flag, fromHandbook } from '../../part/field.ts';

/** @param row catalogue row of the power such electronics usually take */
export const controlSupplyFields = (row: string) => ({
  supply_power: fromHandbook('power', row, 'what its electronics take from the 12 V supply while awake', { example: '12 W measured', minimum: 0, maximum: 500, aboveMinimum: true }),
  minimum_supply_voltage: fromHandbook('voltage', 'control.minimum_supply_voltage', 'lowest 12 V supply it works at', { example: '9 V datasheet', minimum: 0, maximum: 60, aboveMinimum: true }),
  maximum_supply_voltage: fromHandbook('voltage', 'control.maximum_supply_voltage', 'highest 12 V supply it bears', { example: '16 V datasheet', minimum: 0, maximum: 60, aboveMinimum: true }),
  sleep_current: fromHandbook('current', 'control.sleep_current', 'what it takes from the 12 V supply while asleep; used only with an enable input', { example: '0.3 mA measured', minimum: 0, maximum: 1, aboveMinimum: true }),
  enable_input: flag('it sleeps until 12 V arrives at its port `enable`'),
  enable_voltage: fromHandbook('voltage', 'control.enable_voltage', 'voltage at `enable` that wakes it', { example: '6 V', minimum: 0, maximum: 60, aboveMinimum: true }),
  enable_resistance: fromHandbook('resistance', 'control.enable_resistance', 'of the input `enable` to ground', { example: '10 kΩ', minimum: 0, maximum: 1e8, aboveMinimum: true }),
}) as const;

export type ControlSupplyValues = RealisedFields<ReturnType<typeof controlSupplyFields>>;

export const controlSupplyPorts = (fields: { readonly enable_input?: boolean | undefined }): readonly Port[] => [
  { name: 'supply', carries: 'low_voltage', meaning: '12 V supply of its electronics', holds: 2, pole: 'positive' },
  { name: 'ground', carries: 'low_voltage', meaning: 'ground of its electronics', holds: 2, pole: 'negative' },
  ...(fields.enable_input === true ? [{ name: 'enable', carries: 'signal', meaning: 'wake-up input: 12 V wakes it', holds: 1 } as const] : []),
];

/**
 * Elements `electronics` and, with an enable input, `wake`, `sleep` and `enable_input`.
 * @returns the point that carries 12 V while the electronics are awake
 */
export function wireControlSupply(fields: ControlSupplyValues, wiring: Wiring): string {
  const supply = wiring.port('supply');
  const ground = wiring.port('ground');
  if (fields.enable_input !== true) {
    wiring.powerLoad('electronics', supply, ground, fields.supply_power, fields.minimum_supply_voltage);
    return supply;
  }
  const enable = wiring.port('enable');
  const awake = wiring.inside('awake');
  wiring.resistor('enable_input', enable, ground, fields.enable_resistance);
  // electronic switch: 10 mΩ, lets go at two thirds of the wake-up voltage; common practice, no source
  wiring.relay('wake', supply, awake, { coil: [enable, ground], pickUp: fields.enable_voltage, dropOut: (2 / 3) * fields.enable_voltage, contact: 'makes', resistance: 0.01, polarised: true });
  wiring.powerLoad('electronics', awake, ground, fields.supply_power, fields.minimum_supply_voltage);
  wiring.currentLoad('sleep', supply, ground, fields.sleep_current, 1);
  return awake;
}

export const controlConsumer = (name: string, fields: ControlSupplyValues): ConsumerRole => ({
  name, positive: 'supply', negative: 'ground', element: 'electronics',
  minimumVoltage: fields.minimum_supply_voltage, maximumVoltage: fields.maximum_supply_voltage,
  ...(fields.enable_input === true ? { standbyElement: 'sleep' } : {}),
});

/** It no longer wakes: the wake-up path is broken where there is one, else its electronics take nothing. */
export const staysAsleep = (fields: ControlSupplyValues): readonly ElementChange[] =>
  fields.enable_input === true ? [{ element: 'wake', becomes: 'stuck_open' }] : [{ element: 'electronics', becomes: 'open' }];
