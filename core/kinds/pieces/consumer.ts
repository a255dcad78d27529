/**
 * What all low-voltage consumers have in common: the fields about their supply, and how they take current.
 *
 * A consumer either runs whenever it is fed (a lamp behind a relay), or has electronics of its own and runs when told
 * (a pump with a signal wire). Told or not, it hangs behind the element `own_switch`, so that the taking element exists
 * in every state; a consumer that waits for its command may take a standby current in front of that switch.
 */
import { choice, flag, fromHandbook, optional, required } from '../../part/field.ts';
import type { Failure } from '../../part/failure.ts';
import type { Port } from '../../part/kind.ts';
import type { ConsumerRole } from '../../part/role.ts';
import type { Wiring } from '../../part/wiring.ts';

/** Voltages between which it works, and the voltage its current is stated for. */
export const supplyFields = {
  rated_voltage: fromHandbook('voltage', 'consumer.rated_voltage', 'voltage at which its current is stated', { example: '13.5 V label', minimum: 0, aboveMinimum: true, maximum: 60 }),
  minimum_voltage: fromHandbook('voltage', 'consumer.minimum_voltage', 'lowest voltage at its own terminals at which it still works', { isLimit: true, example: '9 V datasheet', minimum: 0, aboveMinimum: true, maximum: 60 }),
  maximum_voltage: fromHandbook('voltage', 'consumer.maximum_voltage', 'highest voltage at its own terminals that it stands for good', { isLimit: true, example: '16 V datasheet', minimum: 0, aboveMinimum: true, maximum: 100 }),
  standby_current: optional('current', 'current it takes as long as it is fed, off or asleep; silent means none', { example: '0.5 mA datasheet', minimum: 0, aboveMinimum: true }),
} as const;

export const consumerFields = {
  current: required('current', 'current it takes at its rated voltage when it runs, besides its standby current', { example: '4.5 A label', minimum: 0, aboveMinimum: true }),
  ...supplyFields,
  start_current: optional('current', 'highest current while it starts: cold lamp, stalled motor; silent means no more than when it runs', { example: '18 A measured', minimum: 0, aboveMinimum: true }),
  start_time: optional('time', 'how long the starting current lasts', { example: '80 ms', minimum: 0, aboveMinimum: true }),
  runs: choice(['when_fed', 'when_told'], 'what makes it run; silent means when_fed', {
    need: 'optional', fallback: 'when_fed', explain: { when_fed: 'it runs as long as it has voltage', when_told: 'it has a switch or electronics of its own: the settings decide' },
  }),
} as const;

export const startingSetting = flag('it is starting and takes its starting current');

export const supplyPorts: readonly Port[] = [
  { name: 'supply', carries: 'low_voltage', meaning: 'supply', holds: 2, pole: 'positive' },
  { name: 'ground', carries: 'low_voltage', meaning: 'return to the battery or the chassis', holds: 2, pole: 'negative' },
];

export interface ConsumerValues {
  readonly current: number; readonly rated_voltage: number; readonly minimum_voltage: number; readonly maximum_voltage: number;
  readonly standby_current: number | undefined; readonly start_current: number | undefined; readonly start_time: number | undefined;
  readonly runs: 'when_fed' | 'when_told' | undefined;
}

/** How its current follows its voltage. */
export type Draw = 'resistance' | 'current' | 'power';

/** The setting `on` decides; unset, it runs if it runs whenever it is fed. */
export function isRunning(fields: { readonly runs: 'when_fed' | 'when_told' | undefined }, on: boolean | undefined): boolean {
  return on ?? fields.runs !== 'when_told';
}

/**
 * Puts `own_switch`, `taking` and, when it has one, `standby` between the ports `supply` and `ground`.
 *
 * @param now.current  what it takes at its rated voltage in this state [A], > 0
 * @returns the inside point behind its own switch: fed when it runs
 */
export function wireConsumer(fields: ConsumerValues, now: { readonly running: boolean; readonly current: number; readonly draw: Draw }, wiring: Wiring): string {
  const [supply, ground, behind] = [wiring.port('supply'), wiring.port('ground'), wiring.inside('behind_switch')];
  wiring.switch('own_switch', supply, behind, now.running, OWN_SWITCH_RESISTANCE);
  if (now.draw === 'resistance') wiring.resistor('taking', behind, ground, fields.rated_voltage / now.current);
  if (now.draw === 'current') wiring.currentLoad('taking', behind, ground, now.current, fields.minimum_voltage);
  if (now.draw === 'power') wiring.powerLoad('taking', behind, ground, now.current * fields.rated_voltage, fields.minimum_voltage);
  if (fields.standby_current !== undefined) wiring.currentLoad('standby', supply, ground, fields.standby_current, fields.minimum_voltage);
  return behind;
}

/** The current now: the starting current while it starts. */
export function currentNow(fields: ConsumerValues, starting: boolean | undefined): number {
  return starting === true ? Math.max(fields.current, fields.start_current ?? 0) : fields.current;
}

export function consumerRole(name: string, fields: ConsumerValues): ConsumerRole {
  return {
    name, positive: 'supply', negative: 'ground', minimumVoltage: fields.minimum_voltage, maximumVoltage: fields.maximum_voltage, element: 'taking',
    ...(fields.standby_current !== undefined ? { standbyElement: 'standby' } : {}),
    ...(fields.start_current !== undefined ? { startCurrent: Math.max(fields.current, fields.start_current) } : {}),
    ...(fields.start_time !== undefined ? { startTime: fields.start_time } : {}),
  };
}

/** What every consumer can suffer: it takes nothing, or it takes everything. */
export function consumerFailures(open: string, shorted: string): readonly Failure<unknown>[] {
  return [
    { code: 'open_inside', meaning: open, likelihood: 5, changes: () => [{ element: 'taking', becomes: 'open' }] },
    { code: 'shorted_inside', meaning: shorted, likelihood: 1, changes: () => [{ element: 'taking', becomes: 'shorted', resistance: 0.05 }] },
  ];
}

/** Lower than any wire that feeds a consumer, so that it takes no visible share of the voltage. */
const OWN_SWITCH_RESISTANCE = 1e-4;
