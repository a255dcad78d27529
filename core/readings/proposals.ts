/**
 * Better numbers for the file, from readings that agree: each an edit that the builder may take or leave, with what the meter may be out by
 * as its tolerance. Nothing is proposed that the file says already as well; of several readings of one number the newest counts.
 * Checked: proposals.test.ts
 */
import type { PreparedCar } from '../car/realise.ts';
import { remembered } from '../car/remembered.ts';
import type { Basis } from '../quantity/basis.ts';
import { chooseUnit, printValue } from '../quantity/print-value.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import { readQuantity } from '../quantity/read-quantity.ts';
import { toUnit } from '../quantity/unit-conversion.ts';
import { unitOf } from '../quantity/unit-table.ts';
import { readEntered } from './entered.ts';
import type { StepDone } from './progress.ts';
import type { ReadStep } from './read-step.ts';
import { OBSERVATION } from './reading.ts';
import type { Reading } from './reading.ts';
import { settledBy } from './settles.ts';
import type { Settled } from './settles.ts';
import { quantityOfStep } from './verdict.ts';

export interface Proposal {
  /** of the field in the file; absent there, it is added */
  readonly path: string;
  /** as one writes it: `47.92 V ±0.27 measured` */
  readonly text: string;
  /** as the file has it, or a handbook; undefined: nothing */
  readonly instead: string | undefined;
  /** which reading says so, in a sentence */
  readonly why: string;
  /** id of the reading */
  readonly reading: string;
}

export interface DoneStep { readonly step: ReadStep; readonly done: StepDone }

/** Digits of a tolerance. */
const DIGITS = 2;

/**
 * @param done  steps with their readings; those that are passed count
 * @returns in the order of the steps. Time: some solves for each step that is passed, the first time that a build is asked for it
 */
export function proposalsOf(prepared: PreparedCar, done: readonly DoneStep[]): readonly Proposal[] {
  const newest = new Map<string, { readonly proposal: Proposal | undefined; readonly when: number }>();
  for (const { step, done: { status, readings } } of done) {
    const reading = status === 'passed' ? readings.findLast(({ quantity }) => quantity !== OBSERVATION) : undefined;
    const settled = reading && settledOnce(prepared, step);
    if (!reading || !settled) continue;
    const when = Date.parse(reading.when);
    if ((newest.get(settled.path)?.when ?? -Infinity) > when) continue;
    newest.set(settled.path, { when, proposal: proposalOf(prepared, step, reading, settled) });
  }
  return [...newest.values()].flatMap(({ proposal }) => proposal ?? []);
}

const known = remembered(function settledBySteps(_: PreparedCar): Map<string, Settled | undefined> { return new Map(); });

/** A step of one build settles the same number whatever is read. */
function settledOnce(prepared: PreparedCar, step: ReadStep): Settled | undefined {
  const steps = known(prepared);
  // the state of a joint's step follows the order
  const key = `${step.id} ${JSON.stringify(step.state)}`;
  if (!steps.has(key)) steps.set(key, settledBy(prepared, step));
  return steps.get(key);
}

function proposalOf({ build }: PreparedCar, step: ReadStep, reading: Reading, settled: Settled): Proposal | undefined {
  const read = readEntered(reading.reading, quantityOfStep(step) ?? settled.quantity);
  if (!read.ok || read.value.is !== 'value' || !Number.isFinite(read.value.low) || !Number.isFinite(read.value.high)) return undefined;
  const { best, low, high } = read.value;
  const value = settled.valueFor(best);
  if (value === undefined || !Number.isFinite(value) || settled.slope === 0) return undefined;
  const meter = step.instrument ? step.instrument.share * Math.abs(best) + step.instrument.fixed : 0;
  const half = Math.hypot((high - low) / 2, meter, settled.others) / Math.abs(settled.slope);
  const { holds } = settled;
  if (!(half > 0) || (holds && saysAsWell(holds, value, half))) return undefined;
  const text = writeMeasured(value, half, settled.quantity, holds?.path === settled.path ? holds.unit : undefined, build.units);
  if (!readQuantity(text, settled.quantity, settled.path).ok) return undefined;
  return {
    path: settled.path, text, reading: reading.id, instead: holds && held(holds, settled.quantity, build.units),
    why: `${step.title}: ${reading.reading}, read ${reading.when.slice(0, 10)}${reading.instrument === '' ? '' : ` with ${reading.instrument}`}`,
  };
}

/** Within its own tolerance and the reading's, and known as closely; or measured already, and the reading lies within what was measured. */
function saysAsWell({ nominal, low, high, basis }: Quantity, value: number, half: number): boolean {
  const own = value >= nominal ? high - nominal : nominal - low;
  const apart = Math.abs(value - nominal);
  if (apart > Math.hypot(own, half)) return false;
  return own <= half || (basis === 'measured' && apart <= own);
}

/** Tolerance to two digits, rounded up; the value to the same decimals. */
export function writeMeasured(value: number, half: number, quantity: QuantityName, unit: string | undefined, system: 'metric' | 'imperial', basis: Basis = 'measured'): string {
  const given = unit === undefined ? undefined : unitOf(unit, quantity);
  const row = given?.scale === 'linear' ? given : chooseUnit(value, quantity, system);
  const [number, wide] = [toUnit(value, row.key, quantity), Math.abs(toUnit(value + half, row.key, quantity) - toUnit(value, row.key, quantity))];
  const place = DIGITS - 1 - Math.floor(Math.log10(wide));
  const decimals = Math.min(12, Math.max(0, place));
  const step = 10 ** -Math.min(place, 12);
  let [best, around] = [number.toFixed(decimals), (Math.ceil(wide / step - 1e-9) * step).toFixed(decimals)];
  // zeros that neither needs
  while (/\.\d*0$/.test(best) && /\.\d*0$/.test(around)) [best, around] = [best, around].map((text) => text.slice(0, -1).replace(/\.$/, '')) as [string, string];
  return `${best}${row.printed === '' ? '' : ` ${row.printed}`} ±${around} ${basis}`;
}

function held({ nominal, low, high, basis, path, unit }: Quantity, quantity: QuantityName, system: 'metric' | 'imperial'): string {
  const say = (value: number): string => printValue(value, quantity, { system });
  if (path.startsWith('handbook:')) return `${say(low)} to ${say(high)}, usual in the trade`;
  return high > low ? writeMeasured(nominal, (high - low) / 2, quantity, unit, system, basis) : `${say(nominal)} ${basis}`;
}
