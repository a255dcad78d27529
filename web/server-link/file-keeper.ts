/**
 * Keeps the text on the screen and the file on disk the same, and never loses either. Saves by itself; takes in what others
 * write; merges where both changed; asks where both changed the same lines.
 *
 * Invariants: one save at a time; a save names the text that it replaces, so nobody's text is written over unseen; while a
 * choice is open nothing is saved; whatever was on the screen can be got back by undo.
 */
import { joinPieces, mergeTexts } from '../../core/build/merge-texts.ts';
import { isUnsaved, withDisk, withText } from '../document/document.ts';
import type { OnDisk, TextDocument } from '../document/document.ts';
import type { BuildFile } from './build-file.ts';

export type FileState =
  | { readonly is: 'saved' } | { readonly is: 'waiting' } | { readonly is: 'saving' }
  /** will be tried again by itself */
  | { readonly is: 'away' }
  | { readonly is: 'refused'; readonly why: string }
  /** the file was taken out of the folder */
  | { readonly is: 'gone' }
  /** both sides changed the same lines; `disk` is what the file holds now */
  | { readonly is: 'conflict'; readonly disk: OnDisk };

export interface Keeper {
  /** the document was changed on the screen */
  readonly changed: () => void;
  /** the server says what the file holds; undefined: it is gone */
  readonly heard: (etag: string | undefined) => Promise<void>;
  /** ends a conflict with a text made of both */
  readonly settle: (text: string) => void;
  /** saves now; writes a file that is gone anew */
  readonly save: () => Promise<void>;
  /** takes in what the file holds now, against the base that the document has */
  readonly take: (disk: OnDisk) => void;
  readonly stop: () => void;
}

export interface KeeperLinks {
  readonly file: BuildFile;
  readonly document: () => TextDocument;
  readonly replace: (document: TextDocument) => void;
  readonly tell: (state: FileState) => void;
  /** a sentence about what was taken in */
  readonly say: (words: string) => void;
}

/** After the last change [ms]. */
const PAUSE = 250;
/** Between attempts while nobody answers [ms]. */
const RETRY = [1000, 2000, 4000, 8000];

export function fileKeeper({ file, document, replace, tell, say }: KeeperLinks): Keeper {
  let state: FileState = { is: 'saved' };
  let timer: ReturnType<typeof setTimeout> | undefined;
  let failures = 0;
  let running: Promise<void> | undefined;

  const set = (next: FileState): void => { state = next; tell(next); };
  const later = (wait: number): void => { clearTimeout(timer); timer = setTimeout(() => void save(), wait); };

  const save = async (): Promise<void> => {
    clearTimeout(timer);
    if (running) { await running; if (isUnsaved(document())) later(0); return; }
    if (state.is === 'conflict') return;
    if (!isUnsaved(document()) && state.is !== 'gone') { set({ is: 'saved' }); return; }
    running = put();
    await running;
    running = undefined;
    if (state.is === 'saved' && isUnsaved(document())) changed();
  };
  const put = async (): Promise<void> => {
    const { text, disk } = document();
    const etag = state.is === 'gone' ? '"absent"' : disk.etag;
    set({ is: 'saving' });
    const answer = await file.put(text, etag);
    if (answer.outcome !== 'away') failures = 0;
    switch (answer.outcome) {
      case 'saved': replace(withDisk(document(), { text, etag: answer.etag })); set({ is: 'saved' }); return;
      case 'changed': set({ is: 'waiting' }); take(answer.disk); return;
      case 'refused': set({ is: 'refused', why: answer.why }); return;
      case 'away': set({ is: 'away' }); later(RETRY[Math.min(failures++, RETRY.length - 1)] as number);
    }
  };
  const changed = (): void => {
    if (state.is === 'conflict' || state.is === 'gone') return;
    if (running) return;
    if (!isUnsaved(document())) { clearTimeout(timer); if (state.is !== 'saved') set({ is: 'saved' }); return; }
    if (state.is !== 'away') set({ is: 'waiting' });
    later(PAUSE);
  };
  const take = (disk: OnDisk): void => {
    const now = document();
    if (disk.etag === '"absent"') { if (now.disk.etag !== '"absent"') set({ is: 'gone' }); return; }
    if (disk.text === now.text) { replace(withDisk(now, disk)); set({ is: 'saved' }); return; }
    if (!isUnsaved(now)) {
      replace(withDisk(withText(now, disk.text, 'change on disk'), disk));
      set({ is: 'saved' });
      say('The file was changed on disk; the change was taken in. Undo takes it back.');
      return;
    }
    const { pieces } = mergeTexts(now.disk.text, now.text, disk.text);
    const merged = joinPieces(pieces);
    if (merged === undefined) { clearTimeout(timer); set({ is: 'conflict', disk }); say('The file was changed on disk in lines that were changed here too. Choose which to keep.'); return; }
    replace(withDisk(withText(now, merged, 'change on disk, put together with yours'), disk));
    set({ is: 'waiting' });
    say('The file was changed on disk; its changes and yours were put together.');
    changed();
    if (isUnsaved(document())) later(PAUSE);
  };
  const heard = async (etag: string | undefined): Promise<void> => {
    if (running) await running;
    if (etag === undefined || etag === '"absent"') { if (document().disk.etag !== '"absent"') set({ is: 'gone' }); return; }
    const isNews = etag !== document().disk.etag;
    if (!isNews && state.is !== 'gone') { if (state.is === 'away' || state.is === 'refused') await save(); return; }
    const answer = await file.get();
    if ('why' in answer) { set(isUnsaved(document()) ? { is: 'away' } : state); return; }
    if (running) await running;
    if (answer.disk.etag === document().disk.etag && state.is !== 'gone') return;
    take(answer.disk);
  };
  return {
    changed, heard, save, take,
    settle: (text) => {
      if (state.is !== 'conflict') return;
      replace(withDisk(withText(document(), text, 'choice between screen and disk'), state.disk));
      set({ is: 'waiting' });
      changed();
    },
    stop: () => clearTimeout(timer),
  };
}
