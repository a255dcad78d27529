/**
 * Asks the analysis worker. Answers are matched by number; of several studies asked for while one is being made, only the
 * newest is made. A worker that fails or hangs is replaced, and those who waited are told.
 */
import type { FromWorker, QuestionName, Questions } from './protocol.ts';
import type { Study } from '../../study/study.ts';

export class AnalysisStopped extends Error {}

/** The part of a Worker that is used here. */
export interface WorkerLike {
  postMessage(message: unknown): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

export interface AnalysisClient {
  readonly ask: <Q extends QuestionName>(question: Q, asks: Questions[Q]['asks']) => Promise<Questions[Q]['answer']>;
  /** Asked for again before any other, it is the same study. @returns undefined when a newer study was asked for before this one was begun */
  readonly study: (asks: Questions['study']['asks']) => Promise<Study | undefined>;
  /** has its program read before the first question */
  readonly getReady: () => void;
  readonly close: () => void;
}

interface Waiting { readonly resolve: (answer: unknown) => void; readonly reject: (error: Error) => void }

/** Longest that a question may take before the worker counts as hanging [ms]; a large build on a slow machine needs a second. */
const LONGEST = 30_000;

/**
 * @param restarted  told in a sentence when the worker had to be replaced
 * @param longest    that a question may take before the worker counts as hanging [ms]
 */
export function analysisClient(make: () => WorkerLike, restarted: (why: string) => void, longest = LONGEST): AnalysisClient {
  let worker: WorkerLike | undefined;
  let number = 0;
  let alarm: ReturnType<typeof setTimeout> | undefined;
  const waiting = new Map<number, Waiting>();
  let next: { readonly asks: Questions['study']['asks']; readonly resolve: (study: Study | undefined) => void; readonly reject: (error: Error) => void } | undefined;
  let isStudying = false;
  let last: { readonly asks: Questions['study']['asks']; readonly study: Promise<Study | undefined> } | undefined;

  const watch = (): void => {
    clearTimeout(alarm);
    if (waiting.size > 0) alarm = setTimeout(() => replace('The analysis took too long and was started anew.'), longest);
  };
  const replace = (why: string): void => {
    worker?.terminate();
    worker = undefined;
    clearTimeout(alarm);
    const lost = [...waiting.values()];
    waiting.clear();
    restarted(why);
    for (const { reject } of lost) reject(new AnalysisStopped(why));
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
    worker.onerror = (event) => { event.preventDefault(); replace('The analysis stopped and was started anew.'); };
    return worker;
  };
  const ask = <Q extends QuestionName>(question: Q, asks: Questions[Q]['asks']): Promise<Questions[Q]['answer']> => new Promise((resolve, reject) => {
    const id = ++number;
    waiting.set(id, { resolve: resolve as (answer: unknown) => void, reject });
    running().postMessage({ id, question, ...asks });
    watch();
  });
  const begin = (): void => {
    if (isStudying || !next) return;
    const { asks, resolve, reject } = next;
    next = undefined;
    isStudying = true;
    ask('study', asks).then(resolve, reject).finally(() => { isStudying = false; begin(); });
  };
  return {
    ask,
    getReady: () => { running(); },
    study: (asks) => {
      if (last && isSame(last.asks, asks)) return last.study;
      const study = new Promise<Study | undefined>((resolve, reject) => {
        next?.resolve(undefined);
        next = { asks, resolve, reject };
        begin();
      });
      const own = (last = { asks, study });
      // what went wrong is tried anew when it is asked for again
      study.catch(() => { if (last === own) last = undefined; });
      return study;
    },
    close: () => { clearTimeout(alarm); worker?.terminate(); worker = undefined; waiting.clear(); },
  };
}

function isSame(a: Questions['study']['asks'], b: Questions['study']['asks']): boolean {
  return a.text === b.text && a.sheet === b.sheet && a.choices === b.choices && a.folder === b.folder;
}
