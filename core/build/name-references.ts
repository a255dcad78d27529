/**
 * Every place in the text where a name of another entry is used: ends of runs, name fields, keys of what a mode sets.
 */
import { partsOf } from '../condition/expression.ts';
import { parseCondition } from '../condition/parse.ts';
import type { Field, Fields, NameField } from '../part/field.ts';
import { fieldsOfEntry, settingsOf } from './field-at.ts';
import type { Place } from './place.ts';
import { placeWithin } from './quantity-at.ts';
import type { Words } from './read-build.ts';
import { entryOf } from './source-tree.ts';
import type { SourceNode } from './source-tree.ts';

export interface NameReference { readonly of: NameField['of']; readonly text: string; readonly place: Place; readonly path: string }

/** In the order of the sections; an anchored value that is used twice is listed twice. */
export function nameReferences(root: SourceNode | undefined, words: Words): readonly NameReference[] {
  const found: NameReference[] = [];
  for (const section of ['removed', 'cells', 'stock', 'parts', 'runs', 'modes']) {
    for (const { key, value } of entriesOf(entryOf(root, section)?.value)) {
      visitFields(fieldsOfEntry(section, key, root, words), value, `${section}.${key}`, found);
      if (section !== 'modes') continue;
      for (const list of ['needs', 'asserts']) visitConditions(entryOf(value, list)?.value, `${section}.${key}.${list}`, found);
      for (const set of entriesOf(entryOf(value, 'set')?.value)) {
        const path = `${section}.${key}.set.${set.key}`;
        found.push({ of: 'parts', text: set.key, place: set.keyPlace, path });
        visitFields(settingsOf(set.key, root, words), set.value, path, found);
      }
    }
  }
  return found;
}

/** Names inside conditions, where they stand as they are written; behind doubled quotes or escapes they cannot be told apart from the text. */
function visitConditions(node: SourceNode | undefined, path: string, found: NameReference[]): void {
  if (node?.form !== 'list') return;
  node.items.forEach((item, index) => {
    const read = item.form === 'scalar' ? parseCondition(item.text) : undefined;
    if (item.form !== 'scalar' || !read?.ok) return;
    const add = (of: NameField['of'], text: string, at: number): void => {
      const place = placeWithin(item, at, text.length);
      if (place.end - place.offset === text.length) found.push({ of, text, place, path: `${path}.${index}` });
    };
    for (const one of partsOf(read.expression)) {
      if (one.form === 'field' && one.of.form === 'name') add('parts', one.of.name, one.of.at);
      if (one.form !== 'call' || (one.name !== 'V' && one.name !== 'I')) continue;
      for (const name of one.arguments) if (name.form === 'literal' && typeof name.value === 'string') add(one.name === 'V' ? 'ports' : 'runs', name.value, name.at + 1);
    }
  });
}

function entriesOf(node: SourceNode | undefined) {
  return node?.form === 'map' ? node.entries : [];
}

function visitFields(fields: Fields | undefined, node: SourceNode, path: string, found: NameReference[]): void {
  if (!fields) return;
  for (const { key, value } of entriesOf(node)) if (Object.hasOwn(fields, key)) visit(fields[key] as Field, value, `${path}.${key}`, found);
}

function visit(field: Field, node: SourceNode, path: string, found: NameReference[]): void {
  if (field.type === 'name' && node.form === 'scalar') found.push({ of: field.of, text: node.text, place: node.place, path });
  else if (field.type === 'list' && node.form === 'list') node.items.forEach((item, index) => visit(field.of, item, `${path}.${index}`, found));
  else if (field.type === 'map') for (const { key, value } of entriesOf(node)) visit(field.of, value, `${path}.${key}`, found);
  else if (field.type === 'group') visitFields(field.fields, node, path, found);
}
