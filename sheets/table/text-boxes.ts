/** For tests: where the letters of a drawn page lie, so that one can ask whether any are cut or lie on each other. */
import type { ReactNode } from 'react';
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { DrawingProvider } from '../drawing-context.ts';
import { area } from '../frame/page-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { paper } from '../palette.ts';
import { overlap } from '../plot/place-labels.ts';
import type { Box } from '../plot/place-labels.ts';

export interface TextBox extends Box { readonly text: string }

/** Range: drawings without transforms other than a turn of a text, which is passed over. */
export function textBoxesOf(body: ReactNode): readonly TextBox[] {
  const markup = renderToStaticMarkup(createElement(DrawingProvider, { value: { palette: paper, live: undefined } }, createElement('svg', undefined, body)));
  if (/<g[^>]*transform/.test(markup)) throw new RangeError('this drawing moves groups: their texts are not where they say');
  return [...markup.matchAll(/<text ([^>]*)>([^<]*)<\/text>/g)].flatMap(([, attributes = '', raw = '']): TextBox[] => {
    const of = (name: string): string | undefined => new RegExp(`\\b${name}="([^"]*)"`).exec(attributes)?.[1];
    if (of('transform') !== undefined) return [];
    const text = raw.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&#x27;', '\'').replaceAll('&amp;', '&');
    if (text.trim() === '') return [];
    const size = Number(of('font-size'));
    const width = widthOf(text, size, of('font-weight') === '600' ? 'strong' : of('font-family')?.includes('Mono') ? 'mono' : 'sans');
    const [x, y, anchor] = [Number(of('x')), Number(of('y')), of('text-anchor')];
    return [{ text, x: anchor === 'end' ? x - width : anchor === 'middle' ? x - width / 2 : x, y: y - size * 0.72, width, height: size * 0.9 }];
  });
}

/** Texts that leave their field, and pairs that lie on each other, in words; empty: all is well. @param field  absent: the sheet's area */
export function lettersInTrouble(body: ReactNode, field: Pick<Box, 'x' | 'y' | 'width' | 'height'> = { x: 0, y: 0, width: area.width, height: area.height }): readonly string[] {
  const boxes = textBoxesOf(body);
  const cut = boxes.filter(({ x, y, width, height }) => !(x >= field.x - 0.01 && y >= field.y - 0.01 && x + width <= field.x + field.width + 0.01 && y + height <= field.y + field.height + 0.01)).map(({ text, x, y }) => `cut: ${text} at ${x.toFixed(1)} ${y.toFixed(1)}`);
  const sorted = [...boxes].sort((a, b) => a.y - b.y);
  const meeting = sorted.flatMap((box, index) => {
    const found: string[] = [];
    for (let k = index + 1; k < sorted.length && sorted[k]!.y < box.y + box.height; k++) if (overlap(box, sorted[k]!) > 0.05) found.push(`on each other: ${box.text} | ${sorted[k]!.text}`);
    return found;
  });
  return [...cut, ...meeting];
}
