/** The worker in which everything is computed. Questions are begun in the order asked; one that waits for a layout keeps no other waiting. */
import { words } from '../../catalogue/words.ts';
import { layOutBy } from '../../sheets/diagram/lay-out.ts';
import { afterwards, answers } from './answers/all.ts';
import { keptAnalysis } from '../../study/kept-analysis.ts';
import { layoutsFrom } from './layouts.ts';
import type { FromWorker, ToWorker } from './protocol.ts';

const kept = keptAnalysis(words);
// a browser without workers of workers lays out here
if (typeof Worker !== 'undefined') layOutBy(layoutsFrom(() => new Worker(new URL('./layout-worker.ts', import.meta.url), { type: 'module', name: 'layout' })));

/** alternatives share one store of answers: one after the other */
let asides: Promise<void> = Promise.resolve();

self.addEventListener('message', ({ data }: MessageEvent<ToWorker>) => {
  if (data.question === 'what_if') asides = asides.then(() => hear(data));
  else void hear(data);
});

async function hear(asked: ToWorker): Promise<void> {
  const answer = await answerTo(asked);
  self.postMessage(answer);
  const after = afterwards[asked.question] as ((asks: unknown, answer: unknown, of: typeof kept) => void) | undefined;
  if (after && 'answer' in answer) try { after(asked, answer.answer, kept); } catch { /* told when it is asked for */ }
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
