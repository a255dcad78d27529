/** The worker in which everything is computed. One question at a time, in the order asked. */
import { words } from '../../catalogue/words.ts';
import { answers } from './answers/all.ts';
import { keptAnalysis } from '../../study/kept-analysis.ts';
import type { FromWorker, Questions, ToWorker } from './protocol.ts';

const kept = keptAnalysis(words);
let last: Promise<void> = Promise.resolve();

self.addEventListener('message', ({ data }: MessageEvent<ToWorker>) => {
  last = last.then(async () => {
    const answer = await answerTo(data);
    self.postMessage(answer);
    if (data.question === 'edit' && 'answer' in answer) beginWith(answer.answer as Questions['edit']['answer']);
  });
});

/** The study of an edited text is asked for as soon as the page hears of the edit, which may be busy with something else: it is begun meanwhile. */
function beginWith(edited: Questions['edit']['answer']): void {
  // whatever goes wrong goes wrong again, and is told, when it is asked for
  try { if (edited.ok) kept.of(edited.text); } catch { /* as above */ }
}

async function answerTo({ id, question, ...asks }: ToWorker): Promise<FromWorker> {
  const answer = answers[question] as ((asks: unknown, of: typeof kept) => unknown) | undefined;
  if (!answer) return { id, error: `nobody answers the question ${question}` };
  try {
    return { id, answer: await answer(asks, kept) };
  } catch (error) {
    return { id, error: error instanceof Error ? error.message : String(error) };
  }
}
