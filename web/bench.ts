/**
 * What every piece of the screen may ask for and do. The desk (`web/desk`) keeps it; pieces never talk to the server or the worker in
 * another way. A piece is drawn again when a field that it reads with `useBench` is another value, and for nothing else: fields that
 * hold objects keep the same one for as long as it says the same.
 */
import { createContext, useContext, useSyncExternalStore } from 'react';
import type { Edit } from '../core/build/edit-build.ts';
import type { Splice } from '../core/build/splice.ts';
import type { Choices, SheetName } from '../sheets/sheet.ts';
import type { LevelCounts } from '../sheets/levels.ts';
import type { Palette } from '../sheets/palette.ts';
import type { FaultDesk, Pointed } from './faults/use-fault-desk.ts';
import type { Chances, Guided, QuestionName, Questions } from './analysis/protocol.ts';
import type { FindingRow } from '../study/finding-row.ts';
import type { Outline } from '../study/outline.ts';
import type { Study } from '../study/study.ts';

/** What lies on the bench. */
export interface Bench {
  /** the text as it stands now, saved or not */
  readonly text: string;
  /** names of the steps that undo and redo would take; undefined: none */
  readonly undoes: string | undefined; readonly redoes: string | undefined;

  /** of the newest text that has been studied; undefined before the first */
  readonly study: Study | undefined;
  /** of `study` */
  readonly outline: Outline | undefined;
  /** true while `study` is of an older text */
  readonly isStale: boolean;
  /** chances of `study`'s own text, once drawn */
  readonly chances: Chances | undefined;
  /** findings that do not hold, how many there are of each level, and the next thing to do: with their chances, once drawn */
  readonly open: readonly FindingRow[] | undefined;
  readonly counts: LevelCounts | undefined;
  readonly next: Study['next'] | undefined;

  readonly sheet: SheetName;
  readonly page: number;
  /** path of what is selected; its card is open */
  readonly selected: string | undefined;
  readonly isTextOpen: boolean;
  readonly choices: Choices;
  readonly palette: Palette;
  /** keys of numbers that an edit has changed and that were not looked at yet */
  readonly changed: ReadonlySet<string>;
  /** what a probe was put on: while the meter is out, taking hold of a point puts the next probe there */
  readonly meter: { readonly isOut: boolean; readonly red: string | undefined; readonly black: string | undefined };
  /** while two ports are being joined: the first one picked; `true` when none is picked yet */
  readonly joining: string | true | undefined;
  /** the conversation about why it does nothing */
  readonly fault: FaultDesk;
  /** where it asks to look next */
  readonly pointed: Pointed | undefined;
}

/** What can be done at the bench. It stays the same object for as long as the desk stands. */
export interface Acts {
  /** What lies on the bench at this moment, for what happens at a click. What is drawn is read with `useBench`. */
  readonly now: () => Bench;
  readonly ask: <Q extends QuestionName>(question: Q, asks: Questions[Q]['asks']) => Promise<Questions[Q]['answer']>;
  /** the same for what takes seconds: nothing else waits for it */
  readonly askAside: <Q extends QuestionName>(question: Q, asks: Questions[Q]['asks']) => Promise<Questions[Q]['answer']>;

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

  readonly show: (sheet: SheetName, page?: number) => void;
  readonly select: (path: string | undefined) => void;
  /** opens the text drawer at a path or an offset */
  readonly openText: (at: { readonly path: string } | { readonly offset: number }) => void;
  readonly choose: (choices: Partial<Choices>) => void;
  readonly lookedAt: (keys?: readonly string[]) => void;
  readonly setMeter: (meter: Bench['meter']) => void;
  readonly setJoining: (joining: Bench['joining']) => void;
  /** the steps of a procedure, one at a time, in place of the desk */
  readonly goThrough: (steps: Guided) => void;
  /** says something to everybody, also to those who listen */
  readonly announce: (words: string) => void;
}

export interface BenchStore { readonly acts: Acts; readonly subscribe: (hear: () => void) => () => void }

const Standing = createContext<BenchStore | undefined>(undefined);
export const BenchProvider = Standing.Provider;

function useStanding(): BenchStore {
  const store = useContext(Standing);
  if (!store) throw new Error('a piece of the screen stands outside the desk');
  return store;
}

export const useActs = (): Acts => useStanding().acts;

/** One field of the bench; the piece is drawn again when it changes. */
export function useBench<F extends keyof Bench>(field: F): Bench[F] {
  const { acts: { now }, subscribe } = useStanding();
  return useSyncExternalStore(subscribe, () => now()[field]);
}
