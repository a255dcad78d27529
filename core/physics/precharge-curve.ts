/**
 * A capacitor charged through a resistor from a pack, while something already draws from it.
 *
 * Invariants of `PrechargeCircuit`: the power and current loads keep their value down to `knee` volts and are resistors
 * below it (as the loads of the network solver do), so everything is defined and continuous at 0 V.
 *
 * Everything here is closed form: below the knee, and without a power load, one exponential; with a power load the
 * capacitor current is (-a v² + b v - P)/v, whose integral has two logarithms. Energies above the knee are integrated numerically.
 */
import { requireFinite, requireNotNegative, requirePositive } from './argument-rule.ts';
import { bracketedRoot } from '../solve/bracketed-root.ts';
import { integral } from './integral.ts';

export interface PrechargeCircuit {
  /** open-circuit voltage behind the resistor [V] */
  readonly source: number;
  /** everything between source and capacitor: resistor, pack, wiring [ohm] */
  readonly resistance: number;
  /** [F] */
  readonly capacitance: number;
  /** resistor across the capacitor (bleeder, divider) [ohm]; absent: none */
  readonly loadResistance?: number;
  /** constant current drawn from the capacitor [A], >= 0; absent: none */
  readonly loadCurrent?: number;
  /** constant power drawn from the capacitor [W], >= 0; absent: none */
  readonly loadPower?: number;
  /** voltage below which the current and power loads are resistors [V]; absent: 1 V */
  readonly knee?: number;
}

export type PrechargeTime =
  | { readonly outcome: 'reached'; readonly time: number }
  /** the load holds the capacitor at `stall` volts for good */
  | { readonly outcome: 'never'; readonly stall: number };

/**
 * Time for the capacitor to rise from one voltage to another.
 *
 * @param target  [V]
 * @param start   [V], >= 0
 * @returns time [s] (0 when it starts at or above the target), or `never` with the voltage at which it stalls
 * Range:   constant resistance and source
 * Errors:  throws on values that are not finite, resistance, capacitance or source not > 0, negative loads
 * Source:  [closed-form]; without load [ti-tiduf73] eq. 1: v = V (1 - e^(-t/RC))
 * Checked: checks/reference/precharge.closed-form.check.ts, precharge-curve.test.ts
 */
export function prechargeTime(circuit: PrechargeCircuit, target: number, start = 0): PrechargeTime {
  const model = modelOf(circuit);
  requireFinite({ target });
  requireNotNegative({ start });
  if (start >= target) return { outcome: 'reached', time: 0 };
  const stall = settlesAt(model, start);
  if (target >= stall) return { outcome: 'never', stall };
  return { outcome: 'reached', time: risingTime(model, start, target) };
}

/** Voltage at which the capacitor comes to rest when nothing else happens [V], from a start voltage. Source: [closed-form]. */
export function prechargeEndVoltage(circuit: PrechargeCircuit, start = 0): number {
  requireNotNegative({ start });
  return settlesAt(modelOf(circuit), start);
}

/**
 * Capacitor voltage some time after precharge began, for a capacitor that rises (or rests).
 *
 * @param time  [s], >= 0
 * @returns [V]
 * Errors:  throws when the capacitor would fall from `start` (it starts above where it settles)
 * Source, Checked: as `prechargeTime`
 */
export function prechargeVoltage(circuit: PrechargeCircuit, time: number, start = 0): number {
  const model = modelOf(circuit);
  requireNotNegative({ time, start });
  const stall = settlesAt(model, start);
  if (stall < start) throw new RangeError(`the capacitor falls from ${start} V to ${stall} V: precharge only describes a rise`);
  if (time === 0 || stall === start) return start;
  // distance to the end shrinks by an exponential at most as fast as 1/(RC) per its slowest part: search in its logarithm
  const gap = (depth: number): number => risingTime(model, start, stall - (stall - start) * Math.exp(-depth)) - time;
  const deepest = 34;
  if (gap(deepest) <= 0) return stall;
  return stall - (stall - start) * Math.exp(-bracketedRoot(gap, 0, deepest));
}

/** Current through the precharge resistor at a capacitor voltage [A]: (V - v)/R; highest at the start. */
export function prechargeCurrent(circuit: PrechargeCircuit, voltage: number): number {
  requireFinite({ voltage });
  return (circuit.source - voltage) / circuit.resistance;
}

export type PrechargeEnergy =
  | { readonly outcome: 'reached'; readonly time: number; readonly inResistor: number; readonly fromSource: number; readonly inLoad: number; /** highest power in the resistor [W] */ readonly peakPower: number }
  | { readonly outcome: 'never'; readonly stall: number; /** power that stays in the resistor at the stall [W] */ readonly stallPower: number };

/**
 * Energy that one precharge puts into the resistor, and its split.
 *
 * Without a load and taken to the end it is C V²/2, whatever the resistor.
 *
 * @returns energies [J] from start to target, or `never` with the power at the stall
 * Source:  [closed-form]; [ti-tiduf73] eq. 4 without load
 * Checked: checks/reference/precharge.closed-form.check.ts; energy balance in precharge-curve.test.ts
 */
export function prechargeEnergy(circuit: PrechargeCircuit, target: number, start = 0): PrechargeEnergy {
  const reached = prechargeTime(circuit, target, start);
  const { source, resistance, capacitance } = circuit;
  if (reached.outcome === 'never') return { outcome: 'never', stall: reached.stall, stallPower: (source - reached.stall) ** 2 / resistance };
  const peakPower = (source - Math.min(start, source)) ** 2 / resistance;
  if (start >= target) return { outcome: 'reached', time: 0, inResistor: 0, fromSource: 0, inLoad: 0, peakPower };
  const model = modelOf(circuit);
  const sum = (valueAt: (voltage: number) => number): number => overRise(model, start, target, valueAt);
  const inResistor = sum((voltage) => (source - voltage) ** 2 / resistance);
  const fromSource = sum((voltage) => (source * (source - voltage)) / resistance);
  const stored = (capacitance * (target ** 2 - start ** 2)) / 2;
  return { outcome: 'reached', time: reached.time, inResistor, fromSource, inLoad: Math.max(0, fromSource - inResistor - stored), peakPower };
}

/**
 * Mean power in the resistor when precharge is tried again and again.
 *
 * @param energy  in the resistor per attempt [J]
 * @param every   time from one attempt to the next [s]
 * @returns [W]
 * Source:  [resistor-maker-note] average power = attempts x energy / time
 */
export function repeatedPrechargePower(energy: number, every: number): number {
  requireNotNegative({ energy });
  requirePositive({ every });
  return energy / every;
}

/**
 * Resistor that precharges a capacitor within a time, without load.
 *
 * @param share  of the source voltage to be reached [1], 0..1 exclusive
 * @returns highest resistance [ohm]
 * Source:  [ti-tiduf73] eq. 2 (five time constants): t = R C ln(1/(1 - share))
 * Checked: checks/reference/precharge.closed-form.check.ts
 */
export function resistorForPrecharge(capacitance: number, time: number, share: number): number {
  requirePositive({ capacitance, time });
  if (!(share > 0 && share < 1)) throw new RangeError(`share must be between 0 and 1, got ${share}`);
  return time / (capacitance * -Math.log1p(-share));
}

/** Coefficients of C dv/dt = (b v - a v² - P)/v above the knee and b0 - a0 v below it. */
interface Model { readonly capacitance: number; readonly knee: number; readonly a: number; readonly b: number; readonly power: number; readonly aBelow: number; readonly bBelow: number; readonly isOneLine: boolean }

function modelOf(circuit: PrechargeCircuit): Model {
  const { source, resistance, capacitance } = circuit;
  const current = circuit.loadCurrent ?? 0;
  const power = circuit.loadPower ?? 0;
  const knee = circuit.knee ?? 1;
  requirePositive({ source, resistance, capacitance, knee });
  requireNotNegative({ loadCurrent: current, loadPower: power });
  if (circuit.loadResistance !== undefined) requirePositive({ loadResistance: circuit.loadResistance });
  const a = 1 / resistance + (circuit.loadResistance === undefined ? 0 : 1 / circuit.loadResistance);
  return {
    capacitance, knee, a, b: source / resistance - current, power,
    aBelow: a + current / knee + power / knee ** 2, bBelow: source / resistance, isOneLine: current === 0 && power === 0,
  };
}

/** Current into the capacitor at a voltage [A]. */
function currentInto(model: Model, voltage: number): number {
  if (model.isOneLine || voltage < model.knee) return model.bBelow - model.aBelow * voltage;
  return model.b - model.a * voltage - model.power / voltage;
}

function settlesAt(model: Model, start: number): number {
  const below = model.bBelow / model.aBelow;
  if (model.isOneLine) return below;
  // below the knee everything is one resistor network; if that settles there, a start below the knee never leaves
  const roots = rootsAbove(model);
  const atKnee = currentInto(model, model.knee);
  const settlesBelow = atKnee <= 0 ? below : undefined;
  if (roots === undefined) return settlesBelow ?? below;
  if (start < model.knee) return settlesBelow ?? roots.high;
  // above the knee it rises between the roots, and falls above the higher or below the lower one
  return start <= roots.low && settlesBelow !== undefined ? settlesBelow : roots.high < model.knee ? below : roots.high;
}

/** Voltages above the knee law at which the capacitor current is zero; undefined when there are none. */
function rootsAbove(model: Model): { low: number; high: number } | undefined {
  const { a, b, power } = model;
  const discriminant = b * b - 4 * a * power;
  if (b <= 0 || discriminant < 0) return undefined;
  const high = (b + Math.sqrt(discriminant)) / (2 * a);
  return { low: power === 0 ? 0 : power / (a * high), high };
}

/** Time from start to target, both below the settling voltage. */
function risingTime(model: Model, start: number, target: number): number {
  if (model.isOneLine) return lineTime(model.capacitance, model.aBelow, model.bBelow, start, target);
  let time = 0;
  const knee = model.knee;
  if (start < knee) time += lineTime(model.capacitance, model.aBelow, model.bBelow, start, Math.min(target, knee));
  if (target > knee) time += curveTime(model, Math.max(start, knee), target);
  return time;
}

function lineTime(capacitance: number, a: number, b: number, from: number, to: number): number {
  const rest = b / a;
  return (-capacitance / a) * Math.log1p(-(to - from) / (rest - from));
}

/** Integral of C v dv / (a (v - low)(high - v)). */
function curveTime(model: Model, from: number, to: number): number {
  const { low, high } = rootsAbove(model)!;
  const lower = low === 0 ? 0 : low * Math.log((to - low) / (from - low));
  const upper = -high * Math.log1p(-(to - from) / (high - from));
  return (model.capacitance / (model.a * (high - low))) * (lower + upper);
}

/** Integral over time of a value given by the capacitor voltage, split at the knee. */
function overRise(model: Model, start: number, target: number, valueAt: (voltage: number) => number): number {
  const below = { rest: model.bBelow / model.aBelow, flow: (_: number, left: number) => model.aBelow * left };
  if (model.isOneLine || target <= model.knee) return stretch(model.capacitance, start, target, below, valueAt);
  const roots = rootsAbove(model)!;
  const above = { rest: roots.high, flow: (voltage: number, left: number) => (model.a * (voltage - roots.low) * left) / voltage };
  if (start >= model.knee) return stretch(model.capacitance, start, target, above, valueAt);
  return stretch(model.capacitance, start, model.knee, below, valueAt) + stretch(model.capacitance, model.knee, target, above, valueAt);
}

/** One law of capacitor current: where it would rest, and the current at a voltage that is `left` volts short of it. */
interface Law { readonly rest: number; readonly flow: (voltage: number, left: number) => number }

/** u = -ln of the share of the way left makes the integrand smooth however close the end is to the resting point. */
function stretch(capacitance: number, from: number, to: number, law: Law, valueAt: (voltage: number) => number): number {
  const way = law.rest - from;
  const depth = -Math.log1p(-(to - from) / way);
  return integral((u) => {
    const left = way * Math.exp(-u);
    const voltage = law.rest - left;
    return (capacitance * left * valueAt(voltage)) / law.flow(voltage, left);
  }, 0, depth, 1e-12);
}
