/**
 * The modes section: what each mode sets on which part, by the settings of the part's kind.
 */
import type { Quantity } from '../quantity/quantity.ts';
import type { Kinds } from '../part/kind.ts';
import type { BuildMode, BuildPart, FieldValues } from './build.ts';
import { readFields, reportUnknownName } from './read-field.ts';
import type { Reading } from './reading.ts';
import { excerpt } from './report-problem.ts';
import { modeFields } from './sections.ts';
import type { SectionEntry } from './section-entries.ts';
import { describeNode, entryOf, isEmpty } from './source-tree.ts';

/** Every mode of the file; what could not be read of it has a problem. */
export function readModes(entries: readonly SectionEntry[], parts: ReadonlyMap<string, BuildPart>, kinds: Kinds, reading: Reading): Map<string, BuildMode> {
  const modes = new Map<string, BuildMode>();
  for (const entry of entries) {
    const fields = readFields(modeFields, entry.node, entry.path, entry.keyPlace, reading, { besides: ['set'] });
    modes.set(entry.name, {
      name: entry.name,
      meaning: fields['meaning'] as string | undefined,
      from: (fields['from'] as readonly string[] | undefined) ?? [],
      lasts: fields['lasts'] as Quantity | undefined,
      every: fields['every'] as Quantity | undefined,
      needs: (fields['needs'] as readonly string[] | undefined) ?? [],
      set: readSet(entry, parts, kinds, reading),
    });
  }
  return modes;
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
    else if (kind) set[key] = readFields(kind.settings, value, here, keyPlace, reading);
  }
  return set;
}
