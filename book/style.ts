/** The look of an element: its own attributes, and what it inherits. */
import type { DrawnElement } from './drawn-element.ts';
import { readNumber, readNumbers } from './read-number.ts';

export interface Style {
  /** `#rrggbb`; undefined paints nothing */
  readonly fill: string | undefined; readonly stroke: string | undefined;
  readonly fillOpacity: number; readonly strokeOpacity: number;
  /** product of the opacities from the page down; a group's parts that overlap show it, unlike on the screen */
  readonly opacity: number;
  readonly evenOdd: boolean;
  readonly width: number;
  readonly dashes: readonly number[]; readonly dashOffset: number;
  readonly cap: 'butt' | 'round' | 'square'; readonly join: 'miter' | 'round' | 'bevel'; readonly miterLimit: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly family: string; readonly weight: number; readonly size: number;
}

/** What SVG starts from. */
export const startStyle: Style = {
  fill: '#000000', stroke: undefined, fillOpacity: 1, strokeOpacity: 1, opacity: 1, evenOdd: false, width: 1, dashes: [], dashOffset: 0,
  cap: 'butt', join: 'miter', miterLimit: 4, anchor: 'start', family: 'IBM Plex Sans', weight: 400, size: 16,
};

/** @throws Error on a value that the painter does not know */
export function styleOf({ attributes }: DrawnElement, from: Style): Style {
  const read = <T>(name: string, inherited: T, value: (text: string) => T): T => {
    const text = attributes[name];
    return text === undefined ? inherited : value(text);
  };
  const number = (name: string, inherited: number): number => read(name, inherited, (text) => readNumber(text, name));
  const choice = <T extends string>(name: string, inherited: T, choices: readonly T[]): T => read(name, inherited, (text) => {
    const found = choices.find((one) => one === text);
    if (found === undefined) throw new Error(`sheets may not use ${name}="${text}": the book knows ${choices.join(', ')}`);
    return found;
  });
  return {
    fill: read('fill', from.fill, (text) => colour(text, 'fill')), stroke: read('stroke', from.stroke, (text) => colour(text, 'stroke')),
    fillOpacity: number('fill-opacity', from.fillOpacity), strokeOpacity: number('stroke-opacity', from.strokeOpacity), opacity: from.opacity * number('opacity', 1),
    evenOdd: choice('fill-rule', from.evenOdd ? 'evenodd' : 'nonzero', ['nonzero', 'evenodd']) === 'evenodd',
    width: number('stroke-width', from.width),
    dashes: read('stroke-dasharray', from.dashes, (text) => (text === 'none' ? [] : readNumbers(text, 'stroke-dasharray'))), dashOffset: number('stroke-dashoffset', from.dashOffset),
    cap: choice('stroke-linecap', from.cap, ['butt', 'round', 'square']), join: choice('stroke-linejoin', from.join, ['miter', 'round', 'bevel']), miterLimit: number('stroke-miterlimit', from.miterLimit),
    anchor: choice('text-anchor', from.anchor, ['start', 'middle', 'end']),
    family: read('font-family', from.family, (text) => text), weight: number('font-weight', from.weight), size: number('font-size', from.size),
  };
}

function colour(text: string, what: string): string | undefined {
  if (text === 'none' || text === 'transparent') return undefined;
  if (!/^#[0-9a-f]{6}$/i.test(text)) throw new Error(`${what}="${text}" is no colour of the palette (#rrggbb)`);
  return text;
}
