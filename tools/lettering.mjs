// Writes the widths of the letters of IBM Plex that sheets measure text with, from the font files of the package.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as fontkit from 'fontkit';
import { root } from './ready.mjs';

const faces = {
  sans: '@ibm/plex-sans/fonts/complete/woff2/IBMPlexSans-Regular.woff2',
  strong: '@ibm/plex-sans/fonts/complete/woff2/IBMPlexSans-SemiBold.woff2',
  mono: '@ibm/plex-mono/fonts/complete/woff2/IBMPlexMono-Regular.woff2',
};
const symbols = '–—‘’“”•…′″⁺⁻₀₁₂₃ₑΩμΔΣαβθρφω≤≥≈≠−→←↑↓√∞⅛¼⅜½⅝¾⅞⅓⅔²³¹°·×÷±µ';
const points = [...new Set([...Array.from({ length: 0x7f - 0x20 }, (_, at) => 0x20 + at), ...Array.from({ length: 0x180 - 0xa0 }, (_, at) => 0xa0 + at), ...[...symbols].map((letter) => letter.codePointAt(0))])];
const lines = Object.entries(faces).map(([face, file]) => {
  const font = fontkit.openSync(join(root, 'node_modules', file));
  const widths = points.filter((point) => font.hasGlyphForCodePoint(point)).map((point) => [point, Math.round((font.glyphForCodePoint(point).advanceWidth / font.unitsPerEm) * 1000)]);
  return `  ${face}: { ${widths.map(([point, width]) => `${point}: ${width}`).join(', ')} },`;
});
writeFileSync(join(root, 'sheets/lettering/plex-widths.ts'), `/**
 * Widths of the letters of IBM Plex by code point [1/1000 of the letter height], written by \`tools/lettering.mjs\`
 * from the font files of the packages. Checked: sheets/lettering/measure.test.ts
 */
export type Face = 'sans' | 'strong' | 'mono';

export const plexWidths: Readonly<Record<Face, Readonly<Record<number, number>>>> = {
${lines.join('\n')}
};
`);
console.log('sheets/lettering/plex-widths.ts');
