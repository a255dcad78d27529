/** How far apart two batteries may stand when they are joined in parallel, and what flows between them. */
import { requireNotNegative, requirePositive } from './argument-rule.ts';

export interface EqualisingDecay {
  /** at the moment of joining [A]; it dies away as exp(-t / timeConstant) */
  readonly current: number;
  /** [s] */
  readonly timeConstant: number;
  /** lost as heat in all [J] */
  readonly heat: number;
  /** until one hundredth of the current is left [s] */
  readonly settled: number;
}

/**
 * A loop of batteries, each taken as a capacitor of charge over slope, all in series round the loop.
 * @param loop  difference before joining [V] >= 0, resistance round the loop [ohm] > 0, capacitance of all in series [F] > 0
 * Range:   differences within which the slope of the cells holds; diffusion makes the tail slower than computed
 * Source:  [closed-form] capacitors through a resistor: I = dV/R, tau = R C, heat = C dV^2 / 2 whatever the resistance
 * Checked: checks/reference/order-equalising.two-capacitors.check.ts
 */
export function equaliseByCapacity({ difference, resistance, capacitance }: { readonly difference: number; readonly resistance: number; readonly capacitance: number }): EqualisingDecay {
  requireNotNegative({ difference });
  requirePositive({ resistance, capacitance });
  const timeConstant = resistance * capacitance;
  return { current: difference / resistance, timeConstant, heat: (capacitance * difference ** 2) / 2, settled: timeConstant * Math.log(100) };
}

export interface LargestDifference {
  /** [V] */
  readonly difference: number;
  readonly by: 'cells' | 'common practice' | 'fuse' | 'cable';
  /** current at the moment of joining at that difference [A] */
  readonly current: number;
}

/**
 * The largest difference at which a loop may be closed, by one limit in it.
 *
 * The first current counts as if it stayed: cautious, because it only falls. A fuse whose melting integral is known may see more, as long
 * as all of the decay together, I^2 tau / 2, stays below that integral.
 * @param limit  current for good [A] > 0; melting integral of a fuse [A2.s]
 * @param resistance  round the loop [ohm] > 0   @param timeConstant  of the decay [s]; undefined: not known
 * Source:  [closed-form] Ohm's law; integral of (I exp(-t/tau))^2 = I^2 tau / 2
 * Checked: checks/reference/order-equalising.two-capacitors.check.ts
 */
export function largestDifference(limit: { readonly what: LargestDifference['by']; readonly current: number; readonly heating?: number }, resistance: number, timeConstant: number | undefined): LargestDifference {
  requirePositive({ resistance, limit: limit.current });
  const byHeat = limit.heating !== undefined && limit.heating > 0 && timeConstant !== undefined && timeConstant > 0 ? Math.sqrt((2 * limit.heating) / timeConstant) : 0;
  const current = Math.max(limit.current, byHeat);
  return { difference: current * resistance, by: limit.what, current };
}
