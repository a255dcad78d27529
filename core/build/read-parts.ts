/**
 * The parts section: each part by the fields of its kind, then the ports that its fields give it.
 */
import type { Fields } from '../part/field.ts';
import type { Kind, Kinds, Port } from '../part/kind.ts';
import type { BuildPart } from './build.ts';
import { nominal, plainValues } from './plain-values.ts';
import { readEntry } from './entry-memory.ts';
import { readFields } from './read-field.ts';
import type { Reading } from './reading.ts';
import { excerpt } from './report-problem.ts';
import { commonPartFields } from './sections.ts';
import type { SectionEntry } from './section-entries.ts';
import { describeNode, entryOf, isEmpty } from './source-tree.ts';

/** Fields of a part of one kind: the common ones, then the kind's, which may describe a common one more strictly. */
export function partFields(kindFields: Fields): Fields {
  return { ...commonPartFields, ...kindFields };
}

/** Parts of a known kind; the others have a problem and are left out. */
export function readParts(entries: readonly SectionEntry[], kinds: Kinds, reading: Reading): Map<string, BuildPart> {
  const parts = new Map<string, BuildPart>();
  for (const entry of entries) {
    const kind = kinds.get(readKindWord(entry, kinds.keys(), 'a kind of part', reading) ?? '');
    if (!kind) continue;
    parts.set(entry.name, readEntry(entry, [kind], reading, (own) =>
      ({ name: entry.name, kind: kind.kind, fields: readFields(partFields(kind.fields), entry.node, entry.path, entry.keyPlace, own, { besides: ['kind'] }) })));
  }
  return parts;
}

/** By part, then port name. */
export type Ports = ReadonlyMap<string, ReadonlyMap<string, Port>>;

const portsKnown = new WeakMap<ReadonlyMap<string, BuildPart>, Ports>();

/** Ports of every part; the same object for the same parts, when no name is given twice. */
export function portsOf(parts: ReadonlyMap<string, BuildPart>, kinds: Kinds, reading: Reading): Ports {
  const before = portsKnown.get(parts);
  if (before) return before;
  const ports = new Map<string, ReadonlyMap<string, Port>>();
  let isSound = true;
  for (const part of parts.values()) {
    const { byName, taken } = portsByName(part, kinds.get(part.kind));
    for (const port of taken) reportTaken(part.name, port, reading);
    if (taken.length > 0) isSound = false;
    ports.set(part.name, byName);
  }
  if (isSound) portsKnown.set(parts, ports);
  return ports;
}

interface PortsByName { readonly byName: ReadonlyMap<string, Port>; /** names given a second time */ readonly taken: readonly string[] }

const known = new WeakMap<BuildPart, PortsByName>();

/** Worked out once for a part that stays the same from edit to edit. */
function portsByName(part: BuildPart, kind: Kind | undefined): PortsByName {
  const before = known.get(part);
  if (before) return before;
  const byName = new Map<string, Port>();
  const taken: string[] = [];
  for (const port of kind?.ports(plainValues(part.fields, nominal) as never) ?? []) {
    if (byName.has(port.name)) taken.push(port.name);
    else byName.set(port.name, port);
  }
  const found = { byName, taken };
  known.set(part, found);
  return found;
}

/** The builder has named a port (an input, an output, a pin) like one that the kind has already; the first keeps the name. */
function reportTaken(part: string, port: string, reading: Reading): void {
  const path = `parts.${part}`;
  const place = reading.places.get(path);
  if (place) reading.report({ code: 'bad_value', path, place, found: `two ports called ${port}`, expected: 'a name of its own for every input, output and pin' });
}

/** The word behind `kind:`, when it is one of the known ones. */
export function readKindWord(entry: SectionEntry, known: Iterable<string>, what: string, reading: Reading): string | undefined {
  const words = [...known];
  const found = entryOf(entry.node, 'kind');
  const path = `${entry.path}.kind`;
  if (!found || isEmpty(found.value)) {
    reading.report({ code: 'missing_value', path, place: found?.keyPlace ?? entry.keyPlace, found: 'nothing', expected: `${what} such as ${words[0] ?? ''}` });
    return undefined;
  }
  const { value } = found;
  reading.places.set(path, value.place);
  const word = value.form === 'scalar' ? value.text : undefined;
  if (word !== undefined && words.includes(word)) return word;
  reading.report({ code: 'unknown_kind', path, place: value.place, found: `“${excerpt(describeNode(value))}”`, expected: `${what}: ${words.join(', ')}`, nearest: word === undefined ? undefined : reading.nearest(word, words) });
  return undefined;
}
