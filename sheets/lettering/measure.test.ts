import { createRequire } from 'node:module';
import fc from 'fast-check';
import * as fontkit from 'fontkit';
import { describe, expect, it } from 'vitest';
import { shorten, widthOf, wrap } from './measure.ts';
import type { Face } from './measure.ts';

const files: Record<Face, string> = {
  sans: '@ibm/plex-sans/fonts/complete/woff2/IBMPlexSans-Regular.woff2',
  strong: '@ibm/plex-sans/fonts/complete/woff2/IBMPlexSans-SemiBold.woff2',
  mono: '@ibm/plex-mono/fonts/complete/woff2/IBMPlexMono-Regular.woff2',
};

describe('the width of text', () => {
  it.each(Object.keys(files) as Face[])('is that of the letters in the font file: %s', (face) => {
    const opened = fontkit.openSync(createRequire(import.meta.url).resolve(files[face]));
    if (!('layout' in opened)) throw new Error('a collection of fonts');
    for (const text of ['12.4 kg ±0.1 measured', 'W9: K_pos.out – INV.pos, 50 mm²', '0.8 mΩ at −10 °C ≤ 3 × 10', 'Æther, naïve façade, ½ in']) {
      // kerning is left out: sheets add the widths of the letters
      const sum = [...text].reduce((total, letter) => total + opened.glyphForCodePoint(letter.codePointAt(0) as number).advanceWidth, 0);
      expect(widthOf(text, 10, face)).toBeCloseTo((sum / opened.unitsPerEm) * 10, 1);
      // …and a line with kerning is never wider by more than a hair
      expect(opened.layout(text).advanceWidth / opened.unitsPerEm).toBeLessThan(widthOf(text, 1, face) * 1.01);
    }
  });
});

describe('breaking text', () => {
  const texts = fc.stringMatching(/^[a-zA-Z0-9 .,±²Ω-]{0,120}$/);
  it('loses nothing but spaces, and no line is too wide', () => {
    fc.assert(fc.property(texts, fc.integer({ min: 8, max: 80 }), (text, width) => {
      const lines = wrap(text, width, 3.5);
      expect(lines.join('').replace(/ /g, '')).toBe(text.replace(/\s/g, ''));
      for (const line of lines) expect(line.length === 1 || widthOf(line, 3.5) <= width).toBe(true);
    }));
  });
  it('keeps words whole where they fit', () => expect(wrap('main fuse of the pack', 25, 3.5)).toEqual(['main fuse of', 'the pack']));
  it('marks what it leaves out', () => {
    fc.assert(fc.property(texts, (text) => {
      const short = shorten(text, 30, 3.5);
      expect(short === text || (short.endsWith('…') && widthOf(short, 3.5) <= 30)).toBe(true);
    }));
  });
});
