/** How far a procedure is, from the log alone: which steps are done and right, what stops the work, where to go on. */
import { readEntered } from './entered.ts';
import type { Entered } from './entered.ts';
import type { ReadStep } from './read-step.ts';
import { OBSERVATION } from './reading.ts';
import type { Procedure, Reading } from './reading.ts';
import { standing } from './log.ts';
import { judge, quantityOfStep } from './verdict.ts';

/** `repeat`: done, but the build has changed since in what it rests on, or its reading no longer agrees. */
export type StepStatus = 'open' | 'passed' | 'outside' | 'untold' | 'repeat';
export interface StepDone { readonly status: StepStatus; /** those of the step that count, oldest first */ readonly readings: readonly Reading[] }

export interface Progress {
  /** as many as steps, in their order */
  readonly steps: readonly StepDone[];
  /** number of steps that are passed */
  readonly passed: number;
  /** place of the step to go on with: behind the last one with a reading, but never beyond a hold point that is not passed */
  readonly goOn: number;
}

/** Whether what a step rests on has changed since its reading (`rests-on.ts`). */
export type HasChanged = (step: ReadStep, reading: Reading, read: Entered | undefined) => boolean;

/** @param procedure  whose readings count */
export function progressOf(steps: readonly ReadStep[], readings: readonly Reading[], hasChanged: HasChanged, procedure: Procedure = 'power-up'): Progress {
  const byStep = new Map<string, Reading[]>();
  for (const reading of standing(readings)) {
    if (reading.procedure !== procedure) continue;
    const list = byStep.get(reading.step);
    if (list) list.push(reading);
    else byStep.set(reading.step, [reading]);
  }
  const done = steps.map((step): StepDone => {
    const own = byStep.get(step.id) ?? [];
    return { readings: own, status: statusOf(step, own, hasChanged) };
  });
  const last = done.findLastIndex(({ readings: own }) => own.length > 0);
  const held = steps.findIndex((step, index) => step.isHoldPoint && done[index]!.status !== 'passed');
  const goOn = Math.min(last >= 0 && done[last]!.status !== 'passed' ? last : last + 1, held < 0 ? steps.length : held, Math.max(0, steps.length - 1));
  return { steps: done, passed: done.filter(({ status }) => status === 'passed').length, goOn };
}

/** The first hold point before a step that is not passed; undefined: nothing is in the way. */
export function holdBefore(steps: readonly ReadStep[], { steps: done }: Pick<Progress, 'steps'>, at: number): number | undefined {
  const held = steps.slice(0, at).findIndex((step, index) => step.isHoldPoint && done[index]!.status !== 'passed');
  return held < 0 ? undefined : held;
}

/**
 * The newest reading with a value decides; where it could not be told, what the builder answered behind it. A reading that lies outside is
 * put right by another reading only, never by an answer.
 */
function statusOf(step: ReadStep, own: readonly Reading[], hasChanged: HasChanged): StepStatus {
  if (own.length === 0) return 'open';
  const value = own.findLast(({ quantity }) => quantity !== OBSERVATION);
  const answer = own.findLast(({ quantity }, index) => quantity === OBSERVATION && (!value || index > own.indexOf(value)));
  const decides = value ?? answer!;
  const quantity = quantityOfStep(step);
  if (quantity !== undefined && !value) return answer?.reading === 'no' ? 'outside' : 'untold';
  const read = readEntered(decides.reading, decides.quantity === OBSERVATION || quantity === undefined ? decides.quantity : quantity);
  if (hasChanged(step, decides, read.ok ? read.value : undefined)) return 'repeat';
  const word = read.ok ? judge(step, read.value).word : 'cannot be told';
  if (answer?.reading === 'no') return 'outside';
  if (word === 'outside') return decides.verdict === 'agrees' ? 'repeat' : 'outside';
  if (word === 'agrees') return 'passed';
  return answer?.reading === 'yes' && value ? 'passed' : 'untold';
}
