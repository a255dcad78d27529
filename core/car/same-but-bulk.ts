/**
 * Whether two cars differ in nothing but what things weigh, how big they are and where they stand. Every answer of the network, and
 * every subject that rests on it alone, is then the same for both: a builder who shifts or weighs a part need not wait for them.
 */
import { sameEntries } from '../build/same-entries.ts';
import type { Car, CarPart, CarRun } from './car.ts';

/** Fields of a part that nothing electrical reads; a place counts through the length of the runs. */
const bulk: ReadonlySet<string> = new Set(['mass', 'size', 'at']);

/**
 * Shape: pure; compares values, so two readings of one text are the same car
 * @param before, now  realised with the same draw
 */
export function sameButBulk(before: Car, now: Car): boolean {
  return before.catalogue === now.catalogue && before.isForMargins === now.isForMargins
    && alike(before.conditions, now.conditions)
    && sameEntries(before.cells, now.cells, (a, b) => alike(a.fields, b.fields) && alike(a.missing, b.missing))
    && sameEntries(before.parts, now.parts, samePart) && sameEntries(before.runs, now.runs, (a, b) => sameRun(a, b) && before.build.runs.get(a.name)?.stock === now.build.runs.get(b.name)?.stock)
    && sameEntries(before.modes, now.modes, (a, b) => alike(a, b)) && sameEntries(before.build.modes, now.build.modes, alike);
}

function samePart(a: CarPart, b: CarPart): boolean {
  return a.kind === b.kind && alike(a.missing, b.missing) && alike(a.ports, b.ports) && sameKeys(a.fields, b.fields, bulk);
}

function sameRun(a: CarRun, b: CarRun): boolean {
  return a.kind === b.kind && a.from === b.from && a.to === b.to && a.carries === b.carries && a.length === b.length && a.lengthIs === b.lengthIs && alike(a.missing, b.missing) && alike(a.fields, b.fields);
}

/** Deep equality of plain data. */
function alike(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return Object.is(a, b);
  if (Array.isArray(a)) return Array.isArray(b) && a.length === b.length && a.every((item, index) => alike(item, b[index]));
  return !Array.isArray(b) && sameKeys(a as Readonly<Record<string, unknown>>, b as Readonly<Record<string, unknown>>, nothing);
}

const nothing: ReadonlySet<string> = new Set();

function sameKeys(a: Readonly<Record<string, unknown>>, b: Readonly<Record<string, unknown>>, except: ReadonlySet<string>): boolean {
  let count = 0;
  for (const key in a) {
    if (except.has(key)) continue;
    if (!Object.hasOwn(b, key) || !alike(a[key], b[key])) return false;
    count++;
  }
  for (const key in b) if (!except.has(key)) count--;
  return count === 0;
}
