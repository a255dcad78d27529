/**
 * What every piece of the screen may ask for and do. One object, handed down by context; the desk (`web/desk`) makes it.
 * Pieces never talk to the server or the worker in another way.
 */
import { createContext, useContext } from 'react';
import type { Edit } from '../core/build/edit-build.ts';
import type { Splice } from '../core/build/splice.ts';
import type { Choices, SheetName } from '../sheets/sheet.ts';
import type { Palette } from '../sheets/palette.ts';
import type { FaultDesk } from './faults/use-fault-desk.ts';
import type { Chances, Guided, QuestionName, Questions } from './analysis/protocol.ts';
import type { Study } from '../study/study.ts';

export interface Bench {
  /** the text as it stands now, saved or not */
  readonly text: string;
  /** of the newest text that has been studied; undefined before the first */
  readonly study: Study | undefined;
  /** true while `study` is of an older text */
  readonly isStale: boolean;
  /** chances of `study`'s own text, once drawn */
  readonly chances: Chances | undefined;
  /** the same for what takes seconds: nothing else waits for it */
  readonly askAside: <Q extends QuestionName>(question: Q, asks: Questions[Q]['asks']) => Promise<Questions[Q]['answer']>;
  readonly ask: <Q extends QuestionName>(question: Q, asks: Questions[Q]['asks']) => Promise<Questions[Q]['answer']>;

  /**
   * Edits the text by path. The edits count as one step of undo, named by `label` ("mass of M1").
   * @returns undefined when it was done, else what was wrong, in a sentence
   */
  readonly edit: (edits: readonly Edit[], label: string) => Promise<string | undefined>;
  /** Edits that may come next, as they are being typed: their consequences are worked out ahead, nothing is changed. */
  readonly expect: (edits: readonly Edit[]) => void;
  /** Changes made by hand in the text drawer; typing that goes on joins the step before. */
  readonly typed: (splices: readonly Splice[]) => void;
  readonly undo: () => void; readonly redo: () => void;
  /** names of the steps that undo and redo would take; undefined: none */
  readonly undoes: string | undefined; readonly redoes: string | undefined;

  readonly sheet: SheetName;
  readonly page: number;
  readonly show: (sheet: SheetName, page?: number) => void;
  /** path of what is selected; its card is open */
  readonly selected: string | undefined;
  readonly select: (path: string | undefined) => void;
  /** opens the text drawer at a path or an offset */
  readonly openText: (at: { readonly path: string } | { readonly offset: number }) => void;
  readonly isTextOpen: boolean;

  readonly choices: Choices;
  readonly choose: (choices: Partial<Choices>) => void;
  readonly palette: Palette;
  readonly setTheme: (theme: 'paper' | 'blueprint') => void;

  /** keys of numbers that an edit has changed and that were not looked at yet */
  readonly changed: ReadonlySet<string>;
  readonly lookedAt: (keys?: readonly string[]) => void;

  /** what a probe was put on: while the meter is out, taking hold of a point puts the next probe there */
  readonly meter: { readonly isOut: boolean; readonly red: string | undefined; readonly black: string | undefined };
  readonly setMeter: (meter: Bench['meter']) => void;
  /** the conversation about why it does nothing */
  readonly fault: FaultDesk;
  /** while two ports are being joined: the first one picked; `true` when none is picked yet */
  readonly joining: string | true | undefined;
  readonly setJoining: (joining: Bench['joining']) => void;
  /** the steps of a procedure, one at a time, in place of the desk */
  readonly goThrough: (steps: Guided) => void;
  /** says something to everybody, also to those who listen */
  readonly announce: (words: string) => void;
}

const BenchContext = createContext<Bench | undefined>(undefined);
export const BenchProvider = BenchContext.Provider;
export function useBench(): Bench {
  const bench = useContext(BenchContext);
  if (!bench) throw new Error('a piece of the screen stands outside the desk');
  return bench;
}
