/**
 * Temperature of a conductor under a current that changes in steps, repeated or once.
 *
 * One thermal mass, one constant heat path, resistance that grows with temperature: c dT/dt = I²R(T) - G (T - Ta).
 * Linear, so each step is solved exactly: T moves towards (or away from) its resting value as one exponential.
 */
import { requireFinite, requireNotNegative, requirePositive } from './argument-rule.ts';
import { conductorMetals, REFERENCE_TEMPERATURE, type ConductorMaterial } from './conductor-resistance.ts';

export interface ThermalMass {
  /** at 20 °C, per length [ohm/m] or whole [ohm] */
  readonly resistance20: number;
  readonly material: ConductorMaterial;
  /** [J/(K.m)] or [J/K] */
  readonly heatCapacity: number;
  /** heat given off per kelvin above ambient [W/(K.m)] or [W/K] */
  readonly conductance: number;
}

/** A current held for a time. */
export interface DutyStep { /** [A] */ readonly current: number; /** [s] */ readonly time: number }

export type PeriodicTemperature =
  | { readonly outcome: 'periodic'; readonly peak: number; readonly lowest: number; readonly mean: number; readonly atStart: number }
  /** each period ends hotter than it began, for good: the heat path cannot keep up with the growing resistance */
  | { readonly outcome: 'runaway'; readonly growthPerPeriod: number };

/**
 * Peak, lowest and mean temperature of a conductor once a repeated duty has settled.
 *
 * @param duty     steps of one period, in order; total time > 0
 * @param ambient  [K]
 * @returns temperatures [K] of the settled period, or `runaway`
 * Range:   one thermal mass: steps much shorter than the heat's way through the insulation are averaged, not resolved
 * Errors:  throws on a duty without time, or numbers that are not finite
 * Source:  closed form of the linear balance
 * Checked: duty-heating.test.ts (against stepwise integration and the steady state)
 */
export function periodicTemperature(mass: ThermalMass, duty: readonly DutyStep[], ambient: number): PeriodicTemperature {
  const steps = checkedSteps(mass, duty, ambient);
  // rise above ambient after the period = gain * rise before + offset
  let gain = 1;
  let offset = 0;
  for (const step of steps) {
    gain *= step.gain;
    offset = step.gain * offset + step.offset;
  }
  if (gain >= 1) return { outcome: 'runaway', growthPerPeriod: gain };
  const atStart = offset / (1 - gain);
  let rise = atStart;
  let peak = atStart;
  let lowest = atStart;
  let area = 0;
  let time = 0;
  for (const step of steps) {
    area += step.areaOf(rise);
    time += step.time;
    rise = step.gain * rise + step.offset;
    peak = Math.max(peak, rise);
    lowest = Math.min(lowest, rise);
  }
  return { outcome: 'periodic', peak: ambient + peak, lowest: ambient + lowest, mean: ambient + area / time, atStart: ambient + atStart };
}

/**
 * Temperature of a conductor at the end of each step of a duty that runs once.
 *
 * @param start  temperature before the first step [K]
 * @returns one temperature [K] per step; within a step the temperature only rises or only falls
 * Source, Checked: as `periodicTemperature`
 */
export function temperaturesAfter(mass: ThermalMass, duty: readonly DutyStep[], ambient: number, start: number): readonly number[] {
  requirePositive({ start });
  let rise = start - ambient;
  return checkedSteps(mass, duty, ambient).map((step) => ambient + (rise = step.gain * rise + step.offset));
}

/** Current [A] whose square is the mean square of a duty: what a steady current of the same heat would be. */
export function rootMeanSquareCurrent(duty: readonly DutyStep[]): number {
  const time = duty.reduce((sum, step) => sum + step.time, 0);
  requirePositive({ 'total time of the duty': time });
  return Math.sqrt(duty.reduce((sum, step) => sum + step.current ** 2 * step.time, 0) / time);
}

interface SolvedStep { readonly time: number; readonly gain: number; readonly offset: number; readonly areaOf: (start: number) => number }

function checkedSteps(mass: ThermalMass, duty: readonly DutyStep[], ambient: number): readonly SolvedStep[] {
  requirePositive({ resistance20: mass.resistance20, heatCapacity: mass.heatCapacity, ambient });
  requireNotNegative({ conductance: mass.conductance });
  for (const step of duty) {
    requireFinite({ current: step.current });
    requireNotNegative({ time: step.time });
  }
  requirePositive({ 'total time of the duty': duty.reduce((sum, step) => sum + step.time, 0) });
  return duty.map((step) => solveStep(mass, step, ambient));
}

/** Rise above ambient r: dr/dt = pull - rate r  ->  r(t) = e^(-rate t) r0 + pull (1 - e^(-rate t)) / rate. */
function solveStep(mass: ThermalMass, { current, time }: DutyStep, ambient: number): SolvedStep {
  const alpha = conductorMetals[mass.material].coefficient20;
  const rate = (mass.conductance - current * current * mass.resistance20 * alpha) / mass.heatCapacity;
  const pull = (current * current * mass.resistance20 * (1 + alpha * (ambient - REFERENCE_TEMPERATURE))) / mass.heatCapacity;
  const gain = Math.exp(-rate * time);
  // (1 - e^(-x)) / rate and the integral of it, without dividing by a rate near zero
  const ramp = time * share(rate * time);
  const rampArea = time * time * shareArea(rate * time);
  return { time, gain, offset: pull * ramp, areaOf: (start) => start * ramp + pull * rampArea };
}

/** (1 - e^(-x)) / x */
function share(x: number): number {
  return Math.abs(x) < 1e-12 ? 1 - x / 2 : -Math.expm1(-x) / x;
}

/** (x - 1 + e^(-x)) / x² */
function shareArea(x: number): number {
  if (Math.abs(x) < 1e-3) return 1 / 2 - x / 6 + (x * x) / 24 - x ** 3 / 120;
  return (x + Math.expm1(-x)) / (x * x);
}
