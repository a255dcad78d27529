/** Studies for the workbench, made in a thread of their own, so that the server goes on answering. */
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { StudyMaker } from '../server/study-maker.ts';

/** `begin`: a text to look through ahead; nothing is answered */
export type StudyQuestion = { readonly begin: string } | { readonly id: number; readonly asked: string };
export type StudyAnswer = { readonly id: number; readonly study: string } | { readonly id: number; readonly why: string };

/** Not asked for so long, the thread ends and gives its memory back; it starts anew when it is asked again [ms]. */
const IDLE = 120_000;

/** The thread keeps no process alive. @param program  what it runs; left out: the file beside this one */
export function studyOnWorker(program = fileURLToPath(new URL(import.meta.url.endsWith('.cjs') ? './study-worker.cjs' : './study-worker.js', import.meta.url))): StudyMaker {
  let worker: Worker | undefined;
  let last = 0;
  let idle: ReturnType<typeof setTimeout> | undefined;
  const waiting = new Map<number, { readonly resolve: (study: string) => void; readonly reject: (error: Error) => void }>();
  const stop = (why: string): void => {
    const ended = worker;
    worker = undefined;
    clearTimeout(idle);
    for (const { reject } of waiting.values()) reject(new Error(why));
    waiting.clear();
    void ended?.terminate();
  };
  const running = (): Worker => {
    clearTimeout(idle);
    idle = setTimeout(() => { if (waiting.size === 0) stop('it was not asked for long'); }, IDLE).unref();
    if (worker) return worker;
    const made = new Worker(program, { resourceLimits: { maxYoungGenerationSizeMb: 64 } });
    made.unref();
    made.on('message', (answer: StudyAnswer) => {
      const asked = waiting.get(answer.id);
      waiting.delete(answer.id);
      if ('study' in answer) asked?.resolve(answer.study);
      else asked?.reject(new Error(answer.why));
    });
    const broken = (why: string): void => { if (worker === made) stop(why); };
    made.on('error', ({ message }) => broken(message));
    made.on('exit', (code) => broken(`the thread ended with code ${code}`));
    return (worker = made);
  };
  return {
    begin: (text) => running().postMessage({ begin: text } satisfies StudyQuestion),
    of: (asked) => new Promise((resolve, reject) => {
      const id = ++last;
      const thread = running();
      waiting.set(id, { resolve, reject });
      thread.postMessage({ id, asked } satisfies StudyQuestion);
    }),
  };
}
