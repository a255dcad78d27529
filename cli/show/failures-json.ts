/** The table of single failures as the stable JSON contract of `docs/json.md`. Numbers are SI. */
import type { Build } from '../../core/build/build.ts';
import type { SingleFailure } from '../../core/faults/effects/effect.ts';
import { severities, severityWords } from '../../core/faults/effects/effect.ts';
import type { FailureTable } from '../../core/faults/effects/single-failures.ts';
import type { Finding } from '../../core/findings/finding.ts';

export interface ShownFailures {
  readonly build: Build;
  readonly table: FailureTable;
  readonly findings: readonly Finding[];
  /** of the table, those that were asked for */
  readonly failures: readonly SingleFailure[];
  readonly mode: string | undefined;
  readonly severity: string | undefined;
  /** what else was asked for, in words */
  readonly chosen: readonly string[];
}

export function failuresJson({ build, table, findings, failures, mode, severity }: ShownFailures): object {
  return {
    version: 1, build: build.name, mode: mode ?? null, severity: severity ?? null, modes: table.modes, not_solved: table.notSolved,
    severities: severities.map((name) => ({ name, meaning: severityWords[name], count: failures.filter((one) => one.severity === name).length })),
    cannot_tell: table.untold,
    findings: findings.map(({ code, level, about, statement, whatToDo, needs, path }) => ({ code, level, about, statement, what_to_do: whatToDo, needs, path })),
    failures: failures.map((one) => ({
      id: one.id, sort: one.sort, about: one.about, path: one.path, words: one.words, severity: one.severity, noticed: one.isNoticed,
      second: one.second ? { sort: one.second.sort, by: one.second.by } : null,
      modes: one.modes.map(({ mode: at, handsAs, effects, notices, seenAt }) => ({
        mode: at, hands_as: handsAs ?? null, effects: effects.map(({ sort, about, amount }) => ({ sort, about, amount: amount ?? null })), notices, seen_at: seenAt,
      })),
    })),
  };
}
