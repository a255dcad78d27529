/** A worker thread that makes studies for pages of the workbench. It keeps the last analysis, so that the next question is answered at once. */
import { parentPort } from 'node:worker_threads';
import { words } from '../catalogue/words.ts';
import { keptAnalysis } from '../study/kept-analysis.ts';
import { writeStudy } from '../study/study-as-text.ts';
import { studyOf } from '../study/study.ts';
import type { StudyAsked } from '../study/study.ts';
import { revisionOf } from './revision-of.ts';
import type { StudyAnswer, StudyQuestion } from './study-on-worker.ts';

const kept = keptAnalysis(words);
const say = (answer: StudyAnswer): void => parentPort?.postMessage(answer);

parentPort?.on('message', (question: StudyQuestion) => {
  if ('begin' in question) { kept.of(question.begin); return; }
  const { id, asked } = question;
  const make = async (): Promise<string> => {
    const { text, sheet, choices } = JSON.parse(asked) as StudyAsked;
    if (typeof text !== 'string') throw new Error('it has no text');
    return writeStudy(await studyOf({ text, sheet, choices }, kept, { now: () => performance.now(), revisionOf }));
  };
  make().then((study) => say({ id, study }), (error: unknown) => say({ id, why: error instanceof Error ? error.message : String(error) }));
});
