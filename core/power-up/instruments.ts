/**
 * What is read with what. Measurement categories say what a meter survives when the circuit it hangs on strikes through it:
 * CAT II a plugged-in appliance, CAT III a fixed installation, CAT IV the incoming supply; IEC 61010-031 and IEC 61010-2-033, from
 * memory. They are made for mains; for a battery the trade takes CAT III of at least the pack's voltage, because it drives
 * thousands of amperes too.
 */
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';

export interface Instrument {
  readonly name: string;
  /** as printed beside its sockets; undefined: no category is asked for */
  readonly category: string | undefined;
  /** share of the reading, and a fixed part [SI]: what it may be out by; common practice, no source */
  readonly share: number;
  readonly fixed: number;
}

/** Voltages that stand beside a category, direct [V]. */
const categoryVoltages = [300, 600, 1000, 1500] as const;

/** @param voltage  highest that may stand at the probes [V] */
export function category(voltage: number): string | undefined {
  if (voltage <= CLASS_A_HIGHEST) return 'CAT II 300 V';
  const rated = categoryVoltages.find((step) => step >= voltage && step >= 600);
  return rated === undefined ? undefined : `CAT III ${rated} V`;
}

/** 10 MΩ, ±(0.5 % + two digits: 0.02 V on the ranges for 12 V, 0.3 V on those above 60 V). */
export const voltmeter = (voltage: number): Instrument => ({ name: 'digital multimeter, DC volts, 10 MΩ', category: category(voltage), share: 0.005, fixed: voltage > CLASS_A_HIGHEST ? 0.3 : 0.02 });
/** ±(1 % + 0.2 Ω, leads taken off). */
export const ohmmeter: Instrument = { name: 'digital multimeter, ohms, leads zeroed', category: 'CAT II 300 V', share: 0.01, fixed: 0.2 };
/** ±3 %. */
export const insulationTester = (testVoltage: number, voltage: number): Instrument => ({ name: `insulation tester, ${testVoltage} V`, category: category(voltage), share: 0.03, fixed: 0 });
/** Direct current by Hall sensor, ±(2 % + 0.2 A, zeroed beside the cable). */
export const clampMeter = (voltage: number): Instrument => ({ name: 'DC clamp meter, zeroed beside the cable', category: category(voltage), share: 0.02, fixed: 0.2 });
/** What stands on a bench source, ±(1 % + 0.5 % of its highest current). @param highest  [A] */
export const sourceAmmeter = (highest: number): Instrument => ({ name: 'ammeter of the source', category: undefined, share: 0.01, fixed: 0.005 * highest });
/** A hand and a watch. */
export const stopwatch = (voltage: number): Instrument => ({ name: 'stopwatch, and the multimeter on the link', category: category(voltage), share: 0, fixed: 0.3 });

/** Test voltages of insulation testers [V]. */
export const testVoltages = [50, 100, 250, 500, 1000] as const;

/**
 * Test voltage for a part: the least step at or above the highest working voltage ([iso-6469-3] 8.2.2); if the part does not bear
 * that, the highest step it bears that is at least half the working voltage ([un-r100] annex 4A).
 * @returns undefined when there is none: it must be unplugged for the test
 */
export function testVoltageFor(workingVoltage: number, bears: number | undefined): number | undefined {
  const wanted = testVoltages.find((step) => step >= workingVoltage) ?? testVoltages.at(-1)!;
  if (bears === undefined || wanted <= bears) return wanted;
  return [...testVoltages].reverse().find((step) => step <= bears && step >= workingVoltage / 2);
}

/** Series of resistor values with six or twelve a decade that every shop has (IEC 60063, E12). */
const E12 = [10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82] as const;

/** The resistor of the three-reading method: near (required Ω/V × pack voltage), ± 20 %, [un-r100] annex 4B note 1. @returns [ohm] */
export function knownResistor(perVolt: number, packVoltage: number): number {
  const wanted = Math.max(1, perVolt * packVoltage);
  const decade = 10 ** (Math.floor(Math.log10(wanted)) - 1);
  return [...E12.map((step) => step * decade), 100 * decade].reduce((best, one) => (Math.abs(Math.log(one / wanted)) < Math.abs(Math.log(best / wanted)) ? one : best));
}
