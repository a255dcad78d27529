/**
 * Reading the text again after an edit, when most of it is as it was: entries that stand as before are not parsed again.
 *
 * The text is cut at the lines where an entry of a section starts. A block entry in YAML ends where a line is indented no
 * deeper, so each piece can be read alone; wherever that might not hold (aliases, explicit keys, a piece with a problem)
 * the whole text is read instead. What comes out is the same, to the place of each value.
 */
import type { Quantity } from '../quantity/quantity.ts';
import type { Build } from './build.ts';
import type { EntriesRead, SectionsRead } from './entry-memory.ts';
import { lineStartsOf } from './place-at.ts';
import type { Place } from './place.ts';
import { readSource } from './read-source.ts';
import type { Report } from './report-problem.ts';
import type { SourceEntry, SourceMap, SourceNode } from './source-tree.ts';

/** Pieces of the last text and what they read as; belongs to one reader of one file. */
export interface SourceMemory {
  pieces: ReadonlyMap<string, Kept>;
  /** sections of the last text that was cut, by key: the same object again as long as nothing in it has changed or moved */
  sections: ReadonlyMap<string, SourceEntry>;
  /** quantities that could be read, by what was asked for, the path and the text */
  quantities?: Map<string, Quantity> | undefined;
  entries?: EntriesRead | undefined;
  sectionsRead?: SectionsRead | undefined;
  /** the text that was read last, whole, and with which words */
  last?: { readonly text: string; readonly words: unknown; readonly build: Build };
}

/** What a piece reads as by itself, and where it stood last. */
interface Kept { readonly root: SourceNode; moved: { readonly line: number; readonly offset: number; readonly entry: SourceEntry } | undefined }

export function emptyMemory(): SourceMemory {
  return { pieces: new Map(), sections: new Map() };
}

/** For reading another text of the same file: what is known serves, and nothing is given back. */
export function lent({ pieces, sections, entries, sectionsRead }: SourceMemory): SourceMemory {
  return { pieces, sections, entries, sectionsRead };
}

/** Above this length the limits of the whole text matter, so it is read whole. */
const LONGEST = 300_000;
/** A piece this deep may pass the limit of depth where it stands. */
const DEEPEST = 30;

interface Piece { readonly text: string; readonly line: number; readonly offset: number; /** key of the section it is an entry of */ readonly section: SectionHead | undefined }
interface SectionHead { readonly key: string; readonly keyPlace: Place }

/**
 * The same as `readSource`, quicker when `memory` holds pieces of the text.
 * @param memory  is given the pieces of this text
 */
export function readSourceAgain(text: string, memory: SourceMemory, report: Report): SourceNode | undefined {
  const pieces = text.length > LONGEST || /\t|(?:^|[\s[{,:-])\*[^\s*]|^(?:---|\.\.\.|%)|^\s*\?(?:\s|$)|\uFEFF/m.test(text) ? undefined : piecesOf(text);
  const root = pieces && assembled(pieces, memory);
  return root ?? readSource(text, report);
}

/** Cuts a text at its top keys, and sections in block style at their entries; undefined where a cut might be wrong. */
function piecesOf(text: string): readonly Piece[] | undefined {
  const starts = lineStartsOf(text);
  const cuts: { line: number; section: SectionHead | undefined }[] = [];
  let section: SectionHead | undefined;
  let sectionIndent: number | undefined;
  for (const [line, start] of starts.entries()) {
    const end = text.indexOf('\n', start);
    const words = text.slice(start, end === -1 ? text.length : end).trimEnd();
    const indent = words.length - words.trimStart().length;
    const first = words[indent];
    if (first === undefined || first === '#') continue;
    const isEntry = section !== undefined && (sectionIndent === undefined || indent <= sectionIndent);
    if (indent > 0 && cuts.length === 0) return undefined;
    if (indent > 0 && !isEntry) continue;
    const key = /^ *([\p{L}\p{N}_-]+):(?= |$)/u.exec(words)?.[1];
    if (key === undefined || (indent > 0 && sectionIndent !== undefined && indent !== sectionIndent)) return undefined;
    if (indent > 0) {
      sectionIndent = indent;
      cuts.push({ line, section });
      continue;
    }
    sectionIndent = undefined;
    section = /^[^:]*:\s*(?:#.*)?$/.test(words) ? { key, keyPlace: { line: line + 1, column: 1, offset: start, end: start + key.length } } : undefined;
    cuts.push({ line, section: undefined });
  }
  return cuts.map(({ line, section: head }, index) => {
    const offset = starts[line] as number;
    const next = cuts[index + 1];
    return { text: text.slice(offset, next ? starts[next.line] : text.length), line, offset, section: head };
  });
}

/** The tree of all pieces; undefined when one has a problem of its own or the pieces do not fit together. */
function assembled(pieces: readonly Piece[], memory: SourceMemory): SourceNode | undefined {
  const used = new Map<string, Kept>();
  const top: SourceEntry[] = [];
  const keys = new Set<string>();
  for (const [index, piece] of pieces.entries()) {
    const entry = entryOfPiece(piece, memory, used);
    if (!entry) return undefined;
    const path = piece.section ? `${piece.section.key}.${entry.key}` : entry.key;
    if (keys.has(path)) return undefined;
    keys.add(path);
    if (piece.section === undefined) {
      const next = pieces[index + 1];
      if (next?.section?.keyPlace.offset !== piece.offset) top.push(entry);
      continue;
    }
    const before = top.at(-1);
    if (before?.keyPlace === piece.section.keyPlace && before.value.form === 'map') {
      (before.value.entries as SourceEntry[]).push(entry);
      continue;
    }
    top.push({ key: piece.section.key, keyPlace: piece.section.keyPlace, value: { form: 'map', entries: [entry], place: entry.keyPlace }, at: entry.keyPlace });
  }
  if (top.length === 0) return undefined;
  memory.pieces = used;
  const cut = new Set(pieces.map((piece) => piece.section?.keyPlace));
  const sections = new Map<string, SourceEntry>();
  const whole = blockMap(top.map((entry) => {
    if (!cut.has(entry.keyPlace)) return entry;
    const section = closedSection(entry, memory.sections.get(entry.key));
    sections.set(entry.key, section);
    return section;
  }));
  memory.sections = sections;
  return whole;
}

/** A section gets its end when all its entries are there. @param before  the section of that key in the last text: given back when it is the same */
function closedSection(entry: SourceEntry, before: SourceEntry | undefined): SourceEntry {
  const entries = entry.value.form === 'map' ? entry.value.entries : [];
  if (before?.value.form === 'map' && before.keyPlace.line === entry.keyPlace.line && before.keyPlace.offset === entry.keyPlace.offset && isSameList(before.value.entries, entries)) return before;
  const value = blockMap(entries);
  return { ...entry, value, at: value.place };
}

const isSameList = (a: readonly SourceEntry[], b: readonly SourceEntry[]): boolean => a.length === b.length && a.every((one, index) => one === b[index]);

function blockMap(entries: readonly SourceEntry[]): SourceMap {
  const [first, last] = [entries[0] as SourceEntry, entries.at(-1) as SourceEntry];
  return { form: 'map', entries, place: { ...first.keyPlace, end: last.at.end } };
}

/** The one entry of a piece, at its place in the text. */
function entryOfPiece({ text, line, offset }: Piece, memory: SourceMemory, used: Map<string, Kept>): SourceEntry | undefined {
  let kept = used.get(text) ?? memory.pieces.get(text);
  if (!kept) {
    let isSound = true;
    const read = readSource(text, () => { isSound = false; });
    if (!isSound || !read || heightOf(read) > DEEPEST) return undefined;
    kept = { root: read, moved: undefined };
  }
  used.set(text, kept);
  const { root, moved } = kept;
  if (moved?.line === line && moved.offset === offset) return moved.entry;
  const entry = root.form === 'map' && root.entries.length === 1 ? root.entries[0] : undefined;
  if (!entry) return undefined;
  kept.moved = { line, offset, entry: { ...movedEntry(entry, line, offset), piece: text } };
  return kept.moved.entry;
}

function movedEntry({ key, keyPlace, value, at }: SourceEntry, line: number, offset: number): SourceEntry {
  const moved = movedNode(value, line, offset);
  return { key, keyPlace: movedPlace(keyPlace, line, offset), value: moved, at: at.offset === value.place.offset && at.end === value.place.end ? moved.place : movedPlace(at, line, offset) };
}

function movedNode(node: SourceNode, line: number, offset: number): SourceNode {
  const place = movedPlace(node.place, line, offset);
  switch (node.form) {
    case 'scalar': return { form: 'scalar', text: node.text, isQuoted: node.isQuoted, place };
    case 'map': return { form: 'map', entries: node.entries.map((entry) => movedEntry(entry, line, offset)), place };
    case 'list': return { form: 'list', items: node.items.map((item) => movedNode(item, line, offset)), itemPlaces: node.itemPlaces.map((item) => movedPlace(item, line, offset)), place };
  }
}

function movedPlace(place: Place, line: number, offset: number): Place {
  return { line: place.line + line, column: place.column, offset: place.offset + offset, end: place.end + offset };
}

function heightOf(node: SourceNode): number {
  if (node.form === 'scalar') return 1;
  const inner = node.form === 'map' ? node.entries.map((entry) => entry.value) : node.items;
  return 1 + inner.reduce((highest, each) => Math.max(highest, heightOf(each)), 0);
}
