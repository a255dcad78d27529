/** A long answer about one analysis, in a program that analyses other texts while this one waits for something. */
import type { Analysis } from '../core/analyse.ts';
import type { KeptAnalysis } from './kept-analysis.ts';

/**
 * While a diagram is laid out another text may be analysed, whose car then has the store of answers: the answer is made again. That does not wait
 * again, because layouts are kept.
 * @returns what `make` gives of an analysis that was the newest all the while
 */
export async function undisturbed<T>(kept: Pick<KeptAnalysis, 'of' | 'isNewest'>, text: string, make: (analysis: Analysis) => Promise<T>): Promise<T> {
  for (;;) {
    const analysis = kept.of(text);
    try {
      const made = await make(analysis);
      if (kept.isNewest(analysis)) return made;
    } catch (error) {
      if (kept.isNewest(analysis)) throw error;
    }
  }
}
