/** How wide text is, and where to break it: the same on every machine, because the widths come with the program. */
import { plexWidths } from './plex-widths.ts';
import type { Face } from './plex-widths.ts';

export type { Face } from './plex-widths.ts';

/** a letter that the font lacks is drawn by another font; most are no wider than this */
const unknown: Readonly<Record<Face, number>> = { sans: 700, strong: 700, mono: 600 };

/** Width of a line of text in the unit of `size` (font size). */
export function widthOf(text: string, size: number, face: Face = 'sans'): number {
  let sum = 0;
  for (const letter of text) sum += plexWidths[face][letter.codePointAt(0) as number] ?? unknown[face];
  return (sum * size) / 1000;
}

/**
 * Breaks text into lines no wider than `width`. A word that is wider than a line is cut where it must be.
 * Shape: at least one line; joining the lines with spaces gives the words back
 */
export function wrap(text: string, width: number, size: number, face: Face = 'sans'): string[] {
  const lines: string[] = [];
  let line = '';
  const push = (word: string): void => {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthOf(longer, size, face) <= width) { line = longer; return; }
    if (line !== '') lines.push(line);
    line = word;
    while (widthOf(line, size, face) > width && line.length > 1) {
      let end = line.length - 1;
      while (end > 1 && widthOf(line.slice(0, end), size, face) > width) end--;
      lines.push(line.slice(0, end));
      line = line.slice(end);
    }
  };
  for (const word of text.split(/\s+/).filter((piece) => piece !== '')) push(word);
  if (line !== '' || lines.length === 0) lines.push(line);
  return lines;
}

/** Text that fits `width`, its end replaced by … where it must be. Only for what stands in full elsewhere on the same sheet. */
export function shorten(text: string, width: number, size: number, face: Face = 'sans'): string {
  if (widthOf(text, size, face) <= width) return text;
  let end = text.length - 1;
  while (end > 0 && widthOf(`${text.slice(0, end)}…`, size, face) > width) end--;
  return `${text.slice(0, end).trimEnd()}…`;
}
