/** Findings as the stable JSON contract of `docs/json.md`. Numbers are SI; `unit` names the SI unit. */
import type { Analysis } from '../../core/analyse.ts';
import { quantities } from '../../core/quantity/quantity-table.ts';

export const JSON_VERSION = 1;

export function findingsJson(analysis: Analysis, sample: { draws: number; seed: number }): object {
  const { build, findings, next, results, worthMeasuring } = analysis;
  return {
    version: JSON_VERSION,
    build: { name: build.name, scenario: build.scenario ?? null, parts: build.parts.size, runs: build.runs.size, modes: [...build.modes.keys()] },
    sample,
    findings: findings.map((finding) => ({
      code: finding.code, topic: finding.topic, about: finding.about, variant: finding.variant ?? null, level: finding.level,
      statement: finding.statement, what_to_do: finding.whatToDo,
      value: finding.value ?? null, limit: finding.limit ?? null, sense: finding.sense,
      unit: finding.value === undefined ? null : finding.quantity === undefined ? '1' : quantities[finding.quantity].si,
      margin: finding.margin ?? null, chance: finding.chance ?? null,
      settled_by: finding.settledBy.map(({ path, share, precision, quantity }) => ({ path, share, precision: precision ?? null, unit: quantities[quantity].si })),
      needs: finding.needs, source: finding.sources, path: finding.path,
      place: finding.place ? { line: finding.place.line, column: finding.place.column } : null,
    })),
    results,
    worth_measuring: worthMeasuring.map(({ path, worth, precision, settles }) => ({ path, worth, precision: precision ?? null, settles })),
    next: { do: next.do, code: next.code ?? null, about: next.about, path: next.path ?? null },
  };
}
