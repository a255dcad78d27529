/**
 * The name or key that was most likely meant: one with the same letters in another order, else the nearest spelling.
 */
import { nearest } from '../quantity/nearest-spelling.ts';

export function nearestName(word: string, candidates: Iterable<string>): string | undefined {
  const names = [...candidates];
  if (word.length === 0 || word.length > 64) return undefined;
  return nearest(word, names, { changes: 1 })
    ?? names.find((name) => name.length === word.length && sorted(name) === sorted(word))
    ?? wholeWord(word, names)
    ?? nearest(word, names)
    ?? names.find((name) => name.length >= 3 && word.length >= 3 && (word.startsWith(name) || name.startsWith(word)));
}

/** Names that hold the word as one of theirs: `capacitance` may be `link_capacitance` or `y_capacitance`. */
function wholeWord(word: string, names: readonly string[]): string | undefined {
  const holding = names.filter((name) => name.split('_').length > 1 && name.split('_').includes(word));
  return holding.length === 0 || holding.length > 3 ? undefined : holding.join(' or ');
}

function sorted(word: string): string {
  return [...word.toLowerCase()].sort().join('');
}

/** The same, until so many names have been compared; then nothing is near. */
export function nearestWithin(comparisons: number): (word: string, names: ReadonlySet<string> | readonly string[]) => string | undefined {
  let left = comparisons;
  return (word, names) => {
    left -= 'size' in names ? names.size : names.length;
    return left < 0 ? undefined : nearestName(word, names);
  };
}
