/** Failures that do the same are one row: what happens, in which modes, what tells, what one more would do. */
import type { Severity, SingleFailure } from './effect.ts';
import { happens, secondWords, tells } from './words.ts';
import type { Said, Say } from './words.ts';

export interface FailureRow {
  readonly severity: Severity;
  readonly failures: readonly SingleFailure[];
  readonly happens: readonly Said[];
  readonly tells: readonly string[];
  /** inputs that change though no condition asks for them */
  readonly seenAt: readonly string[];
  readonly second: string;
}

/** What stands beside the worst of a failure follows from it. */
const MOST_SAID = 4;
/** Rows that only differ in their modes are one where nobody is in danger. */
const MILD: ReadonlySet<Severity> = new Set(['stops', 'less', 'nothing']);

/** @returns in the order of the failures: worst first; every failure in one row. Of mild ones that do the same in different modes, all their modes */
export function groupRows(failures: readonly SingleFailure[], say: Say): readonly FailureRow[] {
  const rows = new Map<string, FailureRow & { failures: SingleFailure[]; happens: readonly Said[] }>();
  for (const failure of failures) {
    const { severity } = failure;
    const isMild = MILD.has(severity);
    const { tells: told, seenAt } = tells(failure);
    const row = { severity, happens: happens(failure, say).slice(0, MOST_SAID), tells: told, seenAt: isMild ? [] : seenAt, second: secondWords(failure.second) };
    const key = JSON.stringify(isMild ? [severity, row.happens.map(({ text }) => text), told] : row);
    const known = rows.get(key);
    if (!known) rows.set(key, { ...row, failures: [failure] });
    else {
      known.failures.push(failure);
      known.happens = known.happens.map((said, index) => ({ ...said, modes: [...new Set([...said.modes, ...row.happens[index]!.modes])] }));
    }
  }
  return [...rows.values()];
}

/** The failures of a row by what goes wrong: `open: W1, W2`; one alone as its sentence. */
export function failuresWords({ failures }: FailureRow): readonly string[] {
  const [first] = failures;
  if (failures.length === 1 && first) return [first.words];
  const by = new Map<string, string[]>();
  for (const { id, sort, words, about } of failures) {
    const what = SORTS[sort] ?? (/^[^:]*: (.+)$/.exec(words)?.[1] ?? id.slice(id.indexOf('.') + 1).replaceAll('_', ' '));
    by.set(what, [...(by.get(what) ?? []), about.join(' and ')]);
  }
  return [...by].map(([what, list]) => (what in MEANINGS ? `${what}${list.length > 2 ? `, ${list.length} ${MEANINGS[what]!}` : ''}: ${list.join(', ')}` : `${list.join(', ')}: ${what}`));
}

const SORTS: Readonly<Record<string, string>> = {
  run_open: 'parted', run_to_chassis: 'chafed through on the body', run_to_supply: 'touches a wire that is always live', run_to_run: 'chafed through on each other', pins_touch: 'neighbouring pins touch', silent: 'says nothing on the bus', flat: 'flat',
};

/** Sorts whose names stand after them, and what is counted. */
const MEANINGS: Readonly<Record<string, string>> = Object.fromEntries(Object.values(SORTS).map((what) => [what, what.startsWith('neighbouring') || what === 'flat' ? 'parts' : what.startsWith('says') ? 'units' : 'runs']));
