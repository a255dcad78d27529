/** Asks the analysis worker. Of several studies asked for while one is being made, only the newest is made. */
import type { QuestionName, Questions } from './protocol.ts';
import type { Study } from '../../study/study.ts';
import { workerLink } from './worker-link.ts';
import type { WorkerLike } from './worker-link.ts';

export interface AnalysisClient {
  readonly ask: <Q extends QuestionName>(question: Q, asks: Questions[Q]['asks']) => Promise<Questions[Q]['answer']>;
  /** Asked for again before any other, it is the same study. @returns undefined when a newer study was asked for before this one was begun */
  readonly study: (asks: Questions['study']['asks']) => Promise<Study | undefined>;
  /** has its program read before the first question */
  readonly getReady: () => void;
  readonly close: () => void;
}

/** Longest that a question may take before the worker counts as hanging [ms]; a large build on a slow machine needs a second. */
const LONGEST = 30_000;

/**
 * @param restarted  told in a sentence when the worker had to be replaced
 * @param longest    that a question may take before the worker counts as hanging [ms]
 */
export function analysisClient(make: () => WorkerLike, restarted: (why: string) => void, longest = LONGEST): AnalysisClient {
  const link = workerLink(make, { stopped: 'The analysis stopped and was started anew.', hung: 'The analysis took too long and was started anew.' }, longest, restarted);
  let next: { readonly asks: Questions['study']['asks']; readonly resolve: (study: Study | undefined) => void; readonly reject: (error: Error) => void } | undefined;
  let isStudying = false;
  let last: { readonly asks: Questions['study']['asks']; readonly study: Promise<Study | undefined> } | undefined;

  const ask = <Q extends QuestionName>(question: Q, asks: Questions[Q]['asks']): Promise<Questions[Q]['answer']> => link.ask({ question, ...asks }) as Promise<Questions[Q]['answer']>;
  const begin = (): void => {
    if (isStudying || !next) return;
    const { asks, resolve, reject } = next;
    next = undefined;
    isStudying = true;
    ask('study', asks).then(resolve, reject).finally(() => { isStudying = false; begin(); });
  };
  return {
    ask,
    getReady: link.getReady,
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
    close: link.close,
  };
}

function isSame(a: Questions['study']['asks'], b: Questions['study']['asks']): boolean {
  return a.text === b.text && a.sheet === b.sheet && a.choices === b.choices && a.folder === b.folder;
}
