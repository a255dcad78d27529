/**
 * The last analysis, kept by its text, so that the questions that follow a study (card, meter, findings) are answered at once.
 * Belongs to one worker and one build file.
 */
import { analyse } from '../core/analyse.ts';
import type { Analysis } from '../core/analyse.ts';
import type { Words } from '../core/build/read-build.ts';
import { emptyMemory, lent } from '../core/build/source-memory.ts';
import type { SourceMemory } from '../core/build/source-memory.ts';
import { answerStore } from '../core/car/ask-network.ts';
import type { AnswerStore } from '../core/car/ask-network.ts';

export interface KeptAnalysis {
  readonly words: Words;
  /** of the reader of the file; for edits too */
  readonly memory: SourceMemory;
  /** The analysis of a text: the kept one when the text is the same, else a new one, which is kept from then on. */
  readonly of: (text: string) => Analysis;
  /** whether no other text was analysed since */
  readonly isNewest: (analysis: Analysis) => boolean;
  /** An analysis of another text that leaves the kept one as it is (an alternative that may be dropped). */
  readonly aside: (text: string) => Analysis;
}

/** States asked about by hand add factorisations; beyond this many they are dropped and made again when needed. */
const MOST_STATES = 400;

export function keptAnalysis(words: Words): KeptAnalysis {
  const memory = emptyMemory();
  let [store, asideStore] = [answerStore(), answerStore()];
  let kept: { readonly text: string; readonly analysis: Analysis } | undefined;
  const bounded = (one: AnswerStore): AnswerStore => (one.makers.size > MOST_STATES ? answerStore() : one);
  return {
    words, memory,
    of: (text) => {
      if (kept?.text === text) return kept.analysis;
      const last = store;
      store = bounded(store);
      const analysis = analyse(text, words, { store, memory, before: store === last ? kept?.analysis : undefined });
      kept = { text, analysis };
      return analysis;
    },
    isNewest: (analysis) => kept?.analysis === analysis,
    aside: (text) => {
      if (kept?.text === text) return kept.analysis;
      asideStore = bounded(asideStore);
      return analyse(text, words, { store: asideStore, memory: lent(memory), before: kept?.analysis });
    },
  };
}
