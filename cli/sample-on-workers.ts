/** Shares the draws among worker threads. */
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { TopicName } from '../core/findings/finding.ts';
import { joinMargins } from '../core/chance/sample-margins.ts';
import type { Margins, SampleRequest } from '../core/chance/sample-margins.ts';

export interface WorkerTask { readonly text: string; readonly request: SampleRequest; readonly only: readonly TopicName[] | undefined }
export type WorkerMessage = { readonly done: number } | { readonly margins: Margins };

/**
 * @param sample   draws in all, their seed, and the subjects to study
 * @param workers  how many threads, at most one a draw
 * @param progress is told how many draws are done, of all
 */
export async function sampleOnWorkers(text: string, sample: { readonly draws: number; readonly seed: number; readonly only: readonly TopicName[] | undefined }, workers: number, progress: (done: number) => void = () => undefined): Promise<Margins> {
  const count = Math.min(workers, sample.draws);
  const done = new Array<number>(count).fill(0);
  const ranges = await Promise.all(Array.from({ length: count }, (_, index) => {
    const request: SampleRequest = { draws: sample.draws, seed: sample.seed, first: Math.floor((sample.draws * index) / count), end: Math.floor((sample.draws * (index + 1)) / count) };
    return inWorker({ text, request, only: sample.only }, (drawn) => {
      done[index] = drawn;
      progress(done.reduce((sum, value) => sum + value, 0));
    });
  }));
  progress(sample.draws);
  return joinMargins(ranges);
}

function inWorker(task: WorkerTask, progress: (done: number) => void): Promise<{ request: SampleRequest; margins: Margins }> {
  return new Promise((resolve, reject) => {
    // a draw makes much that dies with it; what is young of both workers should fit beside each other into the processor's memory
    const worker = new Worker(fileURLToPath(new URL(import.meta.url.endsWith('.cjs') ? './sample-worker.cjs' : './sample-worker.js', import.meta.url)), { workerData: task, resourceLimits: { maxYoungGenerationSizeMb: 32 } });
    worker.on('message', (message: WorkerMessage) => {
      if ('done' in message) progress(message.done);
      else resolve({ request: task.request, margins: message.margins });
    });
    worker.on('error', reject);
    worker.on('exit', (code) => { if (code !== 0) reject(new Error(`a worker ended with code ${code}`)); });
  });
}
