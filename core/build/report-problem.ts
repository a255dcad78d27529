/**
 * Collecting problems: each gets its sentence from what was found, what was expected and the nearest spelling.
 */
import type { Place } from './place.ts';
import type { Problem, ProblemCode } from './problem.ts';

export interface ProblemParts {
  readonly code: ProblemCode; readonly path: string; readonly place: Place;
  readonly found: string; readonly expected: string;
  readonly nearest?: string | undefined;
  readonly level?: 'stop' | 'note';
}
export type Report = (parts: ProblemParts) => void;

/** Problems beyond this many are counted, not listed: nobody reads them, and the first ones often make the others. */
export const MOST_PROBLEMS = 1000;

/** Collects problems as they are reported. */
export function collectProblems(): { readonly report: Report; /** those collected, in the order of the text */ readonly all: () => Problem[] } {
  const problems: Problem[] = [];
  let untold = 0;
  return {
    report: (parts) => {
      if (problems.length < MOST_PROBLEMS) problems.push(problemOf(parts));
      else untold++;
    },
    all: () => {
      const sorted = [...problems].sort((a, b) => a.place.offset - b.place.offset);
      const last = sorted.at(-1);
      return untold === 0 || !last ? sorted : [...sorted, problemOf({ code: 'too_large', path: '', place: last.place, found: `${untold} more problems`, expected: `at most ${MOST_PROBLEMS}; mend the first ones and look again` })];
    },
  };
}

/** A problem with its sentence. */
export function problemOf({ code, path, place, found, expected, nearest, level = 'stop' }: ProblemParts): Problem {
  return { code, path, place, found, expected, nearest, message: sentence(code, path, found, expected, nearest), level };
}

/** What the reader shows of a value that may be long or run over lines. */
export function excerpt(text: string): string {
  const line = text.replace(/\s+/g, ' ').trim();
  return line.length > 60 ? `${line.slice(0, 57)}…` : line;
}

function sentence(code: ProblemCode, path: string, found: string, expected: string, nearest: string | undefined): string {
  const where = path === '' ? 'the file' : path;
  const end = nearest === undefined ? '.' : `; did you mean ${nearest}?`;
  switch (code) {
    case 'missing_value': return `${where} is missing; expected ${expected}${end}`;
    case 'unknown_key': return `${where}: there is no ${found} here; expected ${expected}${end}`;
    case 'duplicate_key': return `${where} is given twice; the first one counts${end}`;
    case 'bad_yaml': return `The text cannot be read at ${found}: ${expected.replace(/[.\s]+$/, '')}.`;
    default: return `${where}: found ${found}, expected ${expected}${end}`;
  }
}
