/**
 * Field values made ready for a thousand draws: what no draw changes is turned into plain values once, what may move is known by place.
 */
import type { FieldValue, FieldValues } from '../build/build.ts';
import { isQuantity, nominal, plainValue, plainValues } from '../build/plain-values.ts';
import type { Plain, ValueOf } from '../build/plain-values.ts';

/** Plain values of one group of fields in a draw. */
export type PlainPlan = (valueOf: ValueOf) => Plain;

/** The same as `plainValues(values, valueOf)`; values that no draw moves are shared between draws, and best values between analyses. */
export function planOf(values: FieldValues): PlainPlan {
  let plan = plans.get(values);
  if (!plan) plans.set(values, (plan = makePlan(values)));
  return plan;
}

/** What an edit leaves as it was is the same object from build to build. */
const plans = new WeakMap<FieldValues, PlainPlan>();

function makePlan(values: FieldValues): PlainPlan {
  const fixed = plainValues(values, nominal);
  const names: string[] = [];
  const moving: ((valueOf: ValueOf) => unknown)[] = [];
  for (const [name, value] of Object.entries(values)) {
    if (!moves(value)) continue;
    names.push(name);
    moving.push(valuePlan(value));
  }
  if (names.length === 0) return () => fixed;
  const make: PlainPlan = (valueOf) => {
    const plain: Record<string, unknown> = { ...fixed };
    for (let index = 0; index < names.length; index++) plain[names[index]!] = moving[index]!(valueOf);
    return plain;
  };
  let best: Plain | undefined;
  return (valueOf) => (valueOf === nominal ? (best ??= make(nominal)) : make(valueOf));
}

/** Whether they are the same in every draw. */
export function isFixed(values: FieldValues): boolean {
  return !moves(values);
}

function valuePlan(value: FieldValue): (valueOf: ValueOf) => unknown {
  if (!moves(value)) {
    const fixed = plainValue(value, nominal);
    return () => fixed;
  }
  if (isQuantity(value)) return (valueOf) => valueOf(value);
  if (!Array.isArray(value)) return planOf(value as FieldValues);
  const items = value.map(valuePlan);
  const [first, second, third] = items;
  // places and sizes
  if (first && second && third && items.length === 3) return (valueOf) => [first(valueOf), second(valueOf), third(valueOf)];
  return (valueOf) => items.map((item) => item(valueOf));
}

/** Whether a draw may give it another value. */
function moves(value: FieldValue): boolean {
  if (typeof value !== 'object') return false;
  if (isQuantity(value)) return value.shape !== 'exact';
  return Array.isArray(value) ? value.some((item: FieldValue) => moves(item)) : Object.values(value).some(moves);
}
