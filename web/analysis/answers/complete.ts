/** What may stand at a place of the text: keys of the group, choices, names, units, words that say where a number came from. */
import { fieldsOfEntry, fieldWithin, settingsOf } from '../../../core/build/field-at.ts';
import { conditionFields, fileFields, sectionMeanings, vehicleFields } from '../../../core/build/sections.ts';
import type { SourceNode } from '../../../core/build/source-tree.ts';
import { nominal, plainValues } from '../../../core/build/plain-values.ts';
import type { Field, Fields } from '../../../core/part/field.ts';
import { bases } from '../../../core/quantity/basis.ts';
import { quantities } from '../../../core/quantity/quantity-table.ts';
import type { QuantityName } from '../../../core/quantity/quantity-table.ts';
import { units } from '../../../core/quantity/unit-table.ts';
import { scanNodeAt, scanText } from '../../drawer/scan-text.ts';
import type { ScanNode, TypingPlace } from '../../drawer/scan-text.ts';
import { exampleOf } from '../card-field.ts';
import type { KeptAnalysis } from '../../../study/kept-analysis.ts';
import { nameOptions } from '../name-options.ts';
import type { Questions } from '../protocol.ts';

type Completion = NonNullable<Questions['complete']['answer']>;
type Item = Completion['items'][number];
type Kept = Pick<KeptAnalysis, 'of' | 'words'>;

export function answerComplete({ text, offset }: Questions['complete']['asks'], kept: Kept): Questions['complete']['answer'] {
  const { typing } = scanText(text.slice(0, offset));
  if (!typing) return undefined;
  const { root } = scanText(text);
  const source = sourceOf(root);
  const items = typing.isKey ? keysAt(typing, text, root, source, kept) : undefined;
  if (items) return nonEmpty({ from: typing.from, to: offset, items });
  return typing.isKey ? undefined : valuesAt(typing, offset, text, source, kept);
}

function nonEmpty(completion: Completion): Completion | undefined {
  return completion.items.length > 0 ? completion : undefined;
}

/** Keys that the group at the place does not have yet. */
function keysAt(typing: TypingPlace, text: string, root: ScanNode, source: SourceNode, kept: Kept): readonly Item[] {
  const [section, name, ...rest] = typing.path;
  const there = new Set(scanNodeAt(root, typing.path)?.entries.filter(({ at }) => at !== typing.from).map(({ key }) => key));
  const key = (label: string, detail: string, insert: string): Item => ({ label, detail, insert });
  const ofFields = (fields: Fields): Item[] => Object.entries(fields).map(([label, field]) => key(label, field.meaning, `${label}: ${opening(field)}`));
  const fresh = (items: readonly Item[]): readonly Item[] => items.filter(({ label }) => !there.has(label));
  if (section === undefined) return fresh([...ofFields(fileFields), ...Object.entries(sectionMeanings).map(([label, meaning]) => key(label, meaning, `${label}:`))]);
  if (section === 'vehicle' || section === 'conditions') return name === undefined ? fresh(ofFields(section === 'vehicle' ? vehicleFields : conditionFields)) : [];
  if (name === undefined) return [];
  if (section === 'modes' && rest[0] === 'set') {
    if (rest.length === 1) return fresh(partsWithSettings(text, kept).map(({ name: part, says }) => key(part, says, `${part}: { `)));
    return rest.length === 2 ? fresh(ofFields(settingsOf(rest[1] as string, source, kept.words) ?? {})) : [];
  }
  const fields = fieldsOfEntry(section, name, source, kept.words);
  if (rest.length > 0) {
    const field = fieldWithin(fields, rest);
    return field?.type === 'group' ? fresh(ofFields(field.fields)) : [];
  }
  const kind = ['parts', 'stock', 'runs'].includes(section) ? [key('kind', 'what sort of thing it is', 'kind: ')] : [];
  const set = section === 'modes' ? [key('set', 'what it sets, by part', 'set:')] : [];
  return fresh([...kind, ...ofFields(fields ?? {}), ...set]);
}

function opening(field: Field): string {
  if (field.type === 'position') return '[';
  if (field.type === 'list') return '[';
  return field.type === 'map' || field.type === 'group' ? '{ ' : '';
}

function partsWithSettings(text: string, kept: Kept): readonly { readonly name: string; readonly says: string }[] {
  return [...kept.of(text).car.parts.values()].filter(({ kind }) => Object.keys(kind.settings).length > 0).map(({ name, kind }) => ({ name, says: kind.title }));
}

function valuesAt(typing: TypingPlace, offset: number, text: string, source: SourceNode, kept: Kept): Completion | undefined {
  const [section = '', name = '', ...rest] = typing.path;
  const whole = (items: readonly Item[]): Completion | undefined => nonEmpty({ from: typing.from, to: offset, items });
  if (rest.length === 1 && rest[0] === 'kind' && ['parts', 'stock', 'runs'].includes(section)) {
    return whole([...(section === 'parts' ? kept.words.kinds : kept.words.runKinds).values()].map(({ kind, title, meaning }) => ({ label: kind, detail: `${title}: ${meaning}`, insert: kind })));
  }
  const found = fieldFor(section, name, rest, source, kept);
  const field = found?.type === 'list' ? found.of : found;
  const start = found?.type === 'list' ? '[' : '';
  if (!field) return undefined;
  switch (field.type) {
    case 'quantity': return numberWords(field.quantity, exampleOf(field), typing, offset);
    case 'position': return numberWords('coordinate', '[980, -310, 340 mm]', typing, offset);
    case 'size': return numberWords('length', '385 x 150 x 110 mm', typing, offset);
    case 'choice': return whole(field.choices.map((value) => ({ label: value, detail: field.explain?.[value] ?? '', insert: start + value })));
    case 'flag': return whole([{ label: 'yes', detail: field.meaning, insert: 'yes' }, { label: 'no', detail: '', insert: 'no' }]);
    case 'name': { const { build, car } = kept.of(text); return whole(nameOptions(build, car)(field.of).map(({ value, says }) => ({ label: value, detail: says, insert: start + value }))); }
    case 'text': return whole(settingWords(section, rest, text, kept).map((value) => ({ label: value, detail: field.meaning, insert: start + value })));
    default: return undefined;
  }
}

function fieldFor(section: string, name: string, rest: readonly string[], source: SourceNode, kept: Kept): Field | undefined {
  if (name === '') return fileFields[section as keyof typeof fileFields] as Field | undefined;
  if (section === 'vehicle') return fieldWithin(vehicleFields, [name, ...rest]);
  if (section === 'conditions') return fieldWithin(conditionFields, [name, ...rest]);
  const path = section === 'modes' && rest[0] === 'set' ? rest.slice(2) : rest;
  const fields = section === 'modes' && rest[0] === 'set' ? settingsOf(rest[1] ?? '', source, kept.words) : fieldsOfEntry(section, name, source, kept.words);
  const field = fieldWithin(fields, path);
  if (field) return field;
  // one number of a position: its item has no descriptor of its own
  const outer = fieldWithin(fields, path.slice(0, -1));
  return outer?.type === 'position' ? outer : undefined;
}

/** Words that a part's own fields give a setting: positions of a switch, outputs of a controller. */
function settingWords(section: string, rest: readonly string[], text: string, kept: Kept): readonly string[] {
  const [set, part = '', setting = ''] = rest;
  if (section !== 'modes' || set !== 'set') return [];
  const { build } = kept.of(text);
  const found = build.parts.get(part);
  const words = found && kept.words.kinds.get(found.kind)?.settingWords?.(plainValues(found.fields, nominal) as never);
  return words?.[setting] ?? [];
}

/** Behind a number: its units; behind the unit: a tolerance and where the number came from. */
function numberWords(quantity: QuantityName, example: string | undefined, typing: TypingPlace, offset: number): Completion | undefined {
  const { typed } = typing;
  if (typed.trim() === '') return example === undefined ? undefined : { from: typing.from, to: offset, items: [{ label: example, detail: 'an example', insert: example }] };
  const word = /[^\s\d.,±+~/-]*$/.exec(typed)?.[0] ?? '';
  const before = typed.slice(0, typed.length - word.length);
  const from = offset - word.length;
  if (/[\d½¼¾]\s*$/.test(before) && !/±|\+\/-/.test(before) && !hasUnit(before, quantity)) return { from, to: offset, items: [...unitItems(quantity, /\d$/.test(before)), ...(quantity === 'number' || quantity === 'ratio' ? basisItems(/\d$/.test(before)) : [])] };
  if (!hasUnit(before, quantity) && !/±|\+\/-/.test(before)) return undefined;
  const gap = /\S$/.test(before);
  if (gap && word !== '') return undefined;
  const tolerance: Item = { label: '±', detail: 'how far off it may be', insert: `${gap ? ' ' : ''}±` };
  return { from, to: offset, items: [...(word === '' && !/±|\+\/-/.test(before) ? [tolerance] : []), ...basisItems(gap)] };
}

function hasUnit(before: string, quantity: QuantityName): boolean {
  return [...units.values()].some(({ serves, printed, spellings }) => serves.includes(quantity) && [printed, ...spellings].some((spelling) => spelling !== '' && new RegExp(`[\\d½¼¾\\s]${escaped(spelling)}(?:[\\s±+]|$)`).test(before)));
}

function unitItems(quantity: QuantityName, gap: boolean): Item[] {
  const first = new Set<string>([...quantities[quantity].metric, ...quantities[quantity].imperial]);
  return [...units.values()].filter(({ serves, printed }) => serves.includes(quantity) && printed !== '').sort((a, b) => Number(first.has(b.key)) - Number(first.has(a.key)))
    .map(({ printed }) => ({ label: printed, detail: quantity.replaceAll('_', ' '), insert: `${gap && printed !== '°' ? ' ' : ''}${printed}` }));
}

function basisItems(gap: boolean): Item[] {
  return Object.entries(bases).map(([label, { meaning }]) => ({ label, detail: meaning, insert: `${gap ? ' ' : ''}${label}` }));
}

function escaped(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
}

/** The kinds and stocks of all entries, in the form in which descriptors are looked up. */
function sourceOf(root: ScanNode): SourceNode {
  const place = { line: 1, column: 1, offset: 0, end: 0 };
  const made = (node: ScanNode, depth: number): SourceNode => (node.text !== undefined || depth === 3
    ? { form: 'scalar', text: node.text ?? '', isQuoted: false, place }
    : { form: 'map', place, entries: node.entries.filter(({ key }) => depth < 2 || key === 'kind' || key === 'stock').map((entry) => ({ key: entry.key, keyPlace: place, at: place, value: made(entry, depth + 1) })) });
  return made(root, 0);
}
