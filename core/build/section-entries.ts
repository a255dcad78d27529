/**
 * The entries of a section whose names the builder chooses: parts, runs, stock, cells, modes, removed.
 */
import type { Place } from './place.ts';
import { nameRule, nameRuleInWords } from './name-rule.ts';
import type { Reading } from './reading.ts';
import { excerpt } from './report-problem.ts';
import { describeNode, entryOf, isEmpty } from './source-tree.ts';
import type { SourceMap, SourceNode } from './source-tree.ts';

export interface SectionEntry { readonly name: string; readonly path: string; readonly keyPlace: Place; readonly node: SourceMap; /** see `SourceEntry` */ readonly piece: string | undefined }

/** Names that a section gives, whether or not its entries can be read. */
export function namesIn(root: SourceNode | undefined, section: string): ReadonlySet<string> {
  const node = entryOf(root, section)?.value;
  return new Set(node?.form === 'map' ? node.entries.map((entry) => entry.key).filter((key) => nameRule.test(key)) : []);
}

/** Entries that are groups of keys with a proper name; a problem for each that is not. */
export function sectionEntries(root: SourceNode | undefined, section: string, reading: Reading): readonly SectionEntry[] {
  const found = sectionMap(root, section, reading);
  const entries: SectionEntry[] = [];
  for (const { key, keyPlace, value, piece } of found?.entries ?? []) {
    const path = `${section}.${key}`;
    reading.places.set(path, keyPlace);
    if (!nameRule.test(key)) reading.report({ code: 'bad_value', path, place: keyPlace, found: `the name “${excerpt(key)}”`, expected: nameRuleInWords });
    else if (value.form === 'map') entries.push({ name: key, path, keyPlace, node: value, piece });
    else if (isEmpty(value)) entries.push({ name: key, path, keyPlace, node: { form: 'map', entries: [], place: value.place }, piece });
    else reading.report({ code: 'bad_value', path, place: value.place, found: excerpt(describeNode(value)), expected: 'keys with values, such as { kind: … }' });
  }
  return entries;
}

/** A section as a group of keys; undefined when it is absent, empty or, with a problem, something else. */
export function sectionMap(root: SourceNode | undefined, section: string, reading: Reading): SourceMap | undefined {
  const entry = entryOf(root, section);
  if (!entry) return undefined;
  reading.places.set(section, entry.keyPlace);
  if (entry.value.form === 'map') return entry.value;
  if (!isEmpty(entry.value)) reading.report({ code: 'bad_value', path: section, place: entry.value.place, found: excerpt(describeNode(entry.value)), expected: 'keys with values, one a line' });
  return undefined;
}
