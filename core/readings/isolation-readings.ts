/**
 * Isolation from the voltmeter readings of the steps before it, and where along the string a leak sits: a single leak brings the chassis to
 * the potential of the place where it is, so that V1 : V2 divides the string as the leak does.
 *
 * Source:  [un-r100] annex 4B (resistance); the voltage divider of the string (place)
 * Checked: core/readings/progress.test.ts
 */
import { isolationFromReadings } from '../physics/isolation.ts';
import { readEntered } from './entered.ts';
import { standing } from './log.ts';
import type { ReadStep } from './read-step.ts';
import { OBSERVATION } from './reading.ts';
import type { Reading } from './reading.ts';

export type IsolationRead =
  | { readonly outcome: 'resistance'; /** [ohm] */ readonly resistance: number; /** of a single leak, from the negative end, as a share of the string's voltage */ readonly leakAt: number }
  /** titles of the steps whose readings are missing */
  | { readonly outcome: 'missing'; readonly steps: readonly string[] }
  /** the readings cannot all be right; a sentence */
  | { readonly outcome: 'inconsistent'; readonly why: string };

/** @returns undefined when the step is not an isolation that is worked out */
export function isolationRead(step: ReadStep, steps: readonly ReadStep[], readings: readonly Reading[]): IsolationRead | undefined {
  if (step.measure?.is !== 'isolation' || !step.id.endsWith('.result')) return undefined;
  const { added } = step.measure;
  const stem = step.id.slice(0, -'.result'.length);
  const counting = standing(readings);
  const missing: string[] = [];
  const volts = (name: string): number => {
    const id = `${stem}.${name}`;
    const reading = counting.findLast((one) => one.step === id && one.quantity !== OBSERVATION);
    const read = reading && readEntered(reading.reading, 'voltage');
    if (read?.ok === true && read.value.is === 'value') return Math.abs(read.value.best);
    missing.push(steps.find((one) => one.id === id)?.title ?? id);
    return 0;
  };
  const [pack, negative, positive, withAdded] = [volts('pack'), volts('negative'), volts('positive'), volts('with-resistor')];
  if (missing.length > 0) return { outcome: 'missing', steps: missing };
  if (pack === 0) return { outcome: 'inconsistent', why: 'The pack reads 0 V.' };
  const found = isolationFromReadings({ pack, negative, positive, added, withAdded });
  switch (found.outcome) {
    case 'resistance': return { outcome: 'resistance', resistance: found.resistance, leakAt: negative / (negative + positive) };
    case 'too_high_to_read': return { outcome: 'inconsistent', why: 'Neither pole reads anything against the chassis: the isolation is beyond what this meter can tell, or a lead is off.' };
    case 'inconsistent': return { outcome: 'inconsistent', why: found.reading === 'withAdded' ? 'The reading with the resistor must be lower than without it, and not 0 V. Take all four again, once each stands still.' : `The ${found.reading} pole reads more against the chassis than the whole pack. Take all four again.` };
  }
}
