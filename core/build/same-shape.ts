/**
 * Whether two builds differ in nothing but quantities: the same parts, runs and modes, with the same fields given, and the same words.
 * Whatever rests on names alone then holds for both, as it does for all draws of one build.
 */
import type { Build, FieldValue, FieldValues } from './build.ts';
import { isQuantity } from './plain-values.ts';
import { sameEntries } from './same-entries.ts';

/** Shape: pure. What an edit left alone is the same object in both and is not looked into. */
export function sameShape(a: Build, b: Build): boolean {
  return sameEntries(a.parts, b.parts, (one, other) => one.kind === other.kind && sameFields(one.fields, other.fields))
    && sameEntries(a.runs, b.runs, (one, other) => one.kind === other.kind && one.stock === other.stock && one.from.part === other.from.part && one.from.port === other.from.port
      && one.to.part === other.to.part && one.to.port === other.to.port && sameFields(one.fields, other.fields))
    && sameEntries(a.cells, b.cells, (one, other) => sameFields(one.fields, other.fields))
    && sameEntries(a.modes, b.modes, (one, other) => one === other);
}

function sameFields(a: FieldValues, b: FieldValues): boolean {
  if (a === b) return true;
  const names = Object.keys(a);
  return names.length === Object.keys(b).length && names.every((name) => Object.hasOwn(b, name) && sameField(a[name] as FieldValue, b[name] as FieldValue));
}

function sameField(a: FieldValue, b: FieldValue): boolean {
  if (a === b || typeof a !== 'object' || typeof b !== 'object') return a === b;
  // one that may move in a draw and one that may not are wired alike
  if (isQuantity(a) || isQuantity(b)) return isQuantity(a) && isQuantity(b);
  if (Array.isArray(a)) return Array.isArray(b) && a.length === b.length && a.every((item: FieldValue, index) => sameField(item, b[index] as FieldValue));
  return !Array.isArray(b) && sameFields(a as FieldValues, b as FieldValues);
}
