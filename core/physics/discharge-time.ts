/** How long a capacitor keeps a voltage, and what empties it in time. */
import { requirePositive } from './argument-rule.ts';

/**
 * Time for a resistor to take a capacitor from one voltage down to another: R C ln(from/to).
 *
 * @returns [s]; 0 when it starts at or below the end voltage
 * Source:  [closed-form]
 * Checked: checks/reference/discharge.iec-60204-1.check.ts
 */
export function dischargeTime(resistance: number, capacitance: number, from: number, to: number): number {
  requirePositive({ resistance, capacitance, from, to });
  return from <= to ? 0 : resistance * capacitance * Math.log(from / to);
}

export type DischargeResistor = { readonly outcome: 'resistor'; readonly resistance: number; /** at the start [W] */ readonly initialPower: number } | { readonly outcome: 'none_needed' };

/**
 * Highest resistance that takes a capacitor from one voltage down to another within a time, and the power it starts with.
 *
 * Source, Checked: as `dischargeTime`
 */
export function resistorForDischarge(capacitance: number, from: number, to: number, time: number): DischargeResistor {
  requirePositive({ capacitance, from, to, time });
  if (from <= to) return { outcome: 'none_needed' };
  const resistance = time / (capacitance * Math.log(from / to));
  return { outcome: 'resistor', resistance, initialPower: (from * from) / resistance };
}

/** Voltage of a capacitor after a time on a resistor [V]. Source: [closed-form]. */
export function dischargeVoltage(resistance: number, capacitance: number, from: number, time: number): number {
  requirePositive({ resistance, capacitance, from });
  if (!(Number.isFinite(time) && time >= 0)) throw new RangeError(`time must be finite and >= 0, got ${time}`);
  return from * Math.exp(-time / (resistance * capacitance));
}

/**
 * Time for an active discharge that takes constant power to bring a capacitor down: C (from² - to²)/(2 P).
 *
 * @param power  [W]
 * @returns [s]; 0 when it starts at or below the end voltage
 * Source:  [closed-form]
 */
export function activeDischargeTime(power: number, capacitance: number, from: number, to: number): number {
  requirePositive({ power, capacitance, from, to });
  return from <= to ? 0 : (capacitance * (from ** 2 - to ** 2)) / (2 * power);
}
