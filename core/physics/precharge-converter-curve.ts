/**
 * A capacitor charged by a converter from the low-voltage side: constant current, then constant power, up to a set voltage.
 */
import { requireNotNegative, requirePositive } from './argument-rule.ts';

export interface PrechargeConverter {
  /** highest output voltage [V] */
  readonly setVoltage: number;
  /** output current limit [A] */
  readonly currentLimit: number;
  /** output power limit [W] */
  readonly powerLimit: number;
  /** output power / input power [1], 0..1 */
  readonly efficiency: number;
  /** low-voltage supply at its terminals [V] */
  readonly supply: number;
}

export type ConverterPrecharge =
  | {
      readonly outcome: 'reached'; readonly time: number;
      /** taken from the low-voltage side [J] */
      readonly supplyEnergy: number;
      /** highest current on the low-voltage side [A] */
      readonly peakSupplyCurrent: number;
      readonly chargeFromSupply: number;
    }
  | { readonly outcome: 'never'; readonly stall: number };

/**
 * Time for a converter to bring a capacitor with a bleeder across it to a voltage, and what the low-voltage side gives.
 *
 * Below powerLimit/currentLimit volts the current is constant, above it the power.
 *
 * @param capacitance     [F]
 * @param loadResistance  across the capacitor [ohm]; undefined: none
 * @param target, start   [V]
 * @returns time and supply side, or `never` with the voltage at which it stalls
 * Errors:  throws on values not > 0, or an efficiency above 1
 * Source:  [closed-form] v linear (or one exponential) at constant current; v² likewise at constant power
 * Checked: precharge-converter-curve.test.ts (numerical integration, energy balance)
 */
export function converterPrecharge(converter: PrechargeConverter, capacitance: number, loadResistance: number | undefined, target: number, start = 0): ConverterPrecharge {
  const { setVoltage, currentLimit, powerLimit, efficiency, supply } = converter;
  requirePositive({ setVoltage, currentLimit, powerLimit, efficiency, supply, capacitance });
  if (efficiency > 1) throw new RangeError(`efficiency must be at most 1, got ${efficiency}`);
  if (loadResistance !== undefined) requirePositive({ loadResistance });
  requireNotNegative({ target, start });
  if (start >= target) return { outcome: 'reached', time: 0, supplyEnergy: 0, peakSupplyCurrent: 0, chargeFromSupply: 0 };
  const load = loadResistance === undefined ? 0 : 1 / loadResistance;
  const corner = powerLimit / currentLimit;
  const stall = stallVoltage(converter, load, corner);
  if (target > setVoltage || target >= stall) return { outcome: 'never', stall: Math.min(setVoltage, stall) };
  const cornerEnd = Math.max(start, Math.min(corner, target));
  const currentTime = constantCurrentTime(currentLimit, capacitance, load, start, cornerEnd);
  const powerStart = Math.max(start, corner);
  const powerTime = target > powerStart ? constantPowerTime(powerLimit, capacitance, load, powerStart, target) : 0;
  // output energy at constant current: what is stored, and what the bleeder took meanwhile
  const output = powerLimit * powerTime + currentLimit * voltageIntegral(currentLimit, capacitance, load, start, cornerEnd, currentTime);
  const supplyEnergy = output / efficiency;
  const peakOutput = target >= corner ? powerLimit : currentLimit * target;
  return { outcome: 'reached', time: currentTime + powerTime, supplyEnergy, peakSupplyCurrent: peakOutput / (efficiency * supply), chargeFromSupply: supplyEnergy / supply };
}

function stallVoltage({ currentLimit, powerLimit }: PrechargeConverter, load: number, corner: number): number {
  if (load === 0) return Number.MAX_VALUE;
  const byCurrent = currentLimit / load;
  return byCurrent <= corner ? byCurrent : Math.sqrt(powerLimit / load);
}

/** C dv/dt = I - G v */
function constantCurrentTime(current: number, capacitance: number, load: number, from: number, to: number): number {
  if (to <= from) return 0;
  if (load === 0) return (capacitance * (to - from)) / current;
  return (-capacitance / load) * Math.log1p((-load * (to - from)) / (current - load * from));
}

/** C/2 d(v²)/dt = P - G v² */
function constantPowerTime(power: number, capacitance: number, load: number, from: number, to: number): number {
  const gain = to ** 2 - from ** 2;
  if (load === 0) return (capacitance * gain) / (2 * power);
  return (-capacitance / (2 * load)) * Math.log1p((-load * gain) / (power - load * from ** 2));
}

/** Integral of v over the constant-current stretch [V.s]. From C (to - from) = I t - G (integral of v). */
function voltageIntegral(current: number, capacitance: number, load: number, from: number, to: number, time: number): number {
  if (to <= from) return 0;
  if (load * time < 1e-6 * capacitance) return ((from + to) / 2) * time;
  return (current * time - capacitance * (to - from)) / load;
}
