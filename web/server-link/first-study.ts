/** The first study of a page, from the program that serves it: that one is warm, the page's own worker is not. */
import { readStudy } from '../../study/study-as-text.ts';
import type { Study, StudyAsked } from '../../study/study.ts';

/** Longer than the page would need itself, even on a slow machine [ms]. */
const LONGEST = 6000;

/** @returns undefined when none can be had: the page then makes it itself */
export async function firstStudy(asked: Pick<StudyAsked, 'text' | 'sheet' | 'choices'>): Promise<Study | undefined> {
  try {
    const answer = await fetch('/api/study', { method: 'POST', headers: { 'Content-Type': 'application/json; charset=utf-8' }, body: JSON.stringify(asked), signal: AbortSignal.timeout(LONGEST) });
    return answer.ok ? readStudy(await answer.text()) : undefined;
  } catch {
    return undefined;
  }
}
