import { distance } from 'fastest-levenshtein';

/**
 * The candidate that a mistyped word most likely meant, or undefined when nothing is close.
 * The same letters in other capitals win; then the fewest changed letters, and among equals the one that starts alike,
 * then the first in the list.
 *
 * @param options.changes  most letters that may differ; absent: a third of the word, one at least for words of two letters or more
 */
export function nearest(word: string, candidates: Iterable<string>, options: { readonly changes?: number } = {}): string | undefined {
  if (word.length === 0 || word.length > longestWord) return undefined;
  const folded = word.toLowerCase();
  const allowed = options.changes ?? (word.length < 2 ? 0 : Math.max(1, Math.floor(word.length / 3)));
  let best: string | undefined;
  let bestScore = Infinity;
  for (const candidate of candidates) {
    const other = candidate.toLowerCase();
    if (other === folded) return candidate;
    if (Math.abs(other.length - folded.length) > allowed) continue;
    const changes = distance(folded, other);
    // a word of which every letter changed is another word
    if (changes > allowed || changes >= Math.max(folded.length, other.length)) continue;
    const score = changes + (other.charCodeAt(0) === folded.charCodeAt(0) ? 0 : 0.5);
    if (score < bestScore) { best = candidate; bestScore = score; }
  }
  return best;
}

/** longer than any word of the build file; keeps a pasted page from being compared with everything */
const longestWord = 64;
