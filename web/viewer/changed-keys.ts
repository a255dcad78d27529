/** Which numbers of a sheet an edit has changed: the texts of the old and the new model, compared by key. */

/** Every `{ key, text }` in a model, however deep. Plain data only. */
export function shownTexts(model: unknown): ReadonlyMap<string, string> {
  const texts = new Map<string, string>();
  const walk = (value: unknown): void => {
    if (typeof value !== 'object' || value === null) return;
    if (Array.isArray(value)) { value.forEach(walk); return; }
    if (value instanceof Map) { value.forEach(walk); return; }
    if ('key' in value && 'text' in value && typeof value.key === 'string' && typeof value.text === 'string') texts.set(value.key, value.text);
    Object.values(value).forEach(walk);
  };
  walk(model);
  return texts;
}

/** What was not looked at yet: key -> text as it was when it was last looked at. */
export type Marks = ReadonlyMap<string, string>;

/**
 * Adds what changed between two states of one sheet. A number that is back at what was last looked at loses its mark; one that is
 * new on the sheet gets none: it has nothing to be compared with.
 */
export function withChanges(marks: Marks, before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>): Marks {
  const next = new Map(marks);
  for (const [key, text] of after) {
    const was = next.get(key) ?? before.get(key);
    if (was === undefined) continue;
    if (was === text) next.delete(key);
    else next.set(key, was);
  }
  return next.size === marks.size && [...next.keys()].every((key) => marks.has(key)) ? marks : next;
}

export function withoutMarks(marks: Marks, keys: readonly string[]): Marks {
  const next = new Map(marks);
  for (const key of keys) next.delete(key);
  return next.size === marks.size ? marks : next;
}
