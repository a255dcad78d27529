/** A field of the build file as a card shows it: what is written, what counts while nothing is, what it may be. */
import type { Build } from '../../core/build/build.ts';
import { locate } from '../../core/build/locate.ts';
import { isQuantity } from '../../core/build/plain-values.ts';
import type { Words } from '../../core/build/read-build.ts';
import { sizePieces } from '../../core/build/read-triple.ts';
import { isEmpty } from '../../core/build/source-tree.ts';
import type { SourceNode } from '../../core/build/source-tree.ts';
import { axes } from '../../core/build/three-lengths.ts';
import type { Car } from '../../core/car/car.ts';
import type { ChoiceField, Field, Fields, NameField } from '../../core/part/field.ts';
import { printQuantity } from '../../core/quantity/print-quantity.ts';
import { printValue } from '../../core/quantity/print-value.ts';
import { valueAt } from '../../sheets/shown.ts';
import { printAs } from '../../sheets/unit-choice.ts';
import type { UnitChoice } from '../../sheets/unit-choice.ts';
import { nameOptions } from './name-options.ts';
import type { Option } from './name-options.ts';
import type { CardField } from './protocol.ts';

/** What the fields of one card are made from. */
export interface CardSource {
  readonly text: string;
  readonly root: SourceNode | undefined;
  readonly build: Build;
  readonly car: Car;
  readonly words: Words;
  readonly units: UnitChoice;
  readonly problems: ReadonlyMap<string, readonly string[]>;
  readonly names: (of: NameField['of']) => readonly Option[];
}

export function cardSource(from: Pick<CardSource, 'text' | 'root' | 'build' | 'car' | 'words' | 'units'>): CardSource {
  const problems = new Map<string, string[]>();
  for (const { path, message } of from.build.problems) problems.set(path, [...(problems.get(path) ?? []), message]);
  return { ...from, problems, names: nameOptions(from.build, from.car) };
}

/** Every field of a group, in the order of its descriptors. */
export function cardFields(fields: Fields, path: string, source: CardSource, words: Readonly<Record<string, readonly string[]>> = {}): CardField[] {
  return Object.entries(fields).map(([name, field]) => cardField(field, name, path === '' ? name : `${path}.${name}`, source, words[name]));
}

/** @param words  what a text may be, where other fields of the part decide that */
export function cardField(field: Field, name: string, path: string, source: CardSource, words?: readonly string[]): CardField {
  const node = nodeAt(path, source);
  const base = {
    path, name, type: field.type, need: field.need, meaning: quoted(field.meaning), example: exampleOf(field), written: writtenAt(path, node, source),
    instead: node ? undefined : insteadOf(field, path, source), options: optionsOf(field, source, words), problems: source.problems.get(path) ?? [],
  };
  switch (field.type) {
    case 'position': case 'size': return { ...base, fields: triple(field, path, node, source) };
    case 'group': return { ...base, fields: cardFields(field.fields, path, source) };
    case 'list': {
      const items = node?.form === 'list' ? node.items.map((_, index) => cardField(field.of, String(index), `${path}.${index}`, source, words)) : [];
      return { ...base, fields: items, item: template(field.of, source, words) };
    }
    case 'map': {
      const entries = node?.form === 'map' ? node.entries.map(({ key }) => cardField(field.of, key, `${path}.${key}`, source)) : [];
      return { ...base, fields: entries, item: template(field.of, source) };
    }
    default: return { ...base, fields: [] };
  }
}

/** A field that the file does not have, for a kind that is not there yet. */
export function template(field: Field, source: Pick<CardSource, 'names'> | undefined, words?: readonly string[], name = ''): CardField {
  const options = source ? optionsOf(field, source, words) : field.type === 'name' ? [] : optionsOf(field, { names: () => [] });
  const fields = field.type === 'group' ? Object.entries(field.fields).map(([key, inner]) => template(inner, source, undefined, key)) : field.type === 'position' || field.type === 'size' ? axes.map((axis) => axisField(axis, quoted(field.meaning), axis, field.need)) : [];
  const item = field.type === 'list' || field.type === 'map' ? { item: template(field.of, source, words) } : {};
  return { path: name, name, type: field.type, need: field.need, meaning: quoted(field.meaning), example: exampleOf(field), written: '', instead: undefined, options, problems: [], fields, ...item };
}

/** The value at a path; undefined where the file has none or an empty one. */
export function nodeAt(path: string, { root, text }: Pick<CardSource, 'root' | 'text'>): SourceNode | undefined {
  const segments = path.split('.');
  const spots = locate(root, segments, text);
  const node = spots.length === segments.length ? spots.at(-1)?.node : undefined;
  return node && !isEmpty(node) ? node : undefined;
}

/** A scalar without its quotes; a group or list as it stands. */
export function writtenAt(path: string, node: SourceNode | undefined, { text, root }: Pick<CardSource, 'text' | 'root'>): string {
  if (!node) return '';
  if (node.form === 'scalar') return node.text;
  const spot = locate(root, path.split('.'), text).at(-1);
  return spot ? text.slice(spot.at.offset, spot.at.end).trimEnd() : '';
}

/** What counts while the file says nothing. */
function insteadOf(field: Field, path: string, source: CardSource): string | undefined {
  const { build, car, units, root } = source;
  const [section = '', name = '', ...rest] = path.split('.');
  if (section === 'runs') {
    const stock = build.runs.get(name)?.stock;
    const cut = stock === undefined ? undefined : nodeAt(`stock.${stock}.${rest.join('.')}`, { root, text: source.text });
    if (cut?.form === 'scalar') return `${cut.text}, from stock ${stock}`;
    const run = car.runs.get(name);
    if (rest.join('.') === 'length' && run?.lengthIs === 'route' && run.length !== undefined) return `${printValue(run.length, 'length', printAs(units, 'length'))}, along the route with slack`;
  }
  const value = valueAt(build, path);
  if (isQuantity(value) && value.basis === 'handbook') {
    const print = printAs(units, value.quantity);
    return `${printQuantity(value, { ...print, tolerance: 'never', basis: false })} from the handbook (${printValue(value.low, value.quantity, print)} to ${printValue(value.high, value.quantity, print)})`;
  }
  if (field.type === 'choice') return field.fallback;
  return field.type === 'flag' ? 'no' : undefined;
}

function optionsOf(field: Field, source: Pick<CardSource, 'names'>, words?: readonly string[]): readonly Option[] {
  switch (field.type) {
    case 'choice': return field.choices.map((value) => ({ value, says: explained(field, value) }));
    case 'flag': return [{ value: 'yes', says: '' }, { value: 'no', says: '' }];
    case 'name': return source.names(field.of);
    case 'text': return (words ?? []).map((value) => ({ value, says: '' }));
    default: return [];
  }
}

function explained(field: ChoiceField, value: string): string {
  return field.explain?.[value] ?? '';
}

/** As a builder would write it. */
export function exampleOf(field: Field): string | undefined {
  switch (field.type) {
    case 'quantity': case 'count': case 'text': case 'name': return field.example;
    case 'choice': return field.choices[0];
    case 'flag': return 'yes';
    case 'position': return '[980, -310, 340 mm]';
    case 'size': return '385 x 150 x 110 mm';
    default: return undefined;
  }
}

const along: Readonly<Record<string, { readonly position: string; readonly size: string; readonly example: string }>> = {
  x: { position: 'rearward from the front axle line', size: 'along the vehicle', example: '980 mm' },
  y: { position: 'to the right of the middle, left is negative', size: 'across the vehicle', example: '-310 mm' },
  z: { position: 'up from the ground', size: 'upright', example: '340 mm ±10 measured' },
};

/** Three numbers; the unit, tolerance and basis of the last hold for those without their own. */
function triple(field: Extract<Field, { type: 'position' | 'size' }>, path: string, node: SourceNode | undefined, source: CardSource): CardField[] {
  const written = node?.form === 'list' ? node.items.map((item) => (item.form === 'scalar' ? item.text : '')) : node?.form === 'scalar' ? (sizePieces(node.text) ?? []).map(({ text }) => text) : [];
  const tail = /^[~\s+\-−\d.,/½¼¾]*(.*)$/.exec(written[2] ?? '')?.[1] ?? '';
  return axes.map((axis, index) => {
    const own = written[index] ?? '';
    const takesOver = index < 2 && own !== '' && tail !== '' && /^[\s+\-−\d.,/]*$/.test(own);
    return { ...axisField(axis, along[axis]?.[field.type] ?? '', `${path}.${axis}`, field.need), written: own, instead: takesOver ? `${tail}, as written at z` : undefined, problems: source.problems.get(`${path}.${axis}`) ?? [] };
  });
}

/** The pages of docs set words of the file in code; a card quotes them. */
const quoted = (meaning: string): string => meaning.replace(/`([^`]+)`/g, '“$1”');

function axisField(axis: string, meaning: string, path: string, need: CardField['need']): CardField {
  return { path, name: axis, type: 'quantity', need, meaning, example: along[axis]?.example, written: '', instead: undefined, options: [], problems: [], fields: [] };
}
