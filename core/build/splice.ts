/**
 * Changes to a text as replaced stretches, which can be undone to the byte.
 */

/** At offset `at` of the text as it is then, `removed` stands and `inserted` takes its place. */
export interface Splice { readonly at: number; readonly removed: string; readonly inserted: string }

/**
 * Applies splices one after the other, each to the text the ones before left.
 * @returns the text, or undefined when the text is not the one the splices were made for
 */
export function applySplices(text: string, splices: readonly Splice[]): string | undefined {
  let result = text;
  for (const { at, removed, inserted } of splices) {
    if (at < 0 || at > result.length || !result.startsWith(removed, at)) return undefined;
    result = result.slice(0, at) + inserted + result.slice(at + removed.length);
  }
  return result;
}

/** Splices that take a text back. */
export function inverseOf(splices: readonly Splice[]): readonly Splice[] {
  return splices.map(({ at, removed, inserted }) => ({ at, removed: inserted, inserted: removed })).reverse();
}

/** Splices at offsets of one text, in an order in which none moves the next. Stretches given twice count once. */
export function inOrder(splices: readonly Splice[]): readonly Splice[] {
  const byOffset = new Map(splices.map((splice) => [splice.at, splice]));
  return [...byOffset.values()].sort((a, b) => b.at - a.at);
}
