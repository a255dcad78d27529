/** Text that has not reached the file is also kept in the browser, and offered again when the page is opened next. */
import type { OnDisk, TextDocument } from '../document/document.ts';

export interface Unsaved { readonly base: OnDisk; readonly text: string }

type Shelf = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;
const keyOf = (build: string): string => `halfshaft.unsaved.${build}`;

/** Keeps the text of the document. A full or forbidden shelf is passed over: the file is what counts. */
export function keepUnsaved(shelf: Shelf, build: string, document: TextDocument): void {
  try {
    shelf.setItem(keyOf(build), JSON.stringify({ base: document.disk, text: document.text } satisfies Unsaved));
  } catch { /* nothing is lost by it while the page is open */ }
}

/** What was left from last time; what the file holds anyway is taken off the shelf. */
export function leftFromLastTime(shelf: Shelf, build: string, disk: OnDisk): Unsaved | undefined {
  try {
    const kept: unknown = JSON.parse(shelf.getItem(keyOf(build)) ?? 'null');
    if (isUnsavedText(kept) && kept.text !== disk.text) return kept;
    dropUnsaved(shelf, build);
    return undefined;
  } catch {
    return undefined;
  }
}

export function dropUnsaved(shelf: Shelf, build: string): void {
  try { shelf.removeItem(keyOf(build)); } catch { /* as above */ }
}

function isUnsavedText(value: unknown): value is Unsaved {
  if (typeof value !== 'object' || value === null || !('text' in value) || !('base' in value)) return false;
  const { base, text } = value as { base: unknown; text: unknown };
  return typeof text === 'string' && typeof base === 'object' && base !== null && 'text' in base && typeof base.text === 'string' && 'etag' in base && typeof base.etag === 'string';
}
