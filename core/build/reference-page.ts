/**
 * The reference page of the build file (docs/build-file.md), written for a builder from the descriptors that the reader uses.
 */
import { bases } from '../quantity/basis.ts';
import { printValue } from '../quantity/print-quantity.ts';
import { quantities } from '../quantity/quantity-table.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import { readQuantity } from '../quantity/read-quantity.ts';
import { units } from '../quantity/unit-table.ts';
import type { Field, Fields, QuantityField } from '../part/field.ts';
import type { Kind, Port } from '../part/kind.ts';
import type { RunKind } from '../part/run-kind.ts';
import { handbookValue } from './handbook-value.ts';
import { nameRuleInWords } from './name-rule.ts';
import type { Words } from './read-build.ts';
import { cellFields, commonPartFields, commonRunFields, conditionFields, fileFields, modeFields, removedFields, sectionMeanings, vehicleFields } from './sections.ts';
import type { SectionName } from './sections.ts';
import { MAXIMUM_DEPTH, MAXIMUM_LENGTH } from './source-tree.ts';

/**
 * @returns Markdown, the same for the same words
 * Errors: throws when an example of a descriptor cannot be read by its own reader, or a handbook row is missing
 */
export function referencePage(words: Words): string {
  const kinds = [...words.kinds.values()].sort(byFamilyAndTitle);
  return [
    '# The build file',
    'This page is made by `npm run docs` from the definitions that the reader itself uses. Do not edit it by hand.',
    introduction(), numbers(), basisTable(), quantityTable(), positions(),
    '## The file', 'The first line says which version of the format it is. Everything except `halfshaft` and `name` may be left out.', fieldTable(fileFields, words),
    section('vehicle', fieldTable(vehicleFields, words)),
    section('conditions', fieldTable(conditionFields, words)),
    section('removed', fieldTable(removedFields, words)),
    section('cells', fieldTable(cellFields, words)),
    section('stock', 'Each stock says its `kind` and the fields of that kind; see [kinds of run](#kinds-of-run).'),
    section('parts', 'Each part says its `kind`, the fields of that kind (see [kinds of part](#kinds-of-part)), and any of these:', fieldTable(commonPartFields, words)),
    section('runs', runsIntroduction, fieldTable(commonRunFields, words)),
    section('modes', fieldTable(modeFields, words), 'Under `set` stands, by part, what the mode sets on it: `set: { INV: { draw: 25 kW } }`. Which settings a part has is said with its kind. A setting that a mode does not give is at rest.'),
    '## Kinds of run', ...[...words.runKinds.values()].map((kind) => runKindText(kind, words)),
    '## Kinds of part', kindList(kinds), ...kinds.map((kind) => kindText(kind, words)),
  ].join('\n\n') + '\n';
}

const runsIntroduction = 'Each run joins two ports. It is cut from a `stock`, whose fields it takes over and may override one by one; or it says its own `kind` and the fields of that kind. What several runs take from one stock is one number: when the stock is measured better, all of them are.';

function introduction(): string {
  return [
    `The whole vehicle is one text file, \`build.yaml\`, in YAML 1.2: \`key: value\` lines with indents, or \`{ key: value }\` and \`[a, b]\` on one line. A \`#\` starts a comment. Keys are in snake_case. A name that you choose is ${nameRuleInWords}. Order does not matter, except that parts and runs are listed in the order of the file.`,
    'A file with mistakes is still read: each mistake is told with its line, what was found, what was expected and the nearest right spelling; the value is left out and the rest is analysed. ' +
    `A file may have ${MAXIMUM_LENGTH / 1_000_000} MB and values at most ${MAXIMUM_DEPTH} deep. A key that is given twice counts once, the first time.`,
    'A flag is `yes` or `no`. Text needs quotes only where YAML would read it as something else, as with a colon and a space in it.',
  ].join('\n\n');
}

function numbers(): string {
  return [
    '## How numbers are written',
    'A number, its unit, its tolerance, and where it came from:',
    table(['written', 'means'], [
      ['`12.4 kg ±0.1 measured`', 'read on a scale that is good to 0.1 kg; the limits are meant to hold in 95 of 100 cases'],
      ['`0.95 mΩ ±15 % estimate`', 'a tolerance may be a share of the value'],
      ['`0.8..1.2 mF`', 'anywhere in this range, one place as likely as the other'],
      ['`0.8 mF label`', 'no tolerance given: the one of its basis counts'],
      ['`62 °C`', 'no basis given: it counts as an estimate'],
      ['`1 1/2 in`, `3/8"`, `2/0 AWG`, `350V`', 'fractions, inch signs, wire gauges; the space before the unit may be left out'],
    ]),
    'A **rating** is what a maker promises, or the name of a size (`rating: 350 A label`, `conductor_area: 50 mm²`): it has no tolerance unless you write one.',
    '',
    'A number without a unit is refused where the quantity has one. Units of either system may be mixed; `units` only decides how results are shown. A temperature and a difference of temperatures are two things, and so are gauge and absolute pressure.',
    'What the file leaves out and the handbook knows is filled in with basis `handbook` and the range usual in the trade. All parts that take a value from the same row of the handbook share it: they are right or wrong together.',
  ].join('\n\n');
}

function basisTable(): string {
  const rows = Object.entries(bases).map(([basis, { tolerance, temperatureTolerance, placeTolerance, meaning }]) =>
    [`\`${basis}\``, `±${round(tolerance * 100)} %`, `±${round(temperatureTolerance)} K`, `±${round(placeTolerance * 1000)} mm`, meaning]);
  return ['### Basis', 'Where a number came from, and the tolerance that counts when none is given:', table(['basis', 'tolerance', 'of a temperature', 'of a coordinate', 'meaning'], rows), 'These tolerances are common practice, no source. A share of a temperature or of a place along an axis would mean nothing, so they have their own.'].join('\n\n');
}

function quantityTable(): string {
  return ['### Quantities', 'Units are read in their usual spellings: `mm²`, `mm2`, `sq mm`; `Ω`, `ohm`; `µ`, `u`; `l/min`, `L/min`. A misspelt one gets the nearest right one.',
    table(['quantity', 'symbol', 'units that are read', 'meaning'], Object.entries(quantities).map(([name, row]) => [name.replaceAll('_', ' '), row.symbol, unitsOf(name as QuantityName), row.meaning]))].join('\n\n');
}

function unitsOf(quantity: QuantityName): string {
  return [...new Set([...units.values()].filter(({ serves }) => serves.includes(quantity)).map(({ printed }) => printed))].filter((unit) => unit !== '').join(', ');
}

function positions(): string {
  return [
    '### Positions and sizes',
    'A position is `[x, y, z]`: x rearward from the front axle line, y to the right of the middle of the track, z up from the ground (axes as in ISO 4130). The unit, the tolerance and the basis of the last number hold for those that have none of their own: `[980, -310, 340 mm ±5 measured]`.',
    'A size is `385 x 150 x 110 mm ±2 measured`, along x, y and z as the part is mounted.',
  ].join('\n\n');
}

function section(name: SectionName, ...paragraphs: string[]): string {
  return [`## \`${name}\``, sectionMeanings[name], ...paragraphs].join('\n\n');
}

function fieldTable(fields: Fields, words: Words): string {
  const rows = rowsOf(fields, '', words);
  return rows.length === 0 ? 'It has no fields.' : table(['key', 'needed', 'what', 'example', 'meaning'], rows);
}

/** A row for each field; the fields of a group follow it, indented by its name. */
function rowsOf(fields: Fields, prefix: string, words: Words): readonly (readonly string[])[] {
  return Object.entries(fields).flatMap(([name, field]) => {
    const row = [`\`${prefix}${name}\``, needOf(field, fields, words), whatOf(field), exampleOf(field), meaningOf(field)];
    const inner = field.type === 'group' ? field : (field.type === 'list' || field.type === 'map') && field.of.type === 'group' ? field.of : undefined;
    return inner ? [row, ...rowsOf(inner.fields, `${prefix}${name}.${field.type === 'map' ? '….' : ''}`, words)] : [row];
  });
}

function needOf(field: Field, siblings: Fields, words: Words): string {
  if (field.need === 'required') return 'yes';
  if (field.type === 'choice' && field.fallback !== undefined) return `else \`${field.fallback}\``;
  if (field.need === 'optional' || field.type !== 'quantity' || field.handbook === undefined) return 'no';
  const { handbook, quantity } = field;
  // A row may depend on another field, as the voltage limits of a cell do on its chemistry.
  const depends = /\{([a-z_]+)\}/.exec(handbook);
  if (!depends) return `else handbook: ${usual(handbook, quantity, words)}`;
  const other = siblings[depends[1] as string];
  if (other?.type !== 'choice') throw new Error(`handbook row ${handbook} depends on ${depends[1]}, which is no choice`);
  return `else handbook, by \`${depends[1]}\`: ${other.choices.map((each) => `${each} ${usual(handbook.replace(depends[0], each), quantity, words)}`).join(', ')}`;
}

function usual(row: string, quantity: QuantityField['quantity'], words: Words): string {
  handbookValue(words.catalogue, row, quantity);
  const found = words.catalogue.rows.get(row);
  return `${found?.value} (${found?.range})`;
}

function whatOf(field: Field): string {
  switch (field.type) {
    case 'quantity': return `${field.quantity.replaceAll('_', ' ')}${field.isLimit === true ? ' (rating)' : ''}${rangeOf(field)}`;
    case 'choice': return field.choices.map((each) => `\`${each}\``).join(', ');
    case 'flag': return 'yes or no';
    case 'count': return `${field.minimum} to ${field.maximum}`;
    case 'text': return 'text';
    case 'name': return field.of === 'ports' ? 'port, as `Part.port`' : `name from \`${field.of}\``;
    case 'position': return 'position';
    case 'size': return 'size';
    case 'list': return `list: ${whatOf(field.of)}`;
    case 'map': return `names with values: ${whatOf(field.of)}`;
    case 'group': return 'group';
  }
}

function rangeOf({ minimum, maximum, aboveMinimum, quantity }: QuantityField): string {
  const shown = (value: number): string => (value === 0 ? '0' : printValue(value, quantity, { digits: 3 }));
  const limits = [minimum === undefined ? '' : `${aboveMinimum ? '>' : '≥'} ${shown(minimum)}`, maximum === undefined ? '' : `≤ ${shown(maximum)}`].filter((limit) => limit !== '');
  return limits.length === 0 ? '' : `, ${limits.join(', ')}`;
}

function exampleOf(field: Field): string {
  switch (field.type) {
    case 'quantity': {
      const read = readQuantity(field.example, field.quantity, '');
      if (!read.ok) throw new Error(`the example ${field.example} of “${field.meaning}” is not a ${field.quantity}: expected ${read.problem.expected}`);
      return `\`${field.example}\``;
    }
    case 'choice': return `\`${field.choices[0]}\``;
    case 'flag': return '`yes`';
    case 'position': return '`[980, -310, 340 mm]`';
    case 'size': return '`385 x 150 x 110 mm`';
    case 'list': return field.of.type === 'group' ? '' : `\`[${exampleOf(field.of).replaceAll('`', '')}]\``;
    case 'map': return field.of.type === 'group' ? '' : `\`{ a: ${exampleOf(field.of).replaceAll('`', '')} }\``;
    case 'group': return '';
    default: return `\`${field.example}\``;
  }
}

function meaningOf(field: Field): string {
  const explained = field.type === 'choice' ? Object.entries(field.explain ?? {}).map(([word, meaning]) => `\`${word}\`: ${String(meaning)}`) : [];
  return [field.meaning, ...explained].join('; ');
}

function byFamilyAndTitle(a: Kind, b: Kind): number {
  const families = ['high_voltage', 'low_voltage', 'mechanical'];
  return families.indexOf(a.family) - families.indexOf(b.family) || (a.title < b.title ? -1 : 1);
}

function kindList(kinds: readonly Kind[]): string {
  return table(['kind', 'title', 'family', 'meaning'], kinds.map((kind) => [`[\`${kind.kind}\`](#${kind.kind})`, kind.title, kind.family.replaceAll('_', ' '), kind.meaning]));
}

function kindText(kind: Kind, words: Words): string {
  const settings = Object.keys(kind.settings).length === 0 ? [] : ['**Settings**, for `set` of a mode:', fieldTable(kind.settings, words)];
  const failures = kind.failures.length === 0 ? [] : ['**How it fails:**', kind.failures.map((failure) => `- \`${failure.code}\`: ${failure.meaning}`).join('\n')];
  return [`### \`${kind.kind}\``, `${kind.title}: ${kind.meaning}.`, fieldTable(kind.fields, words), portText(kind), ...settings, ...failures, ...observableText(kind.observables)].join('\n\n');
}

function runKindText(kind: RunKind, words: Words): string {
  return [`### \`${kind.kind}\``, `${kind.title}: ${kind.meaning}.`, fieldTable(kind.fields, words), ...observableText(kind.observables)].join('\n\n');
}

function observableText(observables: Kind['observables']): readonly string[] {
  return observables.length === 0 ? [] : ['**What you may notice:**', observables.map(({ sense, meaning }) => `- ${sense}: ${meaning}`).join('\n')];
}

/** Ports of a part without fields; of one with the example fields, when the ports follow from the fields. */
function portText(kind: Kind): string {
  const bare = kind.ports({} as never);
  const fields = exampleFields(kind.fields);
  // every choice may bring a port of its own
  const variants = [fields, ...Object.entries(kind.fields).flatMap(([name, field]) => (field.type === 'choice' ? field.choices.map((choice) => ({ ...fields, [name]: choice })) : []))];
  const example = [...new Map(variants.flatMap((variant) => kind.ports(variant as never)).map((port) => [port.name, port])).values()];
  const followsFields = JSON.stringify(bare) !== JSON.stringify(example);
  const ports = followsFields ? example : bare;
  if (ports.length === 0) return 'It has no ports.';
  const rows = ports.map((port: Port) => [`\`${port.name}\``, `${port.carries.replaceAll('_', ' ')}${port.pole ? `, ${port.pole}` : ''}`, String(port.holds), port.meaning]);
  return [followsFields ? '**Ports**, which follow from the fields; with those of the examples and with every choice:' : '**Ports:**', table(['port', 'carries', 'runs it takes', 'meaning'], rows)].join('\n\n');
}

function exampleFields(fields: Fields): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(fields).map(([name, field]) => [name, field.type === 'map' ? { [`my_${name.replace(/s$/, '')}`]: exampleValue(field.of) } : exampleValue(field)]));
}

function exampleValue(field: Field): unknown {
  switch (field.type) {
    case 'quantity': { const read = readQuantity(field.example, field.quantity, ''); return read.ok ? read.value.nominal : undefined; }
    case 'choice': return field.choices[0];
    case 'flag': return true;
    case 'count': return Number(field.example);
    case 'position': case 'size': return [0, 0, 0];
    case 'list': return [exampleValue(field.of)];
    case 'map': return { a: exampleValue(field.of) };
    case 'group': return exampleFields(field.fields);
    default: return field.example;
  }
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.map((cell) => cell.replaceAll('|', '\\|').replace(/\s*\n\s*/g, ' ')).join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

function round(value: number): string {
  return String(Number(value.toPrecision(6)));
}
