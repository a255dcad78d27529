/**
 * Putting an entry into a map or list of the text, and taking one out, in the style that is there.
 * Comments stay where they are; only a comment on the very line that goes away goes with it.
 */
import type { SourceList, SourceMap, SourceNode } from './source-tree.ts';
import { isEmpty } from './source-tree.ts';
import type { Place } from './place.ts';
import type { Splice } from './splice.ts';
import type { Entered } from './write-value.ts';
import { writeBlock, writeFlow, writeScalar } from './write-value.ts';

export type IsText = (path: readonly string[]) => boolean;

/** Where an entry starts and where its last visible character ends. */
interface Extent { readonly from: number; readonly to: number }

/** Offset behind the last visible character of a value: a block ends with its last value, not with the comments behind it. */
export function contentEnd(node: SourceNode, at: Place, text: string): number {
  if (at.offset !== node.place.offset || node.form === 'scalar' || isFlow(node, text)) return at.offset + text.slice(at.offset, at.end).trimEnd().length;
  if (node.form === 'map') { const last = node.entries.at(-1); return last ? contentEnd(last.value, last.at, text) : at.offset; }
  const last = node.items.at(-1);
  const lastAt = node.itemPlaces.at(-1);
  return last && lastAt ? contentEnd(last, lastAt, text) : at.offset;
}

export function isFlow(node: SourceMap | SourceList, text: string): boolean {
  return text[node.place.offset] === (node.form === 'map' ? '{' : '[');
}

/** LF or CRLF, as the text has it. */
export function lineEndOf(text: string): string {
  return text.includes('\r\n') ? '\r\n' : '\n';
}

/**
 * Puts `key: value` behind the last entry of a map.
 * @param isText  whether the text at a path below the entry is to be taken as text even when it looks like a list
 */
export function insertIntoMap(map: SourceMap, key: string, value: Entered, text: string, isText: IsText): Splice {
  const last = map.entries.at(-1);
  if (isFlow(map, text)) {
    const entry = `${writeScalar(key, 'flow')}: ${writeFlow(value, isText)}`;
    if (!last) return { at: map.place.offset + 1, removed: '', inserted: ` ${entry} ` };
    return { at: extentOf(last.keyPlace, last.value, last.at, text).to, removed: '', inserted: separatorOf(map.entries.map((each) => extentOf(each.keyPlace, each.value, each.at, text)), text) + entry };
  }
  if (!last) throw new Error('a map in block style has at least one entry');
  const indent = last.keyPlace.column - 1;
  const lineEnd = lineEndOf(text);
  const sibling = last.value;
  const inFlow = typeof value !== 'string' && sibling.form !== 'scalar' && isFlow(sibling, text);
  const inner = sibling.form === 'map' && !isFlow(sibling, text) ? (sibling.entries[0]?.keyPlace.column ?? indent + 3) - 1 - indent : 2;
  const behind = inFlow ? ` ${writeFlow(value, isText)}` : writeBlock(value, indent, Math.max(1, inner), lineEnd, isText);
  const end = lineStop(contentEnd(last.value, last.at, text), text);
  return { at: end, removed: '', inserted: `${lineEnd}${' '.repeat(indent)}${writeScalar(key, 'block')}:${behind}` };
}

/** Fills a key with nothing behind it: `parts:` gets its first entry. */
export function insertIntoEmpty(keyPlace: Place, at: Place, value: Entered, inFlow: boolean, text: string, isText: IsText): Splice {
  const stop = lineStop(keyPlace.end, text);
  const isBare = /^\s*:\s*(#.*)?$/.test(text.slice(keyPlace.end, stop));
  const isGroup = typeof value !== 'string' && !Array.isArray(value);
  if (isGroup && isBare && !inFlow) return { at: stop, removed: '', inserted: writeBlock(value, keyPlace.column - 1, 2, lineEndOf(text), isText) };
  const written = inFlow || isGroup ? ` ${writeFlow(value, isText)}` : writeBlock(value, keyPlace.column - 1, 2, lineEndOf(text), isText);
  if (at.end > at.offset && at.offset > keyPlace.end) return { at: at.offset, removed: text.slice(at.offset, at.end), inserted: written.trimStart() };
  const colon = /^\s*:/.exec(text.slice(keyPlace.end, stop))?.[0].length;
  return colon === undefined ? { at: keyPlace.end, removed: '', inserted: `:${written}` } : { at: keyPlace.end + colon, removed: '', inserted: written };
}

/** Puts an item behind the last one of a list. */
export function insertIntoList(list: SourceList, value: Entered, text: string, isText: IsText): Splice {
  const item = writeFlow(value, isText);
  const extents = itemExtents(list, text);
  const last = extents.at(-1);
  if (isFlow(list, text)) return last ? { at: last.to, removed: '', inserted: separatorOf(extents, text) + item } : { at: list.place.offset + 1, removed: '', inserted: item };
  if (!last) throw new Error('a list in block style has at least one item');
  const dash = dashBefore(list.itemPlaces.at(-1) as Place, text);
  const indent = dash - lineStart(dash, text);
  return { at: lineStop(last.to, text), removed: '', inserted: `${lineEndOf(text)}${' '.repeat(indent)}- ${item}` };
}

/** Takes entry number `index` out of a map or list; undefined when nothing would be left that YAML can read. */
export function removeAt(node: SourceMap | SourceList, index: number, text: string): readonly Splice[] | undefined {
  const extents = node.form === 'map' ? node.entries.map((entry) => extentOf(entry.keyPlace, entry.value, entry.at, text)) : itemExtents(node, text);
  const extent = extents[index];
  if (!extent) return undefined;
  if (isFlow(node, text)) return removeFromFlow(extents, index, extent, text);
  const start = node.form === 'map' ? extent.from : dashBefore(node.itemPlaces[index] as Place, text);
  const from = lineStart(start, text);
  if (text.slice(from, start).trim() !== '') {
    const next = extents[index + 1];
    return next && node.form === 'map' ? [cut(start, next.from, text)] : undefined;
  }
  const stop = lineStop(extent.to, text);
  const end = stop + (text.startsWith('\r\n', stop) ? 2 : stop < text.length ? 1 : 0);
  if (end > stop || from === 0) return [cut(from, end, text)];
  return [cut(from - (text.startsWith('\r\n', from - 2) ? 2 : 1), end, text)];
}

function removeFromFlow(extents: readonly Extent[], index: number, extent: Extent, text: string): readonly Splice[] {
  const previous = extents[index - 1];
  const next = extents[index + 1];
  if (previous && !text.slice(previous.to, extent.from).includes('#')) return [cut(previous.to, extent.to, text)];
  if (next && !text.slice(extent.to, next.from).includes('#')) return [cut(extent.from, next.from, text)];
  if (!previous && !next) return [cut(extent.from, extent.to, text)];
  // A comment stands between: it stays, and only the comma goes.
  const comma = previous ? commaBehind(previous.to, text) : commaBehind(extent.to, text);
  const own = cut(extent.from, extent.to, text);
  return previous ? [own, cut(comma, comma + 1, text)] : [cut(comma, comma + 1, text), own];
}

function commaBehind(offset: number, text: string): number {
  let at = offset;
  while (at < text.length && text[at] !== ',') at = text[at] === '#' ? lineStop(at, text) : at + 1;
  return at;
}

function itemExtents(list: SourceList, text: string): readonly Extent[] {
  return list.items.map((item, index) => { const at = list.itemPlaces[index] as Place; return { from: at.offset, to: contentEnd(item, at, text) }; });
}

function extentOf(keyPlace: Place, value: SourceNode, at: Place, text: string): Extent {
  return { from: keyPlace.offset, to: isEmpty(value) && at.end <= keyPlace.end ? keyPlace.end : Math.max(keyPlace.end, contentEnd(value, at, text)) };
}

/** What stands between the last two entries of a flow collection, if it is but a comma and white space. */
function separatorOf(extents: readonly Extent[], text: string): string {
  const last = extents.at(-1);
  const before = extents.at(-2);
  const between = last && before ? text.slice(before.to, last.from) : ', ';
  return /^\s*,\s+$/.test(between) ? between.trimStart() : ', ';
}

function dashBefore(place: Place, text: string): number {
  return text.lastIndexOf('-', place.offset - 1);
}

function lineStart(offset: number, text: string): number {
  return offset === 0 ? 0 : text.lastIndexOf('\n', offset - 1) + 1;
}

/** Offset of the end of the line, before LF or CRLF. */
function lineStop(offset: number, text: string): number {
  const end = text.indexOf('\n', offset);
  if (end === -1) return text.length;
  return end > offset && text[end - 1] === '\r' ? end - 1 : end;
}

function cut(from: number, to: number, text: string): Splice {
  return { at: from, removed: text.slice(from, to), inserted: '' };
}
