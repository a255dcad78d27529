/**
 * The one thing to do next: put right the worst, give what is missing, then measure what settles most.
 */
import type { Finding } from './finding.ts';

export interface NextThing {
  readonly do: string;
  /** the finding that asks for it, by code and subject; undefined when a measurement is asked for or nothing is left */
  readonly code: string | undefined;
  readonly about: readonly string[];
  readonly path: string | undefined;
}

/**
 * @param findings  in the order of `judge`: worst first
 * @param worth     measurements, best first
 * @param pathInFile  where the builder would write a value that the handbook gives now
 */
export function nextThing(findings: readonly Finding[], worth: readonly { readonly path: string }[], pathInFile: (path: string) => string = (path) => path): NextThing {
  const worst = findings[0];
  if (worst && (worst.level === 'stop' || worst.level === 'fix' || worst.level === 'unknown')) {
    return { do: `${worst.statement} ${worst.whatToDo}`.trim(), code: worst.code, about: worst.about, path: worst.path };
  }
  const best = worth[0];
  if (best) return { do: `Measure ${pathInFile(best.path)}: it settles more than any other value.`, code: undefined, about: [], path: best.path };
  if (worst && worst.level === 'watch') return { do: `${worst.statement} ${worst.whatToDo}`.trim(), code: worst.code, about: worst.about, path: worst.path };
  return { do: 'Nothing computed here stands open. What is not in the file has not been checked; inspection and measurement decide.', code: undefined, about: [], path: undefined };
}
