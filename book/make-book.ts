/**
 * The book of a build: its whole set of sheets as one PDF with bookmarks, page labels, embedded fonts and the sheets in words
 * for those who listen. The same input gives the same bytes: nothing in it comes from a clock or from chance.
 */
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import PDFDocument from 'pdfkit';
import { drawPage } from '../sheets/draw-page.tsx';
import type { FrameValues } from '../sheets/draw-page.tsx';
import { page as sheetSize } from '../sheets/frame/page-size.ts';
import { paper as onScreen } from '../sheets/palette.ts';
import type { Palette } from '../sheets/palette.ts';
import { renderPage } from '../sheets/render-page.ts';
import type { Page, SheetDrawing } from '../sheets/sheet.ts';
import { sheetNames } from '../sheets/sheet.ts';
import { plainText } from '../sheets/text-block.ts';
import { readDrawing } from './drawn-element.ts';
import { registerFonts } from './fonts.ts';
import type { FontFiles } from './fonts.ts';
import { paintDrawing } from './paint-svg.ts';
import type { Pdf } from './paint-svg.ts';

export type PaperSize = 'A3' | 'A4';

export interface BookSheet { readonly drawing: SheetDrawing<unknown>; readonly pages: readonly Page[] }

export interface BookValues {
  /** in the order of the set */
  readonly sheets: readonly BookSheet[];
  readonly frame: Omit<FrameValues, 'palette' | 'live'>;
  readonly paper: PaperSize;
  /** of the document, for programs that sort by it; undefined: the document has none */
  readonly created: Date | undefined;
  readonly fonts: FontFiles;
}

export interface Book {
  readonly bytes: Uint8Array;
  readonly pages: number;
  /** letters that no font of the book has: boxes stand in their place */
  readonly lacking: readonly string[];
}

/** Landscape [points of 1/72 in]. */
export const paperSizes: Readonly<Record<PaperSize, readonly [number, number]>> = { A3: [points(420), points(297)], A4: [points(297), points(210)] };

/** The sheet itself stays the white of the paper: a printer would only dither a tint. */
const printed: Palette = { ...onScreen, sheet: '#ffffff' };

/** @throws Error when a sheet draws what the book cannot paint: a mistake of the sheet, whatever the build */
export async function makeBook({ sheets, frame, paper, created, fonts: files }: BookValues): Promise<Book> {
  const drawn = sheets.flatMap(({ drawing, pages }) => pages.map((page, index) => ({
    drawing, page, index, pages: pages.length, svg: renderPage(drawPage(drawing, pages, index, { ...frame, palette: printed })),
  })));
  // the library makes the identity of the document from these
  const content = createHash('sha256').update(JSON.stringify([paper, drawn.map(({ svg, page }) => [svg, page.text])])).digest('hex').slice(0, 16);
  const pdf: Pdf = new PlainDocument({
    autoFirstPage: false, size: [...paperSizes[paper]], margin: 0, pdfVersion: '1.7', lang: 'en', tagged: true, displayTitle: true, font: '',
    info: { Title: `${frame.build}: build book`, Subject: `Drawing set, revision ${frame.revision} of the build file`, Keywords: `revision ${frame.revision}, content ${content}`, Creator: 'Halfshaft', CreationDate: created ?? new Date(0) },
  });
  if (created === undefined) delete pdf.info.CreationDate;
  const fonts = registerFonts(pdf, files);
  const lacking = new Set<string>();
  const book = pdf.struct('Document');
  pdf.addStructure(book);
  const scale = Math.min(paperSizes[paper][0] / sheetSize.width, paperSizes[paper][1] / sheetSize.height);
  const labels: string[] = [];
  let bookmark = pdf.outline;
  for (const { drawing, page, index, pages, svg } of drawn) {
    pdf.addPage();
    const number = sheetNames.indexOf(drawing.name) + 1;
    labels.push(pages === 1 ? `${number}` : `${number}.${index + 1}`);
    if (index === 0) bookmark = pdf.outline.addItem(`${number}  ${drawing.title}`);
    if (pages > 1) bookmark.addItem(`${number}.${index + 1}  ${page.subtitle ?? `page ${index + 1} of ${pages}`}`);
    const name = page.subtitle === undefined ? drawing.title : `${drawing.title}: ${page.subtitle}`;
    book.add(pdf.struct('Sect', { title: name }, [pdf.struct('Figure', { title: name, alt: `${name}. ${plainText(page.text)}`, bbox: [0, 0, ...paperSizes[paper]] }, () => {
      pdf.save();
      pdf.scale(scale);
      for (const letter of paintDrawing(pdf, readDrawing(svg), fonts)) lacking.add(letter);
      pdf.restore();
    })]));
  }
  book.end();
  labelPages(pdf, labels);
  const chunks: Buffer[] = [];
  pdf.on('data', (chunk: Buffer) => chunks.push(chunk));
  const ended = once(pdf, 'end');
  pdf.end();
  await ended;
  return { bytes: Buffer.concat(chunks), pages: drawn.length, lacking: [...lacking].sort() };
}

/** Without the second copy of title and dates as XML, which the library writes unescaped and only with a date. */
class PlainDocument extends PDFDocument {
  override endMetadata(): void { /* the information dictionary says it all */ }
}

/** What a reader shows as the number of each page: `3.2` is page 2 of sheet 3. The library has no call for it. */
function labelPages(pdf: Pdf, labels: readonly string[]): void {
  const { _root } = pdf as unknown as { readonly _root: { readonly data: Record<string, unknown> } };
  _root.data['PageLabels'] = { Nums: labels.flatMap((label, index) => [index, { P: new String(label) }]) };
}

function points(millimetres: number): number {
  return Math.round((millimetres / 25.4) * 72 * 100) / 100;
}
