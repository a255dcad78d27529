/** Questions to a worker, answers matched by number. A worker that fails or hangs is replaced when the next question comes, and those who waited are told. */
import type { FromWorker } from './protocol.ts';

export class WorkerStopped extends Error {}

/** The part of a Worker that is used here. */
export interface WorkerLike {
  postMessage(message: unknown): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

export interface WorkerLink {
  /** Errors: rejects with what the worker says went wrong, or with `WorkerStopped` */
  readonly ask: (message: object) => Promise<unknown>;
  /** has its program read before the first question */
  readonly getReady: () => void;
  readonly close: () => void;
}

interface Waiting { readonly resolve: (answer: unknown) => void; readonly reject: (error: Error) => void }

/**
 * @param make     makes a worker, when it is first needed and after each that was lost
 * @param words    what is said of one that failed, and of one that hung
 * @param longest  that a question may take before the worker counts as hanging [ms]
 * @param told     of each that was lost, before those who waited are
 */
export function workerLink(make: () => WorkerLike, words: { readonly stopped: string; readonly hung: string }, longest: number, told: (why: string) => void = () => undefined): WorkerLink {
  let worker: WorkerLike | undefined;
  let number = 0;
  let alarm: ReturnType<typeof setTimeout> | undefined;
  const waiting = new Map<number, Waiting>();

  const watch = (): void => {
    clearTimeout(alarm);
    if (waiting.size > 0) alarm = setTimeout(() => lose(words.hung), longest);
  };
  const lose = (why: string): void => {
    worker?.terminate();
    worker = undefined;
    clearTimeout(alarm);
    const lost = [...waiting.values()];
    waiting.clear();
    told(why);
    for (const { reject } of lost) reject(new WorkerStopped(why));
  };
  const running = (): WorkerLike => {
    if (worker) return worker;
    worker = make();
    worker.onmessage = ({ data }) => {
      const asked = waiting.get(data.id);
      waiting.delete(data.id);
      watch();
      if ('error' in data) asked?.reject(new Error(data.error));
      else asked?.resolve(data.answer);
    };
    worker.onerror = (event) => { event.preventDefault(); lose(words.stopped); };
    return worker;
  };
  return {
    ask: (message) => new Promise((resolve, reject) => {
      const id = ++number;
      waiting.set(id, { resolve, reject });
      running().postMessage({ id, ...message });
      watch();
    }),
    getReady: () => { running(); },
    close: () => { clearTimeout(alarm); worker?.terminate(); worker = undefined; waiting.clear(); },
  };
}
