/**
 * What an entry of a section read as, kept from edit to edit: an entry whose text is as before, among the same names, is not read again.
 *
 * Only entries without any problem are kept, so that each problem is found and worded anew. Places are kept as they stood and moved
 * with the entry. What is kept is shared by the builds of one reader and never changed.
 */
import type { Quantity } from '../quantity/quantity.ts';
import type { Place } from './place.ts';
import type { Reading } from './reading.ts';
import type { SectionEntry } from './section-entries.ts';

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
  if (known && known.piece === entry.piece && known.names === entries.names && known.context.length === context.length && known.context.every((one, index) => one === context[index])) {
    takeAgain(known, line, offset, reading);
    entries.now.set(entry.path, known);
    return known.value as T;
  }
  let isSound = true;
  const own: Reading = { ...reading, report: (parts) => { isSound = false; reading.report(parts); }, places: new Map(), quantities: new Map(), portReferences: [] };
  const value = read(own);
  for (const [path, place] of own.places) reading.places.set(path, place);
  for (const [path, quantity] of own.quantities) reading.quantities.set(path, quantity);
  // what names a port is looked up at the end, and may be taken out again
  reading.portReferences.push(...own.portReferences);
  if (isSound && own.portReferences.length === 0) entries.now.set(entry.path, { piece: entry.piece, line, offset, names: entries.names, context, value, places: [...own.places], quantities: [...own.quantities] });
  return value;
}

function takeAgain(known: EntryRead, line: number, offset: number, reading: Reading): void {
  const [lines, characters] = [line - known.line, offset - known.offset];
  const isMoved = lines !== 0 || characters !== 0;
  for (const [path, place] of known.places) reading.places.set(path, isMoved ? { line: place.line + lines, column: place.column, offset: place.offset + characters, end: place.end + characters } : place);
  for (const [path, quantity] of known.quantities) reading.quantities.set(path, quantity);
}
