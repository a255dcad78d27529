/** What the sheets may draw comes onto paper where it belongs; what they may not draw is named. */
import fc from 'fast-check';
import { createElement as draw } from 'react';
import type { ReactNode } from 'react';
import { describe, expect, it } from 'vitest';
import { arcToCurves } from '../../book/arc-to-curves.ts';
import { readDrawing } from '../../book/drawn-element.ts';
import { readPath } from '../../book/path-data.ts';
import { readTransforms } from '../../book/transform.ts';
import { area, border } from '../../sheets/frame/page-size.ts';
import { openPdf, pathsOf, textsOf } from './read-pdf.ts';
import type { Box, PaintedPath, PlacedText } from './read-pdf.ts';
import { bookOfElements } from './sample-book.ts';

const ink = '#22252b';
const pageOf = async (...elements: readonly ReactNode[]): Promise<{ readonly texts: PlacedText[]; readonly paths: PaintedPath[] }> => {
  const page = await (await openPdf((await bookOfElements(...elements)).bytes)).getPage(1);
  const inArea = <B extends Box>({ left, right, top, bottom, ...rest }: B): B => ({ ...rest, left: left - area.x, right: right - area.x, top: top - area.y, bottom: bottom - area.y }) as unknown as B;
  return { texts: (await textsOf(page)).map(inArea), paths: (await pathsOf(page)).map(inArea) };
};
const hasBox = (paths: readonly Box[], left: number, top: number, right: number, bottom: number): void => {
  expect(paths.some((box) => Math.max(Math.abs(box.left - left), Math.abs(box.top - top), Math.abs(box.right - right), Math.abs(box.bottom - bottom)) < 0.02), `a shape in ${left} ${top} ${right} ${bottom}`).toBe(true);
};

describe('shapes', () => {
  it('stand where they were drawn [mm]', async () => {
    const { paths } = await pageOf(
      draw('rect', { x: 10, y: 20, width: 30, height: 5, fill: ink }), draw('rect', { x: 10, y: 30, width: 30, height: 5, rx: 2, fill: ink }),
      draw('line', { x1: 50, y1: 20, x2: 60, y2: 28, stroke: ink }), draw('circle', { cx: 80, cy: 20, r: 4, fill: ink }), draw('ellipse', { cx: 100, cy: 20, rx: 6, ry: 3, stroke: ink }),
      draw('polyline', { points: '110,20 115 25,120,18', stroke: ink, fill: 'none' }), draw('polygon', { points: '130 20 135 25 140 18', fill: ink }), draw('path', { d: 'M150 20h10v5l-3 4z', fill: ink, fillRule: 'evenodd' }),
    );
    hasBox(paths, 10, 20, 40, 25);
    hasBox(paths, 10, 30, 40, 35);
    hasBox(paths, 50, 20, 60, 28);
    hasBox(paths, 76, 16, 84, 24);
    hasBox(paths, 94, 17, 106, 23);
    hasBox(paths, 110, 18, 120, 25);
    hasBox(paths, 130, 18, 140, 25);
    hasBox(paths, 150, 20, 160, 29);
  });
  it('follow transforms, outer before inner, and let go of them', async () => {
    const { paths } = await pageOf(
      draw('g', { transform: 'translate(100 50)' }, draw('g', { transform: 'rotate(90) scale(2 3)' }, draw('rect', { x: 1, y: 2, width: 4, height: 5, fill: ink })), draw('rect', { x: 0, y: 0, width: 7, height: 8, fill: ink, transform: 'rotate(180, 7, 8)' })),
      draw('rect', { x: 1, y: 2, width: 4, height: 5, fill: ink }),
    );
    // (1..5, 2..7) scaled to (2..10, 6..21), turned clockwise to (-21..-6, 2..10)
    hasBox(paths, 79, 52, 94, 60);
    hasBox(paths, 107, 58, 114, 66);
    hasBox(paths, 1, 2, 5, 7);
  });
  it('draw nothing where SVG draws nothing', async () => {
    const count = async (...elements: readonly ReactNode[]): Promise<number> => (await pageOf(...elements)).paths.length;
    const none = await count();
    expect(await count(draw('rect', { width: 0, height: 4, fill: ink }), draw('circle', { r: 0, fill: ink }), draw('rect', { width: 4, height: 4, fill: 'none' }), draw('polyline', { points: '', stroke: ink }), draw('line', { x2: 4, fill: ink }))).toBe(none);
    expect(await count(draw('rect', { width: 4, height: 4, fill: ink }))).toBe(none + 1);
  });
});

describe('pen and colours', () => {
  const painted = async (element: ReactNode): Promise<PaintedPath> => {
    const { paths } = await pageOf(draw('g', { stroke: '#b84a00', strokeWidth: 0.35, fill: 'none' }, element));
    return paths.find(({ left, top, right }) => Math.abs(left - 11.5) + Math.abs(top - 13.5) + Math.abs(right - 14.5) < 0.05) as PaintedPath;
  };
  const rect = (attributes: object): ReactNode => draw('rect', { x: 11.5, y: 13.5, width: 3, height: 4, ...attributes });
  it('are inherited', async () => expect(await painted(rect({}))).toMatchObject({ does: 'stroke', ink: { stroke: '#b84a00', width: 0.35 } }));
  it('are an element\'s own where it has them', async () => {
    expect(await painted(rect({ fill: '#0b6b63', stroke: '#3f5b73', strokeWidth: 0.7 }))).toMatchObject({ does: 'fillStroke', ink: { fill: '#0b6b63', stroke: '#3f5b73', width: 0.7 } });
    expect(await painted(rect({ fill: '#0b6b63', stroke: 'none' }))).toMatchObject({ does: 'fill', ink: { fill: '#0b6b63' } });
    expect(await painted(rect({ fill: '#0b6b63', strokeWidth: 0 }))).toMatchObject({ does: 'fill' });
    expect(await painted(rect({ fill: '#0b6b63', fillRule: 'evenodd', stroke: 'none' }))).toMatchObject({ does: 'eoFill' });
  });
  it('take dashes, ends, corners and see-through', async () => {
    expect((await painted(rect({ strokeDasharray: '2 1', strokeDashoffset: 0.5, strokeLinecap: 'round', strokeLinejoin: 'bevel', strokeMiterlimit: 7 }))).ink).toMatchObject({ dash: [[2, 1], 0.5], cap: 1, join: 2, miter: 7 });
    expect((await painted(draw('g', { strokeDasharray: '2 1', strokeLinecap: 'square', strokeLinejoin: 'round', opacity: 0.5 }, rect({ strokeDasharray: 'none', strokeOpacity: 0.5, fill: '#0b6b63' })))).ink).toMatchObject({ cap: 2, join: 1, fillAlpha: 0.5, strokeAlpha: 0.25 });
    expect((await painted(draw('g', { strokeDasharray: '2 1' }, rect({ strokeDasharray: 'none' })))).ink.dash).toBeUndefined();
    expect((await painted(rect({}))).ink.strokeAlpha).toBeUndefined();
    // SVG cuts a corner off at another sharpness than PDF does by itself
    expect((await painted(rect({}))).ink.miter).toBe(4);
  });
});

describe('text', () => {
  const text = (attributes: object, letters: string): ReactNode => draw('text', { fontFamily: 'IBM Plex Sans', fontSize: 5, fill: ink, ...attributes }, letters);
  it('is real text with the right letters in every face', async () => {
    const letters = 'fifty 5 Ω ±3 µF ≤ 12 × 3 mm² −10 °C ½ in — “é” Δ & <b>';
    const { texts } = await pageOf(text({ x: 5, y: 20 }, letters), text({ x: 5, y: 30, fontWeight: 600 }, letters), text({ x: 5, y: 40, fontFamily: 'IBM Plex Mono' }, letters));
    const at = (y: number): string => texts.filter(({ top, bottom }) => top < y && bottom > y).map((one) => one.text).join('').replaceAll(' ', '');
    for (const y of [19, 29, 39]) expect(at(y)).toContain(letters.replaceAll(' ', ''));
  });
  it('starts, ends or is centred where it should', async () => {
    const { texts } = await pageOf(text({ x: 100, y: 20 }, 'at start'), text({ x: 100, y: 30, textAnchor: 'end' }, 'at end'), draw('g', { textAnchor: 'middle' }, text({ x: 100, y: 40 }, 'in middle')));
    const found = (letters: string): PlacedText => texts.find((one) => one.text === letters) as PlacedText;
    expect(found('at start').left).toBeCloseTo(100, 1);
    expect(found('at end').right).toBeCloseTo(100, 1);
    expect((found('in middle').left + found('in middle').right) / 2).toBeCloseTo(100, 1);
  });
  it('turns', async () => {
    const { texts } = await pageOf(text({ x: 100, y: 60, transform: 'rotate(-90 100 60)' }, 'up the side'));
    const { left, right, top, bottom } = texts.find((one) => one.text === 'up the side') as PlacedText;
    expect(bottom).toBeCloseTo(60, 1);
    expect(bottom - top).toBeGreaterThan(20);
    expect(right).toBeGreaterThan(100);
    expect(right - left).toBeLessThan(5.5);
  });
  it('says which letters no font has', async () => {
    expect((await bookOfElements(text({ x: 5, y: 20 }, 'bus 漢 bar'))).lacking).toEqual(['漢']);
    expect((await bookOfElements(text({ x: 5, y: 20, fontFamily: 'IBM Plex Mono' }, '5 Ω'))).lacking).toEqual([]);
  });
  it('takes any letters that a name can hold', async () => {
    await fc.assert(fc.asyncProperty(fc.string({ unit: 'binary', maxLength: 12 }), fc.string({ unit: 'grapheme', maxLength: 12 }), async (one, other) => {
      const pdf = await openPdf((await bookOfElements(text({ x: 5, y: 20 }, one), text({ x: 5, y: 30, fontFamily: 'IBM Plex Mono' }, other))).bytes);
      expect(pdf.numPages).toBe(1);
    }), { numRuns: 25 });
  });
});

describe('what the book cannot paint is named', () => {
  const svg = (inside: string): (() => unknown) => () => readDrawing(`<svg>${inside}</svg>`);
  it('elements', () => {
    expect(svg('<g><use href="#a"/></g>')).toThrow('<use>');
    expect(svg('<text>a<tspan>b</tspan></text>')).toThrow('<tspan>');
    expect(svg('<rect><title>a</title></rect>')).toThrow('<title>');
    expect(svg('<g>loose</g>')).toThrow('loose');
  });
  it('attributes', () => {
    expect(svg('<rect style="fill:red"/>')).toThrow('style on <rect>');
    expect(svg('<g class="a"/>')).toThrow('class on <g>');
    expect(svg('<text dominant-baseline="middle">a</text>')).toThrow('dominant-baseline');
    expect(svg('<circle x="3"/>')).toThrow('x on <circle>');
    expect(svg('<g data-key="a" aria-label="b" role="button" tabindex="-1" transform="scale(2)"/>')).not.toThrow();
  });
  it.each([
    ['transform skewX', draw('g', { transform: 'skewX(3)' })],
    ['rotate(1 2)', draw('g', { transform: 'rotate(1 2)' })],
    ['fill="red"', draw('rect', { fill: 'red' })],
    ['stroke-linecap="flat"', draw('g', { strokeLinecap: 'flat' as 'butt' })],
    ['weight 700', draw('text', { fontWeight: 700 }, 'a')],
    ['Helvetica', draw('text', { fontFamily: 'Helvetica' }, 'a')],
    ['width="NaN"', draw('rect', { width: 'NaN', height: 3 })],
    ['font-size="3mm"', draw('text', { fontSize: '3mm' }, 'a')],
    ['odd count', draw('polyline', { points: '1 2 3' })],
    ['rx 1 and ry 2', draw('rect', { width: 9, height: 9, rx: 1, ry: 2 })],
    ['cannot be read at', draw('path', { d: 'M0 0 L5 undefined' })],
  ])('%s', async (message, element) => { await expect(bookOfElements(element)).rejects.toThrow(message); });
});

describe('a path', () => {
  const bare = (d: string): string => JSON.stringify(readPath(d), (_, value: unknown) => (typeof value === 'number' ? Math.round(value * 1e6) / 1e6 : value));
  it('reads relative commands as absolute ones', () => {
    expect(bare('m10 10l5 5h5v-5c1 1 2 2 3 0s2-2 3 0q1 2 3 0t3 0a2 3 10 0 1 4 0zm1 1l1 1'))
      .toBe(bare('M10 10 L15 15 H20 V10 C21 11 22 12 23 10 S25 8 26 10 Q27 12 29 10 T32 10 A2 3 10 0 1 36 10 Z M11 11 L12 12'));
  });
  it('reads numbers without spaces, repeated commands and flags run together', () => {
    expect(bare('M1-2.5.5,3 4-5e-1')).toBe(bare('M1 -2.5 L0.5 3 L4 -0.5'));
    expect(bare('M0 0a2 2 0 0110 0')).toBe(bare('M0 0 A2 2 0 0 1 10 0'));
  });
  it('makes of a quadratic curve the same cubic curve', () => {
    const [, curve] = readPath('M0 0 Q10 20 30 0');
    const [, x1, y1, x2, y2, x3, y3] = curve as readonly ['curve', number, number, number, number, number, number];
    for (const t of [0.2, 0.5, 0.9]) {
      const s = 1 - t;
      expect(3 * s * s * t * x1 + 3 * s * t * t * x2 + t ** 3 * x3).toBeCloseTo(2 * s * t * 10 + t * t * 30, 9);
      expect(3 * s * s * t * y1 + 3 * s * t * t * y2 + t ** 3 * y3).toBeCloseTo(2 * s * t * 20, 9);
    }
  });
  it.each(['L1 1', 'M1', 'M1 1 X2', 'M1 1 L2 NaN', 'M0 0 A1 1 0 2 0 3 3', 'M0 0 Z 3 3', '1 1'])('%s is none', (d) => expect(() => readPath(d)).toThrow('cannot be read'));
  it('turns arcs into curves on the ellipse that is asked for, the long way round or the short', () => {
    const size = fc.double({ min: 5, max: 50, noNaN: true });
    fc.assert(fc.property(size, size, fc.double({ min: -180, max: 180, noNaN: true }), fc.double({ min: 0, max: 6.28, noNaN: true }), fc.double({ min: 0.2, max: 6, noNaN: true }).filter((sweep) => Math.abs(sweep - Math.PI) > 0.05), fc.boolean(), (rx, ry, turn, from, sweep, clockwise) => {
      const [cos, sin] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
      const on = (angle: number): readonly [number, number] => [7 + cos * rx * Math.cos(angle) - sin * ry * Math.sin(angle), -4 + sin * rx * Math.cos(angle) + cos * ry * Math.sin(angle)];
      const to = from + (clockwise ? sweep : -sweep);
      const curves = arcToCurves(on(from), { rx, ry, turn, large: sweep > Math.PI, clockwise }, on(to)) ?? [];
      let [x, y] = on(from);
      let length = 0;
      for (const [x1, y1, x2, y2, x3, y3] of curves) {
        for (let t = 0.1; t < 1.05; t += 0.1) {
          const s = 1 - t;
          const [px, py] = [s ** 3 * x + 3 * s * s * t * x1 + 3 * s * t * t * x2 + t ** 3 * x3, s ** 3 * y + 3 * s * s * t * y1 + 3 * s * t * t * y2 + t ** 3 * y3];
          const [u, v] = [cos * (px - 7) + sin * (py + 4), -sin * (px - 7) + cos * (py + 4)];
          expect(Math.hypot(u / rx, v / ry)).toBeCloseTo(1, 3);
        }
        const [a, b] = [[x, y], [x3, y3]].map(([px = 0, py = 0]) => Math.atan2((-sin * (px - 7) + cos * (py + 4)) / ry, (cos * (px - 7) + sin * (py + 4)) / rx)) as [number, number];
        length += ((b - a) * (clockwise ? 1 : -1) + 4 * Math.PI) % (2 * Math.PI);
        [x, y] = [x3, y3];
      }
      expect(length).toBeCloseTo(sweep, 4);
    }));
  });
  it('grows radii that cannot reach, and draws a straight line for a radius of 0', () => {
    expect(bare('M0 0 A1 1 0 0 1 10 0')).toBe(bare('M0 0 A5 5 0 0 1 10 0'));
    expect(bare('M0 0 A0 4 0 0 1 10 0')).toBe(bare('M0 0 L10 0'));
  });
});

it('a turn about a point leaves the point', () => {
  const [[a, b, c, d, e, f]] = readTransforms('rotate(37 5 8)') as [readonly [number, number, number, number, number, number]];
  expect([a * 5 + c * 8 + e, b * 5 + d * 8 + f].map((value) => Math.round(value * 1e9) / 1e9)).toEqual([5, 8]);
});

it('the border of the frame stands where ISO 5457 wants it', async () => {
  const page = await (await openPdf((await bookOfElements()).bytes)).getPage(1);
  hasBox(await pathsOf(page), border.left, border.top, border.right, border.bottom);
});
