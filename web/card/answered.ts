/** Tells the fields of a card that the worker has answered: what was accepted is shown until the file itself says it. */
import { createContext } from 'react';

export interface AnswerBell { readonly ring: () => void; /** @returns takes it back */ readonly onRing: (hear: () => void) => () => void }

/** Heard, not read: an answer that changes one field need not draw the others anew. */
export function bellOfAnswers(): AnswerBell {
  const hearers = new Set<() => void>();
  return { ring: () => hearers.forEach((hear) => hear()), onRing: (hear) => { hearers.add(hear); return () => hearers.delete(hear); } };
}

/** undefined for a field that stands on no card */
export const Answered = createContext<AnswerBell | undefined>(undefined);
export const AnsweredProvider = Answered.Provider;
