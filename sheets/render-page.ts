/** A drawing as the text of an SVG file. */
import type { ReactElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';

/** @param fontFaces  CSS of `@font-face` rules, so that the file carries its lettering; absent: the viewer's own IBM Plex or a fallback */
export function renderPage(page: ReactElement, fontFaces?: string): string {
  const svg = renderToStaticMarkup(page);
  const end = svg.indexOf('>') + 1;
  return `${svg.slice(0, end)}${fontFaces === undefined ? '' : `<style>${fontFaces}</style>`}${svg.slice(end)}\n`;
}
