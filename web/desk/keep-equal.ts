/** Of what a worker answers, whatever says the same as before stays the same object: what was drawn of it need not be drawn again. */

/**
 * Plain data only: maps, sets, lists and objects without cycles. Another order of fields or entries is a difference: it may be drawn so.
 * @returns `before` where both say the same; else `now`, with the pieces of `before` in every place where those say the same
 */
export function keepEqual<T>(before: unknown, now: T): T {
  return kept(before, now) as T;
}

function kept(before: unknown, now: unknown): unknown {
  if (Object.is(before, now)) return before;
  if (typeof before !== 'object' || typeof now !== 'object' || before === null || now === null) return now;
  if (Array.isArray(now)) return Array.isArray(before) ? keptList(before, now) : now;
  if (now instanceof Map) return before instanceof Map ? keptMap(before, now) : now;
  if (now instanceof Set) return before instanceof Set && before.size === now.size && [...now].every((one) => before.has(one)) ? before : now;
  return isRecord(before) && isRecord(now) ? keptRecord(before, now) : now;
}

function keptList(before: readonly unknown[], now: readonly unknown[]): readonly unknown[] {
  let isSame = before.length === now.length;
  const list = now.map((each, at) => {
    const one = kept(before[at], each);
    isSame &&= Object.is(one, before[at]);
    return one;
  });
  return isSame ? before : list;
}

function keptMap(before: ReadonlyMap<unknown, unknown>, now: ReadonlyMap<unknown, unknown>): ReadonlyMap<unknown, unknown> {
  const map = new Map([...now].map(([key, value]) => [key, kept(before.get(key), value)]));
  const keys = [...before.keys()];
  return map.size === before.size && [...map].every(([key, value], at) => Object.is(key, keys[at]) && Object.is(value, before.get(key))) ? before : map;
}

type Rows = Readonly<Record<string, unknown>>;
const isRecord = (value: object): value is Rows => !Array.isArray(value) && !(value instanceof Map) && !(value instanceof Set);

function keptRecord(before: Rows, now: Rows): Rows {
  const keys = Object.keys(now), keysBefore = Object.keys(before);
  let isSame = keys.length === keysBefore.length;
  const record: Record<string, unknown> = {};
  for (const [at, key] of keys.entries()) {
    const one = record[key] = kept(before[key], now[key]);
    isSame &&= key === keysBefore[at] && Object.is(one, before[key]);
  }
  return isSame ? before : record;
}
