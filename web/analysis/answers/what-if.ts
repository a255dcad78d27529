/** Alternatives side by side: the findings and the numbers of the shown sheet that each would change. The file stays as it is. */
import { lent } from '../../../core/build/source-memory.ts';
import type { Analysis } from '../../../core/analyse.ts';
import type { Finding } from '../../../core/findings/finding.ts';
import { countLevels, levelOrder } from '../../../sheets/levels.ts';
import { models } from '../../../sheets/models.ts';
import { shownTexts } from '../../viewer/changed-keys.ts';
import { findingKey, findingRow } from '../../../study/finding-row.ts';
import type { KeptAnalysis } from '../../../study/kept-analysis.ts';
import { undisturbed } from '../../../study/undisturbed.ts';
import type { ChangedFinding, Questions, WhatIfRow } from '../protocol.ts';
import { answerEdit } from './edit.ts';

export async function answerWhatIf({ text, alternatives, sheet, choices }: Questions['what_if']['asks'], kept: Pick<KeptAnalysis, 'of' | 'isNewest' | 'aside' | 'words' | 'memory'>): Promise<Questions['what_if']['answer']> {
  return undisturbed(kept, text, (before) => rowsOf(before, { text, alternatives, sheet, choices }, kept));
}

async function rowsOf(before: Analysis, { text, alternatives, sheet, choices }: Questions['what_if']['asks'], kept: Pick<KeptAnalysis, 'aside' | 'words' | 'memory'>): Promise<Questions['what_if']['answer']> {
  const model = models.find(({ name }) => name === sheet);
  const numbersBefore = shownTexts(await model?.model(before, choices));
  const rows: WhatIfRow[] = [];
  for (const { edits } of alternatives) {
    const edited = answerEdit({ text, edits }, { words: kept.words, memory: lent(kept.memory) });
    if (!edited.ok) {
      rows.push({ ok: false, problem: edited.problem.message, counts: undefined, better: [], worse: [], numbers: [] });
      continue;
    }
    const after = kept.aside(edited.text);
    const numbersAfter = shownTexts(await model?.model(after, choices));
    rows.push({ ok: true, problem: undefined, counts: countLevels(after.findings), ...changesOf(before, after), numbers: changedNumbers(numbersBefore, numbersAfter) });
  }
  return rows;
}

/** Findings whose level changes, the gravest change first; then those that stay open with more or less margin. */
export function changesOf(before: Pick<Analysis, 'findings'>, after: Pick<Analysis, 'findings'>): Pick<WhatIfRow, 'better' | 'worse'> {
  const better: ChangedFinding[] = [];
  const worse: ChangedFinding[] = [];
  const now = new Map(after.findings.map((finding) => [findingKey(finding), finding]));
  const old = new Map(before.findings.map((finding) => [findingKey(finding), finding]));
  for (const [key, finding] of now) {
    const was = old.get(key);
    const step = rank(finding) - rank(was);
    const gain = step !== 0 ? step : finding.level === 'holds' ? 0 : gainOf(was, finding);
    if (gain !== 0) (gain > 0 ? better : worse).push({ row: findingRow(finding), before: was?.level, after: finding.level });
  }
  for (const [key, finding] of old) if (!now.has(key) && finding.level !== 'holds') better.push({ row: findingRow(finding), before: finding.level, after: undefined });
  return { better: sorted(better), worse: sorted(worse) };
}

/** A finding that is not there counts as one that holds. */
const rank = (finding: Finding | undefined): number => levelOrder.indexOf(finding?.level ?? 'holds');

function gainOf(before: Finding | undefined, after: Finding): number {
  if (before?.margin === undefined || after.margin === undefined) return 0;
  const gain = after.margin - before.margin;
  // the last digits of two solves differ
  return Math.abs(gain) > 1e-6 * Math.max(1e-3, Math.abs(before.margin)) ? gain : 0;
}

function sorted(changes: readonly ChangedFinding[]): readonly ChangedFinding[] {
  const worst = ({ before, after }: ChangedFinding): number => Math.min(levelOrder.indexOf(before ?? 'holds'), levelOrder.indexOf(after ?? 'holds'));
  const isStep = ({ before, after }: ChangedFinding): number => (before === after ? 1 : 0);
  return [...changes].sort((a, b) => isStep(a) - isStep(b) || worst(a) - worst(b));
}

function changedNumbers(before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>): WhatIfRow['numbers'] {
  const keys = new Set([...before.keys(), ...after.keys()]);
  return [...keys].map((key) => ({ key, before: before.get(key) ?? '—', after: after.get(key) ?? '—' })).filter((number) => number.before !== number.after);
}
