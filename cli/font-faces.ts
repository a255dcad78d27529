/** The lettering of the sheets as CSS with the fonts inside, for SVG files that must look the same everywhere. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/** Files of the fonts: packages of this program, each as `woff2` (shorter) and `woff` (read by more programs). */
const fontFiles = {
  sans: '@ibm/plex-sans/fonts/complete/woff2/IBMPlexSans-Regular.woff2',
  strong: '@ibm/plex-sans/fonts/complete/woff2/IBMPlexSans-SemiBold.woff2',
  mono: '@ibm/plex-mono/fonts/complete/woff2/IBMPlexMono-Regular.woff2',
} as const;

export function readFont(face: keyof typeof fontFiles, format: 'woff2' | 'woff' = 'woff2'): Buffer {
  return readFileSync(createRequire(import.meta.url).resolve(fontFiles[face].replaceAll('woff2', format)));
}

export function fontFaces(): string {
  const rule = (family: string, weight: number, face: keyof typeof fontFiles): string =>
    `@font-face{font-family:'${family}';font-weight:${weight};src:url(data:font/woff2;base64,${readFont(face).toString('base64')}) format('woff2')}`;
  return [rule('IBM Plex Sans', 400, 'sans'), rule('IBM Plex Sans', 600, 'strong'), rule('IBM Plex Mono', 400, 'mono')].join('');
}
