/** The worker in which everything is computed. One question at a time, in the order asked. */
import { words } from '../../catalogue/words.ts';
import { answers } from './answers/all.ts';
import { keptAnalysis } from './kept-analysis.ts';
import type { FromWorker, ToWorker } from './protocol.ts';

const kept = keptAnalysis(words);
let last: Promise<void> = Promise.resolve();

self.addEventListener('message', ({ data }: MessageEvent<ToWorker>) => {
  last = last.then(async () => self.postMessage(await answerTo(data)));
});

async function answerTo({ id, question, ...asks }: ToWorker): Promise<FromWorker> {
  const answer = answers[question] as ((asks: unknown, of: typeof kept) => unknown) | undefined;
  if (!answer) return { id, error: `nobody answers the question ${question}` };
  try {
    return { id, answer: await answer(asks, kept) };
  } catch (error) {
    return { id, error: error instanceof Error ? error.message : String(error) };
  }
}
