/** Paints a page of a sheet into a PDF document: the same lines, colours and letters, as vectors and real text. */
import type PDFDocument from 'pdfkit';
import type { DrawnElement } from './drawn-element.ts';
import { faceOf } from './fonts.ts';
import type { Fonts } from './fonts.ts';
import { readPath } from './path-data.ts';
import { readNumber, readNumbers } from './read-number.ts';
import { startStyle, styleOf } from './style.ts';
import type { Style } from './style.ts';
import { readTransforms } from './transform.ts';

export type Pdf = typeof PDFDocument.prototype;

/**
 * Paints with the user unit of the drawing as it stands in `pdf`: the caller has scaled it.
 * Returns the letters that the fonts lack; boxes stand in their place, and the text can still be found and copied.
 * @throws Error on a value that the painter does not know
 */
export function paintDrawing(pdf: Pdf, drawing: DrawnElement, fonts: Fonts): ReadonlySet<string> {
  const lacking = new Set<string>();
  pdf.miterLimit(startStyle.miterLimit);
  paint(drawing, startStyle);
  return lacking;

  function paint(element: DrawnElement, inherited: Style): void {
    const style = styleOf(element, inherited);
    const transforms = readTransforms(element.attributes['transform'] ?? '');
    if (transforms.length > 0) pdf.save();
    for (const matrix of transforms) pdf.transform(...matrix);
    if (element.name === 'text') for (const letter of letters(pdf, element, style, fonts)) lacking.add(letter);
    else if (element.name !== 'g' && element.name !== 'svg') shape(pdf, element, style);
    for (const child of element.children) paint(child, style);
    if (transforms.length > 0) pdf.restore();
  }
}

function shape(pdf: Pdf, element: DrawnElement, style: Style): void {
  // a line has no inside
  const fill = element.name === 'line' ? undefined : style.fill;
  const stroke = style.width > 0 ? style.stroke : undefined;
  if (fill === undefined && stroke === undefined) return;
  pdf.save();
  setColours(pdf, style, fill, stroke);
  if (outline(pdf, element)) {
    const rule = style.evenOdd ? 'even-odd' : 'non-zero';
    if (fill !== undefined && stroke !== undefined) pdf.fillAndStroke(fill, stroke, rule);
    else if (fill !== undefined) pdf.fill(rule);
    else pdf.stroke();
  }
  pdf.restore();
}

/** Lays the outline of a shape; false where SVG draws none. */
function outline(pdf: Pdf, element: DrawnElement): boolean {
  const value = (name: string): number => readNumber(element.attributes[name] ?? '0', name);
  switch (element.name) {
    case 'line': pdf.moveTo(value('x1'), value('y1')).lineTo(value('x2'), value('y2')); return true;
    case 'rect': return rectangle(pdf, element, value);
    case 'circle': return ellipse(pdf, value('cx'), value('cy'), value('r'), value('r'));
    case 'ellipse': return ellipse(pdf, value('cx'), value('cy'), value('rx'), value('ry'));
    case 'path': return path(pdf, element.attributes['d'] ?? '');
    case 'polyline': return polyline(pdf, element, false);
    case 'polygon': return polyline(pdf, element, true);
    default: throw new Error(`the book cannot paint <${element.name}>`);
  }
}

function rectangle(pdf: Pdf, element: DrawnElement, value: (name: string) => number): boolean {
  const [width, height] = [value('width'), value('height')];
  if (width <= 0 || height <= 0) return false;
  const [rx, ry] = [value(element.attributes['rx'] === undefined ? 'ry' : 'rx'), value(element.attributes['ry'] === undefined ? 'rx' : 'ry')];
  if (rx !== ry) throw new Error(`a <rect> with rx ${rx} and ry ${ry}: the book knows only round corners`);
  if (rx > 0) pdf.roundedRect(value('x'), value('y'), width, height, rx);
  else pdf.rect(value('x'), value('y'), width, height);
  return true;
}

function ellipse(pdf: Pdf, x: number, y: number, rx: number, ry: number): boolean {
  if (rx <= 0 || ry <= 0) return false;
  pdf.ellipse(x, y, rx, ry);
  return true;
}

function path(pdf: Pdf, d: string): boolean {
  const segments = readPath(d);
  for (const segment of segments) {
    switch (segment[0]) {
      case 'move': pdf.moveTo(segment[1], segment[2]); break;
      case 'line': pdf.lineTo(segment[1], segment[2]); break;
      case 'curve': pdf.bezierCurveTo(segment[1], segment[2], segment[3], segment[4], segment[5], segment[6]); break;
      case 'close': pdf.closePath(); break;
    }
  }
  return segments.length > 0;
}

function polyline(pdf: Pdf, element: DrawnElement, isClosed: boolean): boolean {
  const numbers = readNumbers(element.attributes['points'] ?? '', 'points');
  if (numbers.length % 2 === 1) throw new Error(`points="${element.attributes['points']}" has an odd count of numbers`);
  for (let at = 0; at < numbers.length; at += 2) {
    const [x, y] = [numbers[at] as number, numbers[at + 1] as number];
    if (at === 0) pdf.moveTo(x, y); else pdf.lineTo(x, y);
  }
  if (isClosed && numbers.length > 0) pdf.closePath();
  return numbers.length > 0;
}

function setColours(pdf: Pdf, style: Style, fill: string | undefined, stroke: string | undefined): void {
  if (fill !== undefined) {
    pdf.fillColor(fill);
    if (style.opacity * style.fillOpacity < 1) pdf.fillOpacity(style.opacity * style.fillOpacity);
  }
  if (stroke === undefined) return;
  pdf.strokeColor(stroke).lineWidth(style.width);
  if (style.opacity * style.strokeOpacity < 1) pdf.strokeOpacity(style.opacity * style.strokeOpacity);
  if (style.cap !== 'butt') pdf.lineCap(style.cap);
  if (style.join !== 'miter') pdf.lineJoin(style.join);
  if (style.miterLimit !== startStyle.miterLimit) pdf.miterLimit(style.miterLimit);
  // the library wants dashes longer than nothing; a dot is one of no length with round ends
  if (style.dashes.some((length) => length > 0)) pdf.dash(style.dashes.map((length) => Math.max(length, 1e-3)) as unknown as number, { phase: style.dashOffset });
}

function letters(pdf: Pdf, element: DrawnElement, style: Style, fonts: Fonts): readonly string[] {
  const stroke = style.width > 0 ? style.stroke : undefined;
  if (element.text === '' || style.size <= 0 || (style.fill === undefined && stroke === undefined)) return [];
  const runs = fonts.runs(element.text, faceOf(style.family, style.weight));
  const drawn = runs.map(({ text, isLacking }) => (isLacking ? boxes(text) : text));
  const widths = runs.map(({ face }, index) => pdf.font(face, style.size).widthOfString(drawn[index] as string));
  const width = widths.reduce((sum, one) => sum + one, 0);
  let x = readNumber(element.attributes['x'] ?? '0', 'x') - (style.anchor === 'end' ? width : style.anchor === 'middle' ? width / 2 : 0);
  const y = readNumber(element.attributes['y'] ?? '0', 'y');
  pdf.save();
  setColours(pdf, style, style.fill, stroke);
  runs.forEach(({ face, text, isLacking }, index) => {
    if (isLacking) pdf.markContent('Span', { actual: text });
    pdf.font(face, style.size).text(drawn[index] as string, x, y, { lineBreak: false, baseline: 'alphabetic', fill: style.fill !== undefined, stroke: stroke !== undefined });
    if (isLacking) pdf.endMarkedContent();
    x += widths[index] as number;
  });
  pdf.restore();
  return runs.filter(({ isLacking }) => isLacking).flatMap(({ text }) => [...text]);
}

/** No font has this letter, and no font would join or reorder it: one box each. */
const boxes = (text: string): string => '\uFFFF'.repeat([...text].length);
