/**
 * A path of the build file -> the entry of the text that it names.
 */
import { isFlow } from './edit-entry.ts';
import type { Place } from './place.ts';
import type { SourceList, SourceMap, SourceNode } from './source-tree.ts';

export interface Spot {
  readonly parent: SourceMap | SourceList; readonly index: number;
  /** undefined for an item of a list */
  readonly keyPlace: Place | undefined;
  readonly node: SourceNode;
  /** where it stands: the alias, when it is one */
  readonly at: Place;
  /** whether brackets or braces are around it */
  readonly inFlow: boolean;
  /** whether the way to it leads through an alias, so that a change would change other entries too */
  readonly isShared: boolean;
}

const axes = ['x', 'y', 'z'];

/** @returns the spot of each segment of the path as far as the text has it; all of them when it has as many as the path */
export function locate(root: SourceNode | undefined, path: readonly string[], text: string): readonly Spot[] {
  const spots: Spot[] = [];
  let parent = root;
  let inFlow = false;
  let isShared = false;
  for (const segment of path) {
    if (!parent || parent.form === 'scalar') break;
    inFlow ||= isFlow(parent, text);
    const index = parent.form === 'map' ? parent.entries.findIndex((entry) => entry.key === segment) : axes.includes(segment) ? axes.indexOf(segment) : /^\d+$/.test(segment) ? Number(segment) : -1;
    const entry = parent.form === 'map' ? parent.entries[index] : undefined;
    const node = entry?.value ?? (parent.form === 'list' ? parent.items[index] : undefined);
    const at = entry?.at ?? (parent.form === 'list' ? parent.itemPlaces[index] : undefined);
    if (!node || !at) break;
    spots.push({ parent, index, keyPlace: entry?.keyPlace, node, at, inFlow, isShared });
    isShared ||= at.offset !== node.place.offset;
    parent = node;
  }
  return spots;
}

/** Text of every scalar by path, and the form of every collection; what an edit must leave alone can be compared with it. */
export function flatten(node: SourceNode | undefined, path = '', into = new Map<string, string>()): Map<string, string> {
  if (!node) return into;
  if (node.form === 'scalar') into.set(path, `=${node.text}`);
  else if (node.form === 'list') { into.set(path, 'list'); node.items.forEach((item, index) => flatten(item, `${path}.${index}`, into)); }
  else { if (path !== '') into.set(path, 'map'); for (const { key, value } of node.entries) flatten(value, path === '' ? key : `${path}.${key}`, into); }
  return into;
}
