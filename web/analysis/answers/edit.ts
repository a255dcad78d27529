/** Edits one after the other; all or none. */
import { editBuild } from '../../../core/build/edit-build.ts';
import type { Splice } from '../../../core/build/splice.ts';
import type { KeptAnalysis } from '../../../study/kept-analysis.ts';
import type { Questions } from '../protocol.ts';

export function answerEdit({ text, edits }: Questions['edit']['asks'], kept: Pick<KeptAnalysis, 'words' | 'memory'>): Questions['edit']['answer'] {
  let now = text;
  const splices: Splice[] = [];
  for (const edit of edits) {
    const result = editBuild(now, edit, kept.words, kept.memory);
    if (!result.ok) return { ok: false, problem: result.problem };
    splices.push(...result.splices);
    now = result.text;
  }
  return { ok: true, text: now, splices };
}
