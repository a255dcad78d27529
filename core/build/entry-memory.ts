/**
 * What an entry of a section read as, kept from edit to edit: an entry whose text is as before, among the same names, is not read again;
 * nor is a section in which nothing has changed or moved.
 *
 * Only entries without any problem are kept, so that each problem is found and worded anew. Places are kept as they stood and moved
 * with the entry. What is kept is shared by the builds of one reader and never changed.
 */
import type { Quantity } from '../quantity/quantity.ts';
import type { Place } from './place.ts';
import type { Reading } from './reading.ts';
import type { SectionEntry } from './section-entries.ts';
import type { SourceNode } from './source-tree.ts';

interface EntryRead {
  readonly piece: string; readonly line: number; readonly offset: number;
  /** names of all sections when it was read */
  readonly names: string;
  readonly context: readonly unknown[];
  readonly value: unknown;
  readonly places: readonly (readonly [string, Place])[];
  readonly quantities: readonly (readonly [string, Quantity])[];
}

/** By path; belongs to one reader of one file. */
export type EntriesRead = Map<string, EntryRead>;

interface SectionRead {
  readonly node: SourceNode;
  readonly names: string;
  readonly context: readonly unknown[];
  readonly value: unknown;
  readonly places: ReadonlyMap<string, Place>;
  readonly quantities: ReadonlyMap<string, Quantity>;
  readonly entries: EntriesRead;
}

/** By key; belongs to one reader of one file. */
export type SectionsRead = Map<string, SectionRead>;

/**
 * Reads a section of the file, or gives what it read as before.
 *
 * What of it names a port is looked up at the end: whoever finds none there takes the section out of `sectionsNow`.
 *
 * @param node     the section; the same object as last time when nothing in it has changed or moved
 * @param context  what the result depends on besides the section itself and the names of the file; compared by identity
 * @param read     reads through the reading it is given, and keeps no hold of it
 */
export function readSection<T>(section: string, node: SourceNode | undefined, context: readonly unknown[], reading: Reading, read: (reading: Reading) => T): T {
  const { entries } = reading;
  if (!entries || node === undefined) return read(reading);
  const known = entries.sectionsBefore.get(section);
  if (known?.node === node && known.names === entries.names && isSame(known.context, context)) {
    takeIn(known, reading);
    for (const [path, entry] of known.entries) entries.now.set(path, entry);
    entries.sectionsNow.set(section, known);
    return known.value as T;
  }
  const now: EntriesRead = new Map();
  const { own, isSound } = ownReading({ ...reading, entries: { ...entries, now } });
  const value = read(own);
  takeIn(own, reading);
  for (const [path, entry] of now) entries.now.set(path, entry);
  reading.portReferences.push(...own.portReferences);
  // ports follow from the parts alone: a part that names one finds it again as it did
  if (isSound() && (own.portReferences.length === 0 || section === 'parts')) entries.sectionsNow.set(section, { node, names: entries.names, context, value, places: own.places, quantities: own.quantities, entries: now });
  return value;
}

/** A reading that collects by itself, and whether no problem was reported through it. */
function ownReading(reading: Reading): { readonly own: Reading; readonly isSound: () => boolean } {
  let isSound = true;
  return {
    own: { ...reading, report: (parts) => { isSound = false; reading.report(parts); }, places: new Map(), quantities: new Map(), portReferences: [] },
    isSound: () => isSound,
  };
}

function takeIn({ places, quantities }: Pick<SectionRead, 'places' | 'quantities'>, reading: Reading): void {
  for (const [path, place] of places) reading.places.set(path, place);
  for (const [path, quantity] of quantities) reading.quantities.set(path, quantity);
}

const isSame = (one: readonly unknown[], other: readonly unknown[]): boolean => one.length === other.length && one.every((each, index) => each === other[index]);

/**
 * Reads an entry, or gives what it read as before.
 *
 * @param context  what the result depends on besides the entry's text and the names of the file; compared by identity
 * @param read     reads through the reading it is given, and keeps no hold of it
 */
export function readEntry<T>(entry: SectionEntry, context: readonly unknown[], reading: Reading, read: (reading: Reading) => T): T {
  const { entries } = reading;
  if (!entries || entry.piece === undefined) return read(reading);
  const { line, offset } = entry.keyPlace;
  const known = entries.before.get(entry.path);
  if (known && known.piece === entry.piece && known.names === entries.names && isSame(known.context, context)) {
    takeAgain(known, line, offset, reading);
    entries.now.set(entry.path, known);
    return known.value as T;
  }
  const { own, isSound } = ownReading(reading);
  const value = read(own);
  takeIn(own, reading);
  // what names a port is looked up at the end, and may be taken out again
  reading.portReferences.push(...own.portReferences);
  if (isSound() && own.portReferences.length === 0) entries.now.set(entry.path, { piece: entry.piece, line, offset, names: entries.names, context, value, places: [...own.places], quantities: [...own.quantities] });
  return value;
}

function takeAgain(known: EntryRead, line: number, offset: number, reading: Reading): void {
  const [lines, characters] = [line - known.line, offset - known.offset];
  const isMoved = lines !== 0 || characters !== 0;
  for (const [path, place] of known.places) reading.places.set(path, isMoved ? { line: place.line + lines, column: place.column, offset: place.offset + characters, end: place.end + characters } : place);
  for (const [path, quantity] of known.quantities) reading.quantities.set(path, quantity);
}
