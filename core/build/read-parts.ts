/**
 * The parts section: each part by the fields of its kind, then the ports that its fields give it.
 */
import type { Fields } from '../part/field.ts';
import type { Kinds, Port } from '../part/kind.ts';
import type { BuildPart } from './build.ts';
import { nominal, plainValues } from './plain-values.ts';
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
  const fieldsOf = new Map([...kinds.values()].map((kind) => [kind, partFields(kind.fields)]));
  for (const entry of entries) {
    const kind = kinds.get(readKindWord(entry, kinds.keys(), 'a kind of part', reading) ?? '');
    if (!kind) continue;
    const fields = readFields(fieldsOf.get(kind) as Fields, entry.node, entry.path, entry.keyPlace, reading, { besides: ['kind'] });
    parts.set(entry.name, { name: entry.name, kind: kind.kind, fields });
  }
  return parts;
}

/** Ports of every part by part and port name. */
export function portsOf(parts: ReadonlyMap<string, BuildPart>, kinds: Kinds, reading: Reading): ReadonlyMap<string, ReadonlyMap<string, Port>> {
  const ports = new Map<string, ReadonlyMap<string, Port>>();
  for (const part of parts.values()) {
    const list = kinds.get(part.kind)?.ports(plainValues(part.fields, nominal) as never) ?? [];
    const byName = new Map<string, Port>();
    for (const port of list) {
      if (!byName.has(port.name)) byName.set(port.name, port);
      else reportTaken(part.name, port.name, reading);
    }
    ports.set(part.name, byName);
  }
  return ports;
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
