/**
 * The modes section: what each mode sets on which part, by the settings of the part's kind.
 */
import { printValue } from '../quantity/print-quantity.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { Kind, Kinds } from '../part/kind.ts';
import type { BuildMode, BuildPart, FieldValue, FieldValues } from './build.ts';
import type { Vocabulary } from '../condition/check-types.ts';
import { conditionVocabulary, readConditions } from './read-conditions.ts';
import { nominal, plainValues } from './plain-values.ts';
import { readEntry } from './entry-memory.ts';
import { readFields, reportUnknownName } from './read-field.ts';
import type { Reading } from './reading.ts';
import { excerpt } from './report-problem.ts';
import { modeFields } from './sections.ts';
import type { SectionEntry } from './section-entries.ts';
import { describeNode, entryOf, isEmpty } from './source-tree.ts';

/** Every mode of the file; what could not be read of it has a problem. */
export function readModes(entries: readonly SectionEntry[], parts: ReadonlyMap<string, BuildPart>, kinds: Kinds, reading: Reading): Map<string, BuildMode> {
  const modes = new Map<string, BuildMode>();
  const vocabulary = conditionVocabulary(parts, kinds, reading);
  const words = wordsOfParts(parts, kinds);
  for (const entry of entries) modes.set(entry.name, readEntry(entry, [kinds, words], reading, (own) => readMode(entry, parts, kinds, vocabulary, own)));
  return modes;
}

function readMode(entry: SectionEntry, parts: ReadonlyMap<string, BuildPart>, kinds: Kinds, vocabulary: Vocabulary, reading: Reading): BuildMode {
  const fields = readFields(modeFields, entry.node, entry.path, entry.keyPlace, reading, { besides: ['set'] });
  return {
    name: entry.name,
    meaning: fields['meaning'] as string | undefined,
    from: otherModes(entry, fields, reading),
    lasts: fields['lasts'] as Quantity | undefined,
    every: periodOf(entry, fields, reading),
    highestCharge: fields['highest_charge'] as Quantity | undefined,
    needs: readConditions(entry, 'needs', vocabulary, reading),
    asserts: readConditions(entry, 'asserts', vocabulary, reading),
    needsInWords: (fields['needs_in_words'] as readonly string[] | undefined) ?? [],
    set: readSet(entry, parts, kinds, reading),
  };
}

const wordsKnown = new WeakMap<BuildPart, string>();

/** Everything of the parts that a mode may speak of, in one string: kinds, ports and the words of settings. */
function wordsOfParts(parts: ReadonlyMap<string, BuildPart>, kinds: Kinds): string {
  return [...parts.values()].map((part) => {
    let words = wordsKnown.get(part);
    if (words === undefined) {
      const kind = kinds.get(part.kind);
      const plain = plainValues(part.fields, nominal) as never;
      wordsKnown.set(part, (words = JSON.stringify([part.name, part.kind, kind?.ports(plain).map(({ name }) => name), kind?.settingWords?.(plain)])));
    }
    return words;
  }).join('\n');
}

/** A mode cannot come back before it is over. */
function periodOf(entry: SectionEntry, fields: FieldValues, reading: Reading): Quantity | undefined {
  const [lasts, every] = [fields['lasts'] as Quantity | undefined, fields['every'] as Quantity | undefined];
  if (!lasts || !every || every.nominal >= lasts.nominal) return every;
  const path = `${entry.path}.every`;
  reading.report({ code: 'out_of_range', path, place: reading.places.get(path) ?? entry.keyPlace, found: printValue(every.nominal, 'time'), expected: `at least the ${printValue(lasts.nominal, 'time')} that it lasts: \`every\` counts from start to start` });
  return undefined;
}

function otherModes(entry: SectionEntry, fields: FieldValues, reading: Reading): readonly string[] {
  const from = (fields['from'] as readonly string[] | undefined) ?? [];
  const index = from.indexOf(entry.name);
  if (index < 0) return from;
  const path = `${entry.path}.from.${index}`;
  reading.report({ code: 'bad_value', path, place: reading.places.get(path) ?? reading.places.get(`${entry.path}.from`) ?? entry.keyPlace, found: entry.name, expected: 'another mode: no mode is entered from itself' });
  return from.filter((name) => name !== entry.name);
}

function readSet(entry: SectionEntry, parts: ReadonlyMap<string, BuildPart>, kinds: Kinds, reading: Reading): BuildMode['set'] {
  const set: Record<string, FieldValues> = {};
  const found = entryOf(entry.node, 'set');
  if (!found || isEmpty(found.value)) return set;
  const path = `${entry.path}.set`;
  reading.places.set(path, found.keyPlace);
  if (found.value.form !== 'map') {
    reading.report({ code: 'bad_value', path, place: found.value.place, found: excerpt(describeNode(found.value)), expected: 'parts with their settings, such as { INV: { draw: 25 kW } }' });
    return set;
  }
  for (const { key, keyPlace, value } of found.value.entries) {
    const here = `${path}.${key}`;
    reading.places.set(here, keyPlace);
    const kind = kinds.get(parts.get(key)?.kind ?? '');
    if (!reading.names.parts.has(key)) reportUnknownName(here, key, keyPlace, 'parts', reading.names.parts, reading);
    else if (value.form !== 'map') reading.report({ code: 'bad_value', path: here, place: value.place, found: excerpt(describeNode(value)), expected: `settings of ${key}${kind ? `: ${Object.keys(kind.settings).join(', ')}` : ''}` });
    else if (kind) set[key] = knownWords(readFields(kind.settings, value, here, keyPlace, reading), here, parts.get(key) as BuildPart, kind, reading);
  }
  return set;
}

/** Leaves out words that the part's own fields do not name: a position the switch does not have, an output the controller does not have. */
export function knownWords(values: FieldValues, path: string, part: BuildPart, kind: Kind, reading: Reading): FieldValues {
  const known = kind.settingWords?.(plainValues(part.fields, nominal) as never);
  if (!known) return values;
  const kept: Record<string, FieldValue> = { ...values };
  for (const [setting, words] of Object.entries(known)) {
    const value = kept[setting];
    const isKnown = (word: FieldValue, at: string): boolean => {
      if (typeof word !== 'string' || words.includes(word)) return true;
      const place = reading.places.get(at) ?? reading.places.get(path);
      if (place) reading.report({ code: 'unknown_name', path: at, place, found: `“${excerpt(word)}”`, expected: words.length > 0 ? `one of ${words.join(', ')}` : `nothing: ${part.name} names none`, nearest: reading.nearest(word, words) });
      return false;
    };
    if (Array.isArray(value)) kept[setting] = value.filter((word: FieldValue, index) => isKnown(word, `${path}.${setting}.${index}`));
    else if (value !== undefined && !isKnown(value, `${path}.${setting}`)) delete kept[setting];
  }
  return kept;
}
