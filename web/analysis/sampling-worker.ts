/**
 * Draws the margins of one text after another, a few at a time, and works them into the findings itself: that takes longer than an
 * edit may wait, so the worker of the analysis is left alone. A new text, or the word to stop, is heard between two handfuls.
 */
import { words } from '../../catalogue/words.ts';
import { analyse, topics } from '../../core/analyse.ts';
import { emptyMemory } from '../../core/build/source-memory.ts';
import { answerStore } from '../../core/car/ask-network.ts';
import { joinMargins, sampleMargins } from '../../core/chance/sample-margins.ts';
import type { Margins, SampleRequest } from '../../core/chance/sample-margins.ts';
import { chancesOf } from './answers/chances.ts';
import { DRAWS, HANDFUL, SEED, STEPS } from './sampling-plan.ts';
import type { FromSampling, ToSampling } from './sampling-plan.ts';

const memory = emptyMemory();
let wanted = 0;
/** no draw before [ms of this worker's clock] */
let notBefore = 0;

self.addEventListener('message', ({ data }: MessageEvent<ToSampling>) => {
  if ('wait' in data) { notBefore = performance.now() + data.wait; return; }
  wanted = data.id;
  if ('text' in data) void sample(data.id, data.text);
});

async function sample(id: number, text: string): Promise<void> {
  const say = (message: FromSampling): void => self.postMessage(message);
  try {
    const store = answerStore();
    const analysis = analyse(text, words, { store, memory });
    const made: { readonly request: SampleRequest; readonly margins: Margins }[] = [];
    for (let first = 0; first < DRAWS; first += HANDFUL) {
      await betweenMessages();
      if (wanted !== id) return;
      const request = { draws: DRAWS, seed: SEED, first, end: Math.min(DRAWS, first + HANDFUL) };
      made.push({ request, margins: sampleMargins(analysis.prepared, topics, request, store) });
      if (STEPS.includes(request.end)) say({ id, chances: chancesOf(analysis, joinMargins(made), { made: request.end, draws: DRAWS, seed: SEED }) });
    }
  } catch (error) {
    say({ id, error: error instanceof Error ? error.message : String(error) });
  }
}

/** Lets messages that have arrived be heard, and hands that move come to rest. */
async function betweenMessages(): Promise<void> {
  do {
    const wait = Math.max(0, notBefore - performance.now());
    await new Promise((resolve) => setTimeout(resolve, wait));
  } while (performance.now() < notBefore);
}
