/** The text of the build on the desk: edits, typing, undo, and the file behind it. */
import { useCallback, useEffect, useRef, useState, useSyncExternalStore } from 'react';
import type { Edit } from '../../core/build/edit-build.ts';
import type { Splice } from '../../core/build/splice.ts';
import type { AnalysisClient } from '../analysis/client.ts';
import type { Questions } from '../analysis/protocol.ts';
import { isUnsaved, openDocument, redone, undone, withDisk, withStep, withText, withTyping } from '../document/document.ts';
import type { OnDisk, TextDocument } from '../document/document.ts';
import { buildFile } from '../server-link/build-file.ts';
import { followFile } from '../server-link/file-events.ts';
import { fileKeeper } from '../server-link/file-keeper.ts';
import type { FileState, Keeper } from '../server-link/file-keeper.ts';
import { dropUnsaved, keepUnsaved, leftFromLastTime } from '../server-link/unsaved-text.ts';
import type { Unsaved } from '../server-link/unsaved-text.ts';

export interface TextDesk {
  readonly document: TextDocument;
  readonly fileState: FileState;
  /** false while the program that keeps the file does not answer */
  readonly isLinked: boolean;
  readonly edit: (edits: readonly Edit[], label: string) => Promise<string | undefined>;
  /** edits that may come next: what they make of the text is told ahead */
  readonly expect: (edits: readonly Edit[]) => void;
  readonly typed: (splices: readonly Splice[]) => void;
  readonly undo: () => void; readonly redo: () => void;
  /** the whole text put in place, as one step */
  readonly put: (text: string, label: string) => void;
  readonly keeper: Keeper;
  /** text of last time that never reached the file */
  readonly left: Unsaved | undefined;
  readonly answerLeft: (take: boolean) => void;
}

interface Store { readonly get: () => TextDocument; readonly set: (next: TextDocument) => void; readonly subscribe: (hear: () => void) => () => void }

function storeOf(first: TextDocument): Store {
  let now = first;
  const hearers = new Set<() => void>();
  return { get: () => now, set: (next) => { now = next; hearers.forEach((hear) => hear()); }, subscribe: (hear) => { hearers.add(hear); return () => hearers.delete(hear); } };
}

/** @param ahead  told of the text that a change makes, just before it lies on the desk */
export function useText(opened: { readonly disk: OnDisk; readonly name: string }, client: AnalysisClient, say: (words: string) => void, ahead: (text: string) => Promise<unknown>): TextDesk {
  const [store] = useState(() => storeOf(openDocument(opened.disk)));
  const document = useSyncExternalStore(store.subscribe, store.get);
  const [fileState, setFileState] = useState<FileState>({ is: 'saved' });
  const [isLinked, setLinked] = useState(true);
  const [left, setLeft] = useState(() => leftFromLastTime(localStorage, opened.name, opened.disk));
  const [keeper] = useState(() => fileKeeper({ file: buildFile, document: store.get, replace: store.set, tell: setFileState, say }));
  const queue = useRef<Promise<unknown>>(Promise.resolve());

  useEffect(() => {
    const end = followFile({ onChanged: (etag) => void keeper.heard(etag), onGone: () => void keeper.heard(undefined), onLink: setLinked });
    return () => { end(); keeper.stop(); };
  }, [keeper]);
  useShelved(document, opened.name, left === undefined);
  useEffect(() => {
    if (!isUnsaved(document)) return undefined;
    const warn = (event: BeforeUnloadEvent): void => { event.preventDefault(); };
    addEventListener('beforeunload', warn);
    return () => removeEventListener('beforeunload', warn);
  }, [document]);

  const change = useCallback((next: TextDocument | undefined) => {
    const { text } = store.get();
    if (!next || next === store.get()) return;
    // before the screen is told: the findings are waited for, and what the pieces of the screen then ask comes behind them
    if (next.text !== text) void ahead(next.text);
    store.set(next);
    keeper.changed();
  }, [store, keeper, ahead]);
  const [maker] = useState(() => editMaker(client));
  const edit = useCallback((edits: readonly Edit[], label: string): Promise<string | undefined> => {
    const done = queue.current.then(() => editOnce(store, maker, change, edits, label));
    queue.current = done;
    return done;
  }, [store, maker, change]);
  const [expected] = useState(oneAtATime);
  const expect = useCallback((edits: readonly Edit[]): void => expected(async () => {
    const { text } = store.get();
    const answered = maker.make(text, edits);
    const answer = await answered;
    if (!answer.ok || store.get().text !== text || !maker.isLast(answered)) return;
    const next = withStep(store.get(), answer.splices, '');
    if (next) await ahead(next.text);
  }), [expected, store, maker, ahead]);

  const typed = useCallback((splices: readonly Splice[]) => change(withTyping(store.get(), splices, performance.now())), [store, change]);
  const undo = useCallback(() => change(undone(store.get())), [store, change]);
  const redo = useCallback(() => change(redone(store.get())), [store, change]);

  return {
    document, fileState, isLinked, edit, expect, typed, undo, redo, keeper, left,
    put: (text, label) => change(withText(store.get(), text, label)),
    answerLeft: (take) => {
      if (take && left) {
        const { disk } = store.get();
        store.set(withDisk(withText(store.get(), left.text, 'text of last time'), left.base));
        if (left.base.etag === disk.etag) keeper.changed();
        else keeper.take(disk);
      } else dropUnsaved(localStorage, opened.name);
      setLeft(undefined);
    },
  };
}

/**
 * Storage is slow, so the newest text goes on the shelf when the screen has been drawn [ms]; a page that is left puts it
 * there at once, before the next page is begun: that one may look at the shelf while this one is still hiding.
 */
const AFTER_DRAWING = 250;

/** @param isWanted  false while what was left from last time lies there, until the builder has said what is to become of it */
function useShelved(document: TextDocument, name: string, isWanted: boolean): void {
  const newest = useRef(document);
  newest.current = document;
  const shelve = useRef<ReturnType<typeof setTimeout>>(undefined);
  // another page of the same build may have its text there; each clears its own alone
  const isOwn = useRef(false);
  const put = useCallback(() => {
    if (shelve.current === undefined) return;
    clearTimeout(shelve.current);
    shelve.current = undefined;
    if (isUnsaved(newest.current)) {
      keepUnsaved(localStorage, name, newest.current);
      isOwn.current = true;
    } else if (isOwn.current) {
      dropUnsaved(localStorage, name);
      isOwn.current = false;
    }
  }, [name]);
  // one at a time, of whatever is newest then: typing on and on does not put it off
  useEffect(() => { if (isWanted) shelve.current ??= setTimeout(put, AFTER_DRAWING); }, [document, isWanted, put]);
  useEffect(() => {
    addEventListener('beforeunload', put);
    addEventListener('pagehide', put);
    globalThis.document.addEventListener('visibilitychange', put);
    return () => { put(); removeEventListener('beforeunload', put); removeEventListener('pagehide', put); globalThis.document.removeEventListener('visibilitychange', put); };
  }, [put]);
}

/** Keys come quicker than a large build is studied: of what is asked for meanwhile, only the newest is done. What fails is told by whoever needs it. */
function oneAtATime(): (act: () => Promise<void>) => void {
  let isBusy = false, next: (() => Promise<void>) | undefined;
  const run = async (): Promise<void> => {
    isBusy = true;
    while (next) { const act = next; next = undefined; await act().catch(() => undefined); }
    isBusy = false;
  };
  return (act) => { next = act; if (!isBusy) void run(); };
}

interface EditMaker {
  /** The last ones asked for are not made again. */
  readonly make: (text: string, edits: readonly Edit[]) => Promise<Questions['edit']['answer']>;
  /** nothing was asked for since */
  readonly isLast: (answer: ReturnType<EditMaker['make']>) => boolean;
}

function editMaker(client: AnalysisClient): EditMaker {
  let last: { readonly text: string; readonly key: string; readonly answer: ReturnType<EditMaker['make']> } | undefined;
  return {
    make: (text, edits) => {
      const key = JSON.stringify(edits);
      if (last?.key === key && last.text === text) return last.answer;
      const own = (last = { text, key, answer: client.ask('edit', { text, edits }) });
      // what went wrong is tried anew when it is asked for again
      own.answer.catch(() => { if (last === own) last = undefined; });
      return own.answer;
    },
    isLast: (answer) => last?.answer === answer,
  };
}

/** An edit is made for a text; when letters were typed meanwhile, it is made again for the new one. */
async function editOnce(store: Store, maker: EditMaker, change: (next: TextDocument | undefined) => void, edits: readonly Edit[], label: string): Promise<string | undefined> {
  for (let attempt = 0; attempt < 5; attempt++) {
    const { text } = store.get();
    try {
      const answer = await maker.make(text, edits);
      if (!answer.ok) return answer.problem.message;
      if (store.get().text !== text) continue;
      change(withStep(store.get(), answer.splices, label));
      return undefined;
    } catch (error) {
      return error instanceof Error ? error.message : String(error);
    }
  }
  return 'The text was changed again and again meanwhile, so nothing was done. Try once more.';
}
