/** Books to look into: of a demo build, or of one page with given elements. */
import { createElement } from 'react';
import type { ReactNode } from 'react';
import { makeBook } from '../../book/make-book.ts';
import type { Book, BookSheet, BookValues, PaperSize } from '../../book/make-book.ts';
import { words } from '../../catalogue/words.ts';
import { wholeSet } from '../../cli/commands/book.ts';
import { readFont } from '../../cli/font-faces.ts';
import { analyse } from '../../core/analyse.ts';
import type { StateWords } from '../../core/car/read-state.ts';
import type { Page, SheetName } from '../../sheets/sheet.ts';

const fonts: BookValues['fonts'] = { sans: readFont('sans', 'woff'), strong: readFont('strong', 'woff'), mono: readFont('mono', 'woff') };

/** All sheets of a build, and the names of its parts. */
export async function sheetsOf(text: string, state: StateWords = {}, without: readonly SheetName[] = []): Promise<{ readonly sheets: readonly BookSheet[]; readonly frame: BookValues['frame']; readonly parts: readonly string[] }> {
  const analysis = analyse(text, words);
  const sheets = await wholeSet(analysis, { units: { system: analysis.build.units }, state }, new Set(without));
  return { sheets, parts: [...analysis.build.parts.keys()], frame: { build: analysis.build.name, revision: '0123abcd', date: '2026-05-04', note: `Next: ${analysis.next.do}` } };
}

export const bookOf = async ({ sheets, frame }: { readonly sheets: readonly BookSheet[]; readonly frame: BookValues['frame'] }, paper: PaperSize = 'A3', created?: Date): Promise<Book> => makeBook({ sheets, frame, paper, created, fonts });

/** A book of pages that are drawn here; elements stand in the drawing area. */
export async function bookOfPages(pages: readonly Page[], build = 'Sample'): Promise<Book> {
  return bookOf({ sheets: [{ drawing: { name: 'layout', title: 'Layout', meaning: '', pages: () => pages }, pages }], frame: { build, revision: '0123abcd', date: undefined, note: undefined } });
}

export const bookOfElements = async (...elements: readonly ReactNode[]): Promise<Book> => bookOfPages([{ body: createElement('g', null, ...elements), text: [] }]);
