/**
 * One value of the build file by its descriptor: checked, with its place remembered, or absent with a problem.
 */
import type { Quantity } from '../quantity/quantity.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import { quantities } from '../quantity/quantity-table.ts';
import type { ChoiceField, CountField, Field, Fields, NameField, PositionField, QuantityField, SizeField } from '../part/field.ts';
import type { FieldValue } from './build.ts';
import { handbookValue } from './handbook-value.ts';
import { nameRule, nameRuleInWords } from './name-rule.ts';
import type { Place } from './place.ts';
import { quantityAt } from './quantity-at.ts';
import { sizePieces } from './read-triple.ts';
import type { Reading } from './reading.ts';
import { excerpt } from './report-problem.ts';
import { describeNode, isEmpty } from './source-tree.ts';
import type { SourceEntry, SourceMap, SourceNode, SourceScalar } from './source-tree.ts';
import { axes, threeLengths } from './three-lengths.ts';

export type Values = Record<string, FieldValue>;

export interface FieldsOptions {
  /** keys that somebody else reads */
  readonly besides?: readonly string[];
  /** when true, keys without a descriptor are nobody's business (the kind is unknown) */
  readonly anyKey?: boolean;
  /** when true, absent values are not missed and not filled in (something else supplies them) */
  readonly isOverlay?: boolean;
}

/**
 * Reads a group of fields.
 *
 * @param node   the group in the text; undefined when it is absent
 * @param owner  place to blame for what is missing
 * @returns what passed, by name; handbook fields that are absent or bad are filled from the catalogue
 */
export function readFields(fields: Fields, node: SourceMap | undefined, path: string, owner: Place, reading: Reading, options: FieldsOptions = {}): Values {
  const values: Values = {};
  const besides = options.besides ?? [];
  const entries = node?.entries ?? [];
  for (const [index, { key, keyPlace, value }] of entries.entries()) {
    if (besides.includes(key) || isAfterComma(entries[index - 1], entries[index] as SourceEntry)) continue;
    const after = entries[index + 1];
    if (after && isAfterComma(entries[index], after)) {
      reportComma(join(path, key), value as SourceScalar, after, reading);
      continue;
    }
    const field = Object.hasOwn(fields, key) ? fields[key] : undefined;
    const here = join(path, key);
    if (!field) {
      if (!options.anyKey) reportUnknownKey(here, key, keyPlace, [...Object.keys(fields), ...besides], reading);
      continue;
    }
    if (isEmpty(value)) {
      if (options.isOverlay || field.need === 'optional') reading.report({ code: 'missing_value', path: here, place: keyPlace, found: 'nothing', expected: expectedOf(field), level: 'note' });
      continue;
    }
    const read = readField(field, value, here, reading, () => { delete values[key]; });
    if (read !== undefined) values[key] = read;
  }
  if (!options.isOverlay) {
    for (const name of Object.keys(fields)) completeField(fields[name] as Field, name, node, values, join(path, name), owner, reading);
  }
  return values;
}

/** Inside `{ }` a decimal comma parts a number: `0,25 mΩ` is read as 0 and a key `25 mΩ` with nothing behind it. */
function isAfterComma(before: SourceEntry | undefined, entry: SourceEntry): boolean {
  return before?.value.form === 'scalar' && /^[+-]?\d+$/.test(before.value.text) && /^\d+(\s|$|[^\s\w])/.test(entry.key) && isEmpty(entry.value);
}

function reportComma(path: string, whole: SourceScalar, after: SourceEntry, reading: Reading): void {
  const place = { ...whole.place, end: after.keyPlace.end };
  reading.places.set(path, place);
  reading.report({ code: 'bad_value', path, place, found: `“${whole.text},${excerpt(after.key)}”`, expected: 'a decimal point, not a comma', nearest: `${whole.text}.${after.key.trim()}` });
}

/** Reads one value; `drop` takes it out of the model again if it names a port that turns out not to exist. */
export function readField(field: Field, node: SourceNode, path: string, reading: Reading, drop: () => void): FieldValue | undefined {
  reading.places.set(path, node.place);
  switch (field.type) {
    case 'position': return readPosition(field, node, path, reading);
    case 'list': return readList(field.of, node, path, reading);
    case 'map': return readMap(field.of, node, path, reading);
    case 'group':
      if (node.form !== 'map') return wrongForm(field, node, path, reading);
      return readFields(field.fields, node, path, node.place, reading);
    default:
      if (node.form !== 'scalar') return wrongForm(field, node, path, reading);
      return readScalar(field, node, path, reading, drop);
  }
}

/** What a field expects, in words, with an example. */
export function expectedOf(field: Field): string {
  switch (field.type) {
    case 'quantity': return `${aQuantity(field.quantity)} such as ${field.example}`;
    case 'choice': return `one of ${field.choices.join(', ')}`;
    case 'flag': return 'yes or no';
    case 'count': return `a whole number from ${field.minimum} to ${field.maximum}`;
    case 'text': return `text such as “${field.example}”`;
    case 'name': return field.of === 'ports' ? `a part and its port such as ${field.example}` : `a name from the ${field.of} section such as ${field.example}`;
    case 'position': return 'three lengths such as [980, -310, 340 mm]';
    case 'size': return 'three lengths such as 385 x 150 x 110 mm';
    case 'list': return `a list in square brackets, each item ${expectedOf(field.of)}`;
    case 'map': return `names with values, each value ${expectedOf(field.of)}`;
    case 'group': return `the keys ${Object.keys(field.fields).join(', ')}`;
  }
}

/** `a mass`, `an area`, `a temperature difference`. */
export function aQuantity(quantity: QuantityName): string {
  const words = quantity.replaceAll('_', ' ');
  return `${/^[aeiou]/.test(words) ? 'an' : 'a'} ${words} [${quantities[quantity].si}]`;
}

/** Reports a key that nobody reads, with its nearest spelling among those that somebody does. */
export function reportUnknownKey(path: string, key: string, place: Place, allowed: readonly string[], reading: Reading): void {
  reading.report({ code: 'unknown_key', path, place, found: `“${excerpt(key)}”`, expected: allowed.length === 0 ? 'nothing here' : `one of ${allowed.join(', ')}`, nearest: reading.nearest(key, allowed) });
}

/** Reports a name that its section does not have. */
export function reportUnknownName(path: string, name: string, place: Place, section: string, candidates: ReadonlySet<string>, reading: Reading): void {
  reading.report({ code: 'unknown_name', path, place, found: `“${excerpt(name)}”`, expected: candidates.size === 0 ? `a name from the ${section} section, which is empty` : `a name from the ${section} section`, nearest: reading.nearest(name, candidates) });
}

function join(path: string, name: string): string {
  return path === '' ? name : `${path}.${name}`;
}

function completeField(field: Field, name: string, node: SourceMap | undefined, values: Values, path: string, owner: Place, reading: Reading): void {
  if (Object.hasOwn(values, name)) return;
  if (field.need === 'optional' && field.type !== 'choice') return;
  const entry = node?.entries.find((candidate) => candidate.key === name);
  if (field.type === 'choice' && field.fallback !== undefined) values[name] = field.fallback;
  if (field.type === 'quantity' && field.need === 'handbook' && field.handbook !== undefined) {
    const row = rowFor(field.handbook, values);
    if (row !== undefined) values[name] = fromHandbook(row, field.quantity, reading);
  }
  if (entry && !isEmpty(entry.value)) return;
  const isMissed = field.need === 'required' && !Object.hasOwn(values, name);
  if (isMissed || (entry && field.need !== 'optional')) {
    reading.report({ code: 'missing_value', path, place: entry?.keyPlace ?? owner, found: 'nothing', expected: expectedOf(field), level: isMissed ? 'stop' : 'note' });
  }
}

/** A row may depend on another field of the group, `cell.minimum_voltage.{chemistry}`; without that field there is no row. */
function rowFor(key: string, values: Values): string | undefined {
  const depends = /\{([a-z_]+)\}/.exec(key);
  if (!depends) return key;
  const value = values[depends[1] as string];
  return typeof value === 'string' ? key.replace(depends[0], value) : undefined;
}

function fromHandbook(row: string, quantity: QuantityName, reading: Reading): Quantity {
  const value = handbookValue(reading.catalogue, row, quantity);
  reading.quantities.set(value.path, value);
  return value;
}

type ScalarField = Exclude<Field, { type: 'position' | 'list' | 'map' | 'group' }>;

function readScalar(field: ScalarField, node: SourceScalar, path: string, reading: Reading, drop: () => void): FieldValue | undefined {
  switch (field.type) {
    case 'quantity': return readQuantityField(field, node, path, reading);
    case 'choice': return readChoice(field, node, path, reading);
    case 'flag': return readFlag(field, node, path, reading);
    case 'count': return readCount(field, node, path, reading);
    case 'text': return node.text;
    case 'name': return readName(field, node, path, reading, drop);
    case 'size': return readSize(field, node, path, reading);
  }
}

function readQuantityField(field: QuantityField, node: SourceScalar, path: string, reading: Reading): Quantity | undefined {
  const read = quantityAt(node.text, field.quantity, path, node, 0, reading, field.example);
  if (!read) return undefined;
  const written = field.isLimit === true && !read.toleranceIsStated ? { ...read, low: read.nominal, high: read.nominal, shape: 'exact' as const } : read;
  const within = insideRange(written, field, node, path, reading);
  if (within) reading.quantities.set(path, within);
  return within;
}

/** A value outside the possible range is refused; a tolerance that reaches outside is cut at its border. */
function insideRange(value: Quantity, field: QuantityField, node: SourceScalar, path: string, reading: Reading): Quantity | undefined {
  const { minimum = -Infinity, maximum = Infinity, aboveMinimum = false } = field;
  const isBelow = aboveMinimum ? (limit: number) => limit <= minimum : (limit: number) => limit < minimum;
  const range = `${minimum === -Infinity ? '' : `${aboveMinimum ? 'more than' : 'at least'} ${minimum}`}${minimum !== -Infinity && maximum !== Infinity ? ' and ' : ''}${maximum === Infinity ? '' : `at most ${maximum}`} ${quantities[field.quantity].si === '1' ? '' : quantities[field.quantity].si}`.trim();
  if (isBelow(value.nominal) || value.nominal > maximum) {
    reading.report({ code: 'out_of_range', path, place: node.place, found: `“${excerpt(node.text)}”`, expected: `${range}, such as ${field.example}` });
    return undefined;
  }
  if (!isBelow(value.low) && value.high <= maximum) return value;
  if (value.toleranceIsStated) reading.report({ code: 'out_of_range', path, place: node.place, found: `a tolerance that reaches ${isBelow(value.low) ? 'below' : 'above'} the possible`, expected: `${range}; the tolerance was cut there`, level: 'note' });
  // A limit that itself is not allowed gets a thousandth of the way to the value, so that no draw lands on it.
  const lowest = aboveMinimum ? minimum + (value.nominal - minimum) * 1e-3 : minimum;
  return { ...value, low: isBelow(value.low) ? lowest : value.low, high: Math.min(value.high, maximum) };
}

function readChoice(field: ChoiceField, node: SourceScalar, path: string, reading: Reading): string | undefined {
  if (field.choices.includes(node.text)) return node.text;
  reading.report({ code: 'bad_value', path, place: node.place, found: `“${excerpt(node.text)}”`, expected: expectedOf(field), nearest: reading.nearest(node.text, field.choices) });
  return undefined;
}

const flagWords: Readonly<Record<string, boolean>> = { yes: true, true: true, no: false, false: false };

function readFlag(field: Field, node: SourceScalar, path: string, reading: Reading): boolean | undefined {
  const word = node.text.toLowerCase();
  if (Object.hasOwn(flagWords, word)) return flagWords[word];
  reading.report({ code: 'bad_value', path, place: node.place, found: `“${excerpt(node.text)}”`, expected: expectedOf(field), nearest: reading.nearest(word, ['yes', 'no']) });
  return undefined;
}

function readCount(field: CountField, node: SourceScalar, path: string, reading: Reading): number | undefined {
  const value = /^\d{1,15}$/.test(node.text) ? Number(node.text) : undefined;
  if (value !== undefined && value >= field.minimum && value <= field.maximum) return value;
  reading.report({ code: value === undefined ? 'bad_value' : 'out_of_range', path, place: node.place, found: `“${excerpt(node.text)}”`, expected: expectedOf(field) });
  return undefined;
}

function readName(field: NameField, node: SourceScalar, path: string, reading: Reading, drop: () => void): string | undefined {
  if (field.of === 'ports') {
    reading.portReferences.push({ text: node.text, path, place: node.place, drop });
    return node.text;
  }
  if (reading.names[field.of].has(node.text)) return node.text;
  reportUnknownName(path, node.text, node.place, field.of, reading.names[field.of], reading);
  return undefined;
}

function readPosition(field: PositionField, node: SourceNode, path: string, reading: Reading): FieldValue | undefined {
  if (node.form !== 'list' || node.items.length !== 3) return wrongForm(field, node, path, reading);
  const items: SourceScalar[] = [];
  for (const item of node.items) if (item.form === 'scalar') items.push(item);
  if (items.length !== 3) return wrongForm(field, node, path, reading);
  return threeLengths(items.map((item) => ({ node: item, text: item.text, at: 0 })), 'coordinate', path, reading, '[980, -310, 340 mm]');
}

function readSize(field: SizeField, node: SourceScalar, path: string, reading: Reading): FieldValue | undefined {
  const pieces = sizePieces(node.text);
  if (!pieces) return wrongForm(field, node, path, reading);
  const lengths = threeLengths(pieces.map((piece) => ({ node, ...piece })), 'length', path, reading, '385 x 150 x 110 mm');
  const flat = lengths?.find((length) => length.nominal <= 0);
  if (!flat) return lengths;
  reading.report({ code: 'out_of_range', path, place: node.place, found: `“${excerpt(node.text)}”`, expected: 'three lengths of more than 0' });
  for (const axis of axes) reading.quantities.delete(`${path}.${axis}`);
  return undefined;
}

function readList(of: Field, node: SourceNode, path: string, reading: Reading): FieldValue | undefined {
  if (node.form !== 'list') return wrongForm({ type: 'list', need: 'optional', of, meaning: '' }, node, path, reading);
  const items: FieldValue[] = [];
  node.items.forEach((item, index) => {
    const here = `${path}.${index}`;
    if (isEmpty(item)) return reading.report({ code: 'missing_value', path: here, place: item.place, found: 'nothing', expected: expectedOf(of) });
    const value = readField(of, item, here, reading, () => { items.splice(items.indexOf(value as FieldValue), 1); });
    if (value !== undefined) items.push(value);
  });
  return items;
}

function readMap(of: Field, node: SourceNode, path: string, reading: Reading): FieldValue | undefined {
  if (node.form !== 'map') return wrongForm({ type: 'map', need: 'optional', of, meaning: '' }, node, path, reading);
  const values: Values = {};
  for (const { key, keyPlace, value } of node.entries) {
    const here = join(path, key);
    if (!nameRule.test(key)) reading.report({ code: 'bad_value', path: here, place: keyPlace, found: `the name “${excerpt(key)}”`, expected: nameRuleInWords });
    else if (isEmpty(value)) reading.report({ code: 'missing_value', path: here, place: keyPlace, found: 'nothing', expected: expectedOf(of) });
    else {
      const read = readField(of, value, here, reading, () => { delete values[key]; });
      if (read !== undefined) values[key] = read;
    }
  }
  return values;
}

function wrongForm(field: Field, node: SourceNode, path: string, reading: Reading): undefined {
  const found = node.form === 'scalar' ? `“${excerpt(node.text)}”` : node.form === 'list' && field.type === 'position' ? `a list of ${node.items.length}` : describeNode(node);
  reading.report({ code: 'bad_value', path, place: node.place, found, expected: expectedOf(field) });
  return undefined;
}
