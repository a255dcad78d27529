/** The lettering of the book: IBM Plex, embedded, only the letters that are used. */
import type PDFDocument from 'pdfkit';
import type { Face } from '../sheets/lettering/measure.ts';
import { unpackWoff } from './unpack-woff.ts';

/** The WOFF file of each face. (The PDF library cannot take a subset of a WOFF2 file.) */
export type FontFiles = Readonly<Record<Face, Uint8Array>>;

export interface Run { readonly face: Face; readonly text: string; /** no face has these letters: boxes stand in their place */ readonly isLacking: boolean }

const faces: readonly Face[] = ['sans', 'strong', 'mono'];
/** where a letter is looked for that a face lacks (mono has little Greek) */
const others: Readonly<Record<Face, readonly Face[]>> = { sans: ['mono'], strong: ['sans', 'mono'], mono: ['sans'] };

/** the part of the library's own font that says which letters it has; not in its types */
interface WithGlyphs { readonly _font: { readonly font: { readonly hasGlyphForCodePoint: (point: number) => boolean } } }

export interface Fonts {
  /** a line of text, cut where another face must take over */
  readonly runs: (text: string, face: Face) => readonly Run[];
}

/** Registers the faces with a document under their own names. */
export function registerFonts(document: typeof PDFDocument.prototype, files: FontFiles): Fonts {
  const has: Partial<Record<Face, (point: number) => boolean>> = {};
  for (const face of faces) {
    document.registerFont(face, unpackWoff(files[face]));
    const { font } = (document.font(face) as unknown as WithGlyphs)._font;
    has[face] = (point) => font.hasGlyphForCodePoint(point);
  }
  const found = new Map<string, Face | undefined>();
  const faceFor = (letter: string, face: Face): Face | undefined => {
    const key = `${face}${letter}`;
    if (!found.has(key)) found.set(key, [face, ...others[face]].find((one) => has[one]?.(letter.codePointAt(0) as number)));
    return found.get(key);
  };
  return {
    runs: (text, face) => {
      const runs: { face: Face; text: string; isLacking: boolean }[] = [];
      for (const letter of text) {
        const known = faceFor(letter, face);
        const last = runs.at(-1);
        if (last && last.face === (known ?? face) && last.isLacking === (known === undefined)) last.text += letter;
        else runs.push({ face: known ?? face, text: letter, isLacking: known === undefined });
      }
      return runs;
    },
  };
}

/** @throws Error on a family and weight that the sheets do not have */
export function faceOf(family: string, weight: number): Face {
  if (family === 'IBM Plex Sans' && weight === 400) return 'sans';
  if (family === 'IBM Plex Sans' && weight === 600) return 'strong';
  if (family === 'IBM Plex Mono' && weight === 400) return 'mono';
  throw new Error(`the book has no font ${family} of weight ${weight}`);
}
