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

/** Adds problems to a list as they are reported. */
export function reportInto(problems: Problem[]): Report {
  return (parts) => { problems.push(problemOf(parts)); };
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
  const hint = nearest === undefined ? '' : `; did you mean ${nearest}?`;
  switch (code) {
    case 'missing_value': return `${where} is missing; expected ${expected}${hint}`;
    case 'unknown_key': return `${where}: there is no ${found} here; expected ${expected}${hint}`;
    case 'duplicate_key': return `${where} is given twice; the first one counts${hint}`;
    case 'bad_yaml': return `the text cannot be read at ${found}: ${expected}`;
    default: return `${where}: found ${found}, expected ${expected}${hint}`;
  }
}
