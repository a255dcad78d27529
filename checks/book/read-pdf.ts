/** Reads a PDF with another program than the one that wrote it: what stands where on each page. */
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { PDFDocumentProxy, PDFPageProxy } from 'pdfjs-dist';

type Matrix = readonly [number, number, number, number, number, number];
/** [mm] from the top left corner of the page */
export interface Box { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number }
export interface PlacedText extends Box { readonly text: string }

export const openPdf = async (bytes: Uint8Array): Promise<PDFDocumentProxy> => getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;

const MM = 25.4 / 72;
const times = ([a, b, c, d, e, f]: Matrix, [g, h, i, j, k, l]: Matrix): Matrix => [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];

/** Box around the corners of a box that a matrix has moved, measured from the top of a page. */
function boxOf(matrix: Matrix, [x1, y1, x2, y2]: readonly [number, number, number, number], pageHeight: number): Box {
  const corners = [[x1, y1], [x2, y1], [x1, y2], [x2, y2]].map(([x, y]) => times(matrix, [1, 0, 0, 1, x as number, y as number]));
  const [xs, ys] = [corners.map((corner) => corner[4] * MM), corners.map((corner) => (pageHeight - corner[5]) * MM)];
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

/** Every piece of text, with a box around its letters: capitals and what hangs below the line. */
export async function textsOf(page: PDFPageProxy): Promise<PlacedText[]> {
  const { height } = page.getViewport({ scale: 1 });
  const { items } = await page.getTextContent({ disableNormalization: true });
  return items.flatMap((item) => {
    if (!('str' in item) || item.str.trim() === '') return [];
    const [a, b, c, d, e, f] = item.transform as [number, number, number, number, number, number];
    const size = Math.hypot(c, d);
    const along = Math.hypot(a, b);
    // the matrix brings letters of height 1 to their place; widths and heights come in points already
    return [{ text: item.str, ...boxOf([a / along, b / along, c / size, d / size, e, f], [0, -0.22 * size, item.width, 0.72 * size], height) }];
  });
}

/** The pen and the colours that a shape was painted with, as the PDF names them. */
export interface Ink {
  readonly fill?: unknown; readonly stroke?: unknown; readonly width?: unknown; readonly dash?: unknown; readonly cap?: unknown; readonly join?: unknown; readonly miter?: unknown;
  readonly fillAlpha?: unknown; readonly strokeAlpha?: unknown;
}
/** `does`: stroke, fill, eoFill, fillStroke, eoFillStroke */
export interface PaintedPath extends Box { readonly does: string; readonly ink: Ink }

const pens: Readonly<Record<number, keyof Ink>> = {
  [OPS.setFillRGBColor]: 'fill', [OPS.setStrokeRGBColor]: 'stroke', [OPS.setLineWidth]: 'width', [OPS.setDash]: 'dash', [OPS.setLineCap]: 'cap', [OPS.setLineJoin]: 'join', [OPS.setMiterLimit]: 'miter',
};
const nameOf = (operator: number): string => Object.entries(OPS).find(([, number]) => number === operator)?.[0] ?? String(operator);

/** The boxes of all lines and areas, in the order of painting; the width of the pen is not counted. */
export async function pathsOf(page: PDFPageProxy): Promise<PaintedPath[]> {
  const { height } = page.getViewport({ scale: 1 });
  const { fnArray, argsArray } = await page.getOperatorList();
  const found: PaintedPath[] = [];
  const kept: (readonly [Matrix, Ink])[] = [];
  let matrix: Matrix = [1, 0, 0, 1, 0, 0];
  let ink: Ink = {};
  fnArray.forEach((operator, index) => {
    const args = argsArray[index] as readonly unknown[];
    const pen = pens[operator];
    if (operator === OPS.save) kept.push([matrix, ink]);
    else if (operator === OPS.restore) [matrix, ink] = kept.pop() as readonly [Matrix, Ink];
    else if (operator === OPS.transform) matrix = times(matrix, args as unknown as Matrix);
    else if (pen !== undefined) ink = { ...ink, [pen]: pen === 'dash' ? args : args[0] };
    else if (operator === OPS.setGState) for (const [key, value] of args[0] as readonly (readonly [string, unknown])[]) ink = { ...ink, ...(key === 'ca' ? { fillAlpha: value } : key === 'CA' ? { strokeAlpha: value } : {}) };
    else if (operator === OPS.constructPath) {
      const [x1, y1, x2, y2] = args[2] as Float32Array;
      found.push({ ...boxOf(matrix, [x1 as number, y1 as number, x2 as number, y2 as number], height), does: nameOf(args[0] as number), ink });
    }
  });
  return found;
}

/** Title, dates and the like. */
export async function infoOf(pdf: PDFDocumentProxy): Promise<Readonly<Record<string, unknown>>> {
  return { ...(await pdf.getMetadata()).info };
}

export interface Bookmark { readonly title: string; /** from 1 */ readonly page: number; readonly below: readonly Bookmark[] }

type Outline = NonNullable<Awaited<ReturnType<PDFDocumentProxy['getOutline']>>>;

export async function bookmarksOf(pdf: PDFDocumentProxy, items?: Outline): Promise<Bookmark[]> {
  const list = items ?? (await pdf.getOutline()) ?? [];
  return Promise.all(list.map(async ({ title, dest, items: below }) => ({
    title, page: (await pdf.getPageIndex((dest as readonly { readonly num: number; readonly gen: number }[])[0] as { num: number; gen: number })) + 1, below: await bookmarksOf(pdf, below as Outline),
  })));
}
