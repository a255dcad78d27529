/**
 * The text of a build file as a tree of scalars, maps and lists, each with its place.
 *
 * Invariants: a scalar's text is what the builder typed, never coerced to a number or a date; no key occurs twice in a map
 * (the first counts); the tree is at most `MAXIMUM_DEPTH` deep and has no cycles; an alias shares the node of its anchor,
 * and the tree read through its aliases has at most `MAXIMUM_NODES` nodes, so whoever walks it ends.
 */
import type { Place } from './place.ts';

export interface SourceScalar { readonly form: 'scalar'; readonly text: string; readonly isQuoted: boolean; readonly place: Place }
/** `at` is where the value stands here: the alias, when it is one, and not the anchored value it shares */
export interface SourceEntry {
  readonly key: string; readonly keyPlace: Place; readonly value: SourceNode; readonly at: Place;
  /** its whole text, from the start of its line, where the reader cut the file there */
  readonly piece?: string;
}
export interface SourceMap { readonly form: 'map'; readonly entries: readonly SourceEntry[]; readonly place: Place }
export interface SourceList { readonly form: 'list'; readonly items: readonly SourceNode[]; /** `at` of each item */ readonly itemPlaces: readonly Place[]; readonly place: Place }
export type SourceNode = SourceScalar | SourceMap | SourceList;

export const MAXIMUM_LENGTH = 1_000_000;
export const MAXIMUM_DEPTH = 40;
export const MAXIMUM_ALIASES = 1000;
export const MAXIMUM_NODES = 200_000;

/** Entry of a map by key. */
export function entryOf(node: SourceNode | undefined, key: string): SourceEntry | undefined {
  return node?.form === 'map' ? node.entries.find((entry) => entry.key === key) : undefined;
}

/** A value that was left empty: `mass:` with nothing behind it. */
export function isEmpty(node: SourceNode): boolean {
  return node.form === 'scalar' && !node.isQuoted && (node.text === '' || node.text === '~' || node.text === 'null');
}

/** How a problem names a node. */
export function describeNode(node: SourceNode): string {
  if (node.form === 'map') return 'a group of keys';
  if (node.form === 'list') return 'a list';
  return node.text === '' ? 'nothing' : node.text;
}
