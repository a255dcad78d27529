/**
 * The coil of a contactor or precharge relay: fields, ports, wiring and the numbers the contact follows.
 * A plain coil is a resistor. A coil with an economiser takes `pull_in_current` for a moment and then holds with
 * constant power, because its electronics regulate the holding current.
 */
import type { Port } from '../../part/kind.ts';
import type { RealisedFields } from '../../part/field.ts';
import type { ConsumerRole } from '../../part/role.ts';
import type { Wiring } from '../../part/wiring.ts';
import { choice, flag, fromHandbook, optional, required } from '../../part/field.ts';

export const coilFields = {
  coil_voltage: required('voltage', 'rated coil voltage', { example: '12 V label', minimum: 0, maximum: 110, aboveMinimum: true }),
  coil_current: fromHandbook('current', 'coil.hold_current', 'steady current at rated voltage once closed', { example: '0.42 A measured', minimum: 0, maximum: 10, aboveMinimum: true }),
  pick_up: optional('voltage', 'coil voltage at which it closes; used instead of the share', { example: '9 V datasheet', minimum: 0, maximum: 110, aboveMinimum: true }),
  pick_up_share: fromHandbook('ratio', 'coil.pick_up_share', 'share of the rated coil voltage at which it closes', { example: '75 %', minimum: 0, maximum: 1, aboveMinimum: true }),
  drop_out: optional('voltage', 'coil voltage below which it opens; used instead of the share', { example: '3 V datasheet', minimum: 0, maximum: 110, aboveMinimum: true }),
  drop_out_share: fromHandbook('ratio', 'coil.drop_out_share', 'share of the rated coil voltage below which it opens', { example: '25 %', minimum: 0, maximum: 1, aboveMinimum: true }),
  economiser: flag('electronics inside lower the coil current after pull-in'),
  pull_in_current: fromHandbook('current', 'coil.pull_in_current', 'current while it closes; used only with an economiser', { example: '3.8 A datasheet', minimum: 0, maximum: 30, aboveMinimum: true }),
  suppression: choice(['none', 'diode', 'clamp', 'internal'], 'what swallows the coil’s voltage spike when it is switched off', {
    need: 'optional',
    explain: { diode: 'one diode across the coil: slows the release', clamp: 'varistor or zener: quick release', internal: 'inside the contactor, do not add another' },
  }),
  operate_time: fromHandbook('time', 'coil.operate_time', 'from voltage at the coil to closed contact', { example: '20 ms', minimum: 0, maximum: 1 }),
  release_time: fromHandbook('time', 'coil.release_time', 'from coil switched off to open contact', { example: '12 ms', minimum: 0, maximum: 1 }),
} as const;

export type CoilValues = RealisedFields<typeof coilFields>;

export const coilSettings = {
  pulling_in: flag('the moment of closing: a coil with an economiser takes its pull-in current'),
} as const;

export const coilPorts: readonly Port[] = [
  { name: 'coil_a', carries: 'low_voltage', meaning: 'coil, positive side', holds: 1, pole: 'positive' },
  { name: 'coil_b', carries: 'low_voltage', meaning: 'coil, negative side', holds: 1, pole: 'negative' },
];

/** Coil voltage at which the contact moves, and its times, for `wiring.relay`. A drop-out above the pick-up counts as the pick-up. */
export function coilCommand(fields: CoilValues, wiring: Wiring) {
  return {
    coil: [wiring.port('coil_a'), wiring.port('coil_b')] as const,
    ...coilLimits(fields),
    polarised: isPolarised(fields),
    operateTime: fields.operate_time,
    releaseTime: fields.release_time,
  };
}

/** Elements `coil` and, with a diode, `suppressor`. */
export function wireCoil(fields: CoilValues, isPullingIn: boolean, wiring: Wiring): void {
  const a = wiring.port('coil_a');
  const b = wiring.port('coil_b');
  if (fields.economiser !== true) wiring.resistor('coil', a, b, fields.coil_voltage / fields.coil_current);
  else if (isPullingIn) wiring.resistor('coil', a, b, fields.coil_voltage / fields.pull_in_current);
  else wiring.powerLoad('coil', a, b, fields.coil_voltage * fields.coil_current, coilLimits(fields).dropOut);
  // 0.7 V and 20 mΩ: a 1 A silicon diode, common practice, no source
  if (fields.suppression === 'diode') wiring.diode('suppressor', b, a, 0.7, 0.02);
}

/** What the low-voltage subject needs to know of the coil. */
export const coilRole = (fields: CoilValues) => ({ element: 'coil', positive: 'coil_a', negative: 'coil_b', ...coilLimits(fields), releaseTime: fields.release_time });

/** A coil with an economiser is a consumer that takes more while it starts. */
export const coilConsumers = (name: string, fields: CoilValues): { consumers?: readonly ConsumerRole[] } =>
  fields.economiser === true
    ? { consumers: [{ name, positive: 'coil_a', negative: 'coil_b', minimumVoltage: coilLimits(fields).pickUp, maximumVoltage: undefined, element: 'coil', startCurrent: fields.pull_in_current, startTime: fields.operate_time }] }
    : {};

function coilLimits(fields: CoilValues): { pickUp: number; dropOut: number } {
  const pickUp = fields.pick_up ?? fields.pick_up_share * fields.coil_voltage;
  return { pickUp, dropOut: Math.min(pickUp, fields.drop_out ?? fields.drop_out_share * fields.coil_voltage) };
}

const isPolarised = (fields: CoilValues): boolean => fields.economiser === true || fields.suppression === 'diode';
