import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { words } from '../../../catalogue/words.ts';
import { analyse } from '../../../core/analyse.ts';
import type { Edit } from '../../../core/build/edit-build.ts';
import { countLevels, levelOrder } from '../../../sheets/levels.ts';
import { findingKey } from '../../../study/finding-row.ts';
import { keptAnalysis } from '../../../study/kept-analysis.ts';
import { answerEdit } from './edit.ts';
import { answerWhatIf } from './what-if.ts';

const van = readFileSync('examples/bakery-van/build.yaml', 'utf8');
const asks = { text: van, sheet: 'cover', choices: { units: { system: 'metric' }, state: {} } } as const;
const set = (path: string, to: string): Edit => ({ do: 'set', path, to });

test('an alternative says what a fresh analysis of the edited text says, and leaves the kept one alone', async () => {
  const kept = keptAnalysis(words);
  const before = kept.of(van);
  const edits = [[set('parts.F_main.rating', '63 A label')], [set('parts.M1.mass', '60 kg measured'), set('parts.M5.mass', '90 kg measured')]];
  const rows = await answerWhatIf({ ...asks, alternatives: edits.map((each) => ({ edits: each })) }, kept);
  expect(kept.of(van)).toBe(before);
  for (const [index, each] of edits.entries()) {
    const edited = answerEdit({ text: van, edits: each }, keptAnalysis(words));
    if (!edited.ok) throw new Error(edited.problem.message);
    const fresh = analyse(edited.text, words);
    const row = rows[index];
    expect(row?.counts).toEqual(countLevels(fresh.findings));
    const was = new Map(before.findings.map((finding) => [findingKey(finding), finding.level]));
    const expected = fresh.findings.filter((finding) => levelOrder.indexOf(finding.level) < levelOrder.indexOf(was.get(findingKey(finding)) ?? 'holds')).map(findingKey);
    expect(row?.worse.filter((change) => change.before !== change.after).map(({ row: { key } }) => key).sort()).toEqual(expected.sort());
  }
  expect(rows[0]?.worse.length).toBeGreaterThan(0);
});

test('an alternative that cannot be read says why; the others are still answered', async () => {
  const rows = await answerWhatIf({ ...asks, alternatives: [{ edits: [set('parts.M1.mass', '31 kgg')] }, { edits: [set('parts.M1.mass', '25.3 kg ±0.2 measured')] }] }, keptAnalysis(words));
  expect(rows[0]).toMatchObject({ ok: false, problem: expect.stringMatching(/kg/) });
  expect(rows[1]).toMatchObject({ ok: true, better: [], worse: [], numbers: [] });
});
