/** How screen and disk stand, in words. */
import type { FileState } from './file-keeper.ts';

export interface FileWords { readonly says: string; readonly isTrouble: boolean; readonly button?: { readonly label: string; readonly does: 'save' | 'choose' } }

export function fileWords(state: FileState, isLinked: boolean): FileWords {
  switch (state.is) {
    case 'saved': return isLinked ? { says: 'saved', isTrouble: false } : { says: 'saved; the program that keeps the file does not answer', isTrouble: true };
    case 'waiting': case 'saving': return { says: 'saving …', isTrouble: false };
    case 'away': return { says: 'not saved: the program that keeps the file does not answer. Kept in this browser, tried again by itself.', isTrouble: true, button: { label: 'Try now', does: 'save' } };
    case 'refused': return { says: `not saved: ${state.why}`, isTrouble: true, button: { label: 'Try again', does: 'save' } };
    case 'gone': return { says: 'the file is gone from its folder; the text is still here', isTrouble: true, button: { label: 'Write it anew', does: 'save' } };
    case 'conflict': return { says: 'not saved: changed here and on disk', isTrouble: true, button: { label: 'Choose', does: 'choose' } };
  }
}
