/**
 * The descriptor of the value at a path of the build file.
 */
import type { Field, Fields } from '../part/field.ts';
import { partFields } from './read-parts.ts';
import { commonFieldsBeside } from './read-runs.ts';
import type { Words } from './read-build.ts';
import { cellFields, conditionFields, fileFields, modeFields, removedFields, vehicleFields } from './sections.ts';
import { entryOf } from './source-tree.ts';
import type { SourceNode } from './source-tree.ts';

/**
 * @param root  the tree that the path is asked of; says of which kind a part or run is
 * @returns undefined when nothing describes the path: it is a section, an entry, or nobody reads it
 */
export function fieldAt(path: string, root: SourceNode | undefined, words: Words): Field | undefined {
  const [section = '', name = '', ...rest] = path.split('.');
  if (name === '') return own(fileFields, section);
  switch (section) {
    case 'vehicle': return inside(own(vehicleFields, name), rest);
    case 'conditions': return inside(own(conditionFields, name), rest);
    default: return fieldWithin(fieldsOfEntry(section, name, root, words), rest) ?? setting(section, name, rest, root, words);
  }
}

/** Fields that an entry of a named section may have; undefined for a section or kind that nobody knows. */
export function fieldsOfEntry(section: string, name: string, root: SourceNode | undefined, words: Words): Fields | undefined {
  switch (section) {
    case 'removed': return removedFields;
    case 'cells': return cellFields;
    case 'modes': return modeFields;
    case 'parts': { const kind = words.kinds.get(wordOf(root, 'parts', name, 'kind')); return kind && partFields(kind.fields); }
    case 'stock': return words.runKinds.get(wordOf(root, 'stock', name, 'kind'))?.fields;
    case 'runs': {
      const stock = wordOf(root, 'runs', name, 'stock');
      const kind = words.runKinds.get(wordOf(root, 'runs', name, 'kind') || wordOf(root, 'stock', stock, 'kind'));
      return { ...commonFieldsBeside(kind), ...kind?.fields };
    }
    default: return undefined;
  }
}

/** Settings that a mode may give a part. */
export function settingsOf(part: string, root: SourceNode | undefined, words: Words): Fields | undefined {
  return words.kinds.get(wordOf(root, 'parts', part, 'kind'))?.settings;
}

function setting(section: string, mode: string, rest: readonly string[], root: SourceNode | undefined, words: Words): Field | undefined {
  if (section !== 'modes' || mode === '' || rest[0] !== 'set' || rest[1] === undefined) return undefined;
  return fieldWithin(settingsOf(rest[1], root, words), rest.slice(2));
}

/** The descriptor at a path below a group of fields. */
export function fieldWithin(fields: Fields | undefined, path: readonly string[]): Field | undefined {
  const [name, ...rest] = path;
  return fields && name !== undefined ? inside(own(fields, name), rest) : undefined;
}

function inside(field: Field | undefined, path: readonly string[]): Field | undefined {
  if (!field || path.length === 0) return field;
  if (field.type === 'list' || field.type === 'map') return inside(field.of, path.slice(1));
  if (field.type === 'group') return fieldWithin(field.fields, path);
  return undefined;
}

function own(fields: Fields, name: string): Field | undefined {
  return Object.hasOwn(fields, name) ? fields[name] : undefined;
}

function wordOf(root: SourceNode | undefined, section: string, name: string, key: string): string {
  const value = entryOf(entryOf(entryOf(root, section)?.value, name)?.value, key)?.value;
  return value?.form === 'scalar' ? value.text : '';
}
