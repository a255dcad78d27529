/**
 * Build file text -> build model, with every problem of the text.
 *
 * Text is read into a tree with places, sections are read by their descriptors, and last the names and ports that one
 * section takes from another are looked up. Whatever does not pass is left out and has a problem; the rest stays.
 */
import type { Catalogue } from '../part/catalogue.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { Kinds } from '../part/kind.ts';
import type { RunKinds } from '../part/run-kind.ts';
import type { Build, BuildMass, FieldValues } from './build.ts';
import { readEntry, readSection } from './entry-memory.ts';
import type { EntriesRead, SectionsRead } from './entry-memory.ts';
import type { Place } from './place.ts';
import { nearestWithin } from './nearest-name.ts';
import { readFields, reportUnknownKey } from './read-field.ts';
import { readModes } from './read-modes.ts';
import { portsOf, readParts } from './read-parts.ts';
import { findPort, readRuns, readStock } from './read-runs.ts';
import { readSource } from './read-source.ts';
import type { Reading } from './reading.ts';
import { collectProblems } from './report-problem.ts';
import { cellFields, conditionFields, fileFields, FORMAT_VERSION, removedFields, sectionMeanings, vehicleFields } from './sections.ts';
import { namesIn, sectionEntries, sectionMap } from './section-entries.ts';
import type { SectionEntry } from './section-entries.ts';
import { readSourceAgain } from './source-memory.ts';
import type { SourceMemory } from './source-memory.ts';
import { entryOf } from './source-tree.ts';
import type { SourceMap, SourceNode } from './source-tree.ts';

/** Spellings are compared as long as that takes no time worth mentioning: a file of ten thousand mistyped names gets no hints. */
const MOST_COMPARISONS = 200_000;

/** The vocabulary a build file is read with: part kinds, run kinds, handbook. */
export interface Words { readonly kinds: Kinds; readonly runKinds: RunKinds; readonly catalogue: Catalogue }

/** As found by a reader of a file with nothing in it. */
export const EMPTY = 'an empty file';

/**
 * Reads a build file. Never throws for anything in the text.
 *
 * @param text   the file, at most 1 MB
 * @param words  kinds, run kinds and handbook
 * @param memory of the reader of this file (`emptyMemory()` at first): makes reading again after an edit quicker, changes nothing else
 * @returns as much of the model as could be read, and all problems in the order of the text
 * Errors: throws when a descriptor names a handbook row that the catalogue does not have
 * Checked: core/build/read-build.test.ts, core/build/build-fuzz.test.ts
 */
export function readBuild(text: string, words: Words, memory?: SourceMemory): Build {
  const last = memory?.last;
  // an edit reads what it made to prove it; the analysis that follows reads the same text
  if (last?.text === text && last.words === words) return last.build;
  const build = readAnew(text, words, memory);
  if (memory) memory.last = { text, words, build };
  return build;
}

function readAnew(text: string, words: Words, memory: SourceMemory | undefined): Build {
  const problems = collectProblems();
  const { report } = problems;
  const source = memory ? readSourceAgain(text, memory, report) : readSource(text, report);
  const top: Place = { line: 1, column: 1, offset: 0, end: 0 };
  const root = source?.form === 'map' ? source : undefined;
  if (!root && problems.all().length === 0) report({ code: 'bad_value', path: '', place: source?.place ?? top, found: source ? 'text without keys' : EMPTY, expected: `keys with values, first of all halfshaft: ${FORMAT_VERSION}` });

  const names = { cells: namesIn(root, 'cells'), stock: namesIn(root, 'stock'), parts: namesIn(root, 'parts'), runs: namesIn(root, 'runs'), modes: namesIn(root, 'modes') };
  const entriesNow: EntriesRead = new Map(), sectionsNow: SectionsRead = new Map();
  const reading: Reading = {
    report, catalogue: words.catalogue, places: new Map(), quantities: new Map(), portReferences: [], nearest: nearestWithin(MOST_COMPARISONS),
    ...(memory ? { quantitiesRead: quantitiesOf(memory), entries: { before: memory.entries ?? new Map(), now: entriesNow, sectionsBefore: memory.sectionsRead ?? new Map(), sectionsNow, names: Object.values(names).map((all) => [...all].join(' ')).join('\n') } } : {}),
    names,
  };
  const head = root ? readHead(root, top, reading) : {};
  const vehicle = sectionOf(root, 'vehicle', reading);
  const conditions = sectionOf(root, 'conditions', reading);
  const entriesOf = <T>(section: string, context: readonly unknown[], read: (entries: readonly SectionEntry[], own: Reading) => T): T =>
    readSection(section, entryOf(root, section)?.value, [words, ...context], reading, (own) => read(sectionEntries(root, section, own), own));
  const removed = entriesOf('removed', [], (entries, own) => readNamed(entries, 'removed', own));
  const cells = entriesOf('cells', [], (entries, own) => readNamed(entries, 'cells', own));
  const stock = entriesOf('stock', [], (entries, own) => readStock(entries, words.runKinds, own));
  const parts = entriesOf('parts', [], (entries, own) => readParts(entries, words.kinds, own));
  const ports = portsOf(parts, words.kinds, reading);
  const runs = entriesOf('runs', [stock, ports], (entries, own) => readRuns(entries, words.runKinds, stock, ports, own));
  const modes = entriesOf('modes', [parts], (entries, own) => readModes(entries, parts, words.kinds, own));
  for (const reference of reading.portReferences.splice(0)) {
    if (findPort(reference.text, reference.path, reference.place, ports, reading)) continue;
    reference.drop();
    sectionsNow.delete('parts');
  }

  if (memory) {
    memory.entries = entriesNow;
    memory.sectionsRead = sectionsNow;
  }
  return {
    name: textOr(head['name'], ''),
    scenario: typeof head['scenario'] === 'string' ? head['scenario'] : undefined,
    units: head['units'] === 'imperial' ? 'imperial' : 'metric',
    vehicle, conditions, removed, cells, stock, parts, runs, modes,
    places: reading.places,
    problems: problems.all(),
    quantities: reading.quantities,
  };
}

/** Every edit leaves a few that nobody asks for again. */
const MOST_QUANTITIES = 50_000;

function quantitiesOf(memory: SourceMemory): Map<string, Quantity> {
  if (!memory.quantities || memory.quantities.size > MOST_QUANTITIES) memory.quantities = new Map();
  return memory.quantities;
}

function readHead(root: SourceMap, top: Place, reading: Reading): FieldValues {
  const sections = Object.keys(sectionMeanings);
  for (const { key, keyPlace } of root.entries) {
    if (!Object.hasOwn(fileFields, key) && !sections.includes(key)) reportUnknownKey(key, key, keyPlace, [...Object.keys(fileFields), ...sections], reading);
  }
  const version = entryOf(root, 'halfshaft');
  const isOther = version?.value.form === 'scalar' && /^\d+$/.test(version.value.text) && Number(version.value.text) !== FORMAT_VERSION;
  if (isOther) reading.report({ code: 'wrong_version', path: 'halfshaft', place: version.value.place, found: `version ${version.value.text}`, expected: `version ${FORMAT_VERSION}; the file was read as if it were that`, level: 'note' });
  const { halfshaft, ...others } = fileFields;
  return readFields(isOther ? others : { halfshaft, ...others }, root, '', top, reading, { anyKey: true });
}

const fixedSections = { vehicle: vehicleFields, conditions: conditionFields };
const namedSections = { removed: removedFields, cells: cellFields };

/** A section of fixed keys. Without the section nothing in it is missed, but handbook fields are filled in. */
function sectionOf(root: SourceNode | undefined, section: keyof typeof fixedSections, reading: Reading): FieldValues {
  const node = sectionMap(root, section, reading);
  const owner = entryOf(root, section)?.keyPlace;
  const fields = fixedSections[section];
  if (owner) return readFields(fields, node, section, owner, reading);
  const filled = Object.fromEntries(Object.entries(fields).filter(([, field]) => field.need === 'handbook'));
  return readFields(filled, undefined, section, { line: 1, column: 1, offset: 0, end: 0 }, reading);
}

function readNamed(entries: readonly SectionEntry[], section: keyof typeof namedSections, reading: Reading): Map<string, BuildMass> {
  return new Map(entries.map((entry) => [entry.name, readEntry(entry, [], reading, (own) => {
    const { name, path, keyPlace, node } = entry;
    return { name, fields: readFields(namedSections[section], node, path, keyPlace, own) };
  })]));
}

function textOr(value: unknown, otherwise: string): string {
  return typeof value === 'string' ? value : otherwise;
}
