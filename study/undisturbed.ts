/** A long answer about one analysis, in a program that analyses other texts while this one waits for something. */
import type { Analysis } from '../core/analyse.ts';
import type { KeptAnalysis } from './kept-analysis.ts';

/** Those that are made again, one after the other: two at once would take the store of answers from each other for ever. */
let again: Promise<unknown> = Promise.resolve();

/**
 * While a diagram is laid out another text may be analysed, whose car then has the store of answers: the answer is made again. That does not wait
 * again, because layouts are kept.
 * @returns what `make` gives of an analysis that was the newest all the while
 */
export async function undisturbed<T>(kept: Pick<KeptAnalysis, 'of' | 'isNewest'>, text: string, make: (analysis: Analysis) => Promise<T>): Promise<T> {
  const attempt = async (): Promise<{ readonly made: T } | undefined> => {
    const analysis = kept.of(text);
    try {
      const made = await make(analysis);
      return kept.isNewest(analysis) ? { made } : undefined;
    } catch (error) {
      if (kept.isNewest(analysis)) throw error;
      return undefined;
    }
  };
  let done = await attempt();
  while (!done) {
    const turn = again.then(attempt);
    again = turn.catch(() => undefined);
    done = await turn;
  }
  return done.made;
}
