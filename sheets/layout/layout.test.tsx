import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { analysed } from '../../checks/fixtures/analysed.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import type { MassResults } from '../../core/topics/mass/study.ts';
import { area } from '../frame/page-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { arrange } from './arrangement.ts';
import { layoutDrawing, moveInView } from './drawing.tsx';
import { cross, PITCH, spread } from './labels.ts';
import { layoutModel } from './model.ts';
import type { LayoutModel } from './model.ts';
import { clipLine, overlaps, toPaper } from './views.ts';

const exampleText = (name: string): string => examples.find((example) => example.name === name)!.text;
const choices = { units: { system: 'metric' }, state: {} } as const;
const modelOf = (text: string): LayoutModel => layoutModel.model(analysed(text), choices) as LayoutModel;
const van = modelOf(exampleText('bakery-van'));

describe('a drag on the layout', () => {
  it('moves along the axes that the view shows, and only along them', () => {
    expect(moveInView('plan', 20, 10, 5)).toEqual([0.2, -0.1, 0]);
    expect(moveInView('side', 20, 10, 5)).toEqual([0.2, 0, -0.1]);
    expect(moveInView('rear', 5, 10, -4)).toEqual([0, 0.05, 0.02]);
  });
  it('undoes what the drawing does with a place', () => {
    for (const view of ['plan', 'side', 'rear'] as const) {
      const placed = { view, scale: 20, origin: { x: 31, y: 77 } };
      const [a, b] = [toPaper(placed, [1.2, -0.3, 0.4]), toPaper(placed, [1.7, 0.2, 0.9])];
      const moved = moveInView(view, 20, b.x - a.x, b.y - a.y);
      const hidden = { plan: 2, side: 1, rear: 0 }[view];
      [0.5, 0.5, 0.5].forEach((step, axis) => expect(moved[axis]).toBeCloseTo(axis === hidden ? 0 : step, 12));
    }
  });
  it('gives no -0 and refuses a scale that is none', () => {
    expect(moveInView('plan', 20, 0, 0).every((value) => Object.is(value, 0))).toBe(true);
    expect(() => moveInView('plan', 0, 1, 1)).toThrow(RangeError);
  });
});

describe('the layout of the van', () => {
  it('agrees with the analysis', () => {
    const { car, results } = analysed(exampleText('bakery-van'));
    const mass = results.mass as MassResults;
    expect(van.parts.map(({ name }) => name)).toEqual([...car.parts.keys()]);
    expect(van.runs.length + van.notDrawn.length).toBe(car.runs.size);
    expect(van.centre.after?.x).toBe(mass.after?.centreX);
    expect(van.loads.front.after.text).toMatch(/kg$/);
    expect(van.runs.find(({ name }) => name === 'H21')?.points).toHaveLength(4);
    expect(structuredClone(van)).toEqual(van);
  });
  it('gives coordinates to the millimetre, each with its own place in the file', () => {
    expect(van.parts.find(({ name }) => name === 'DU')?.shown.at?.map(({ path, text }) => [path, text])).toEqual([['parts.DU.at.0', '2.69 m'], ['parts.DU.at.1', '20 mm'], ['parts.DU.at.2', '330 mm']]);
    expect(modelOf(exampleText('bakery-van').replace('at: [2690, 20, 330', 'at: [2687, 20, 330')).parts.find(({ name }) => name === 'DU')?.shown.at?.[0]?.text).toBe('2.687 m');
  });
  it('uses a scale of ISO 5455 and stays on the paper', () => {
    const { general } = arrange(van);
    expect(general.scale).toBe(20);
    for (const { box } of [general.plan, general.side, general.rear]) {
      expect(box.x).toBeGreaterThanOrEqual(0);
      expect(box.y).toBeGreaterThanOrEqual(0);
      expect(box.x + box.width).toBeLessThanOrEqual(area.width);
      expect(box.y + box.height).toBeLessThanOrEqual(area.height);
    }
  });
  it('names or numbers every part that has a place, on one page or another', () => {
    const { general, lowVoltage, details } = arrange(van);
    const told = new Set([general.plan, general.side, general.rear, ...(lowVoltage ? [lowVoltage.plan, lowVoltage.side, lowVoltage.rear] : []), ...details.map(({ plan }) => plan)].flatMap(({ content, balloons }) => [...content.names.flatMap(({ names }) => names), ...balloons.map(({ name }) => name)]));
    expect(van.parts.filter(({ name, at }) => at !== undefined && !told.has(name)).map(({ name }) => name)).toEqual([]);
  });
  it('draws each part so that it can be dragged in its view', () => {
    const html = renderToStaticMarkup(<svg>{layoutDrawing.pages(van)[0]!.body}</svg>);
    for (const view of ['plan', 'side', 'rear']) expect(html).toContain(`data-drag="parts.M1" data-view="${view}" data-scale="20"`);
    expect(html.match(/data-view="plan"/g)).toHaveLength(van.parts.filter(({ isBeside }) => !isBeside).length);
  });
});

const example = (name: string): readonly [string, LayoutModel] => [name, modelOf(exampleText(name))];
const head = 'halfshaft: 1\nname: strange\n';
const many = `${head}parts:\n${Array.from({ length: 500 }, (_, index) => `  ${index % 50 === 0 ? `P${'x'.repeat(55)}${index}` : `P${index}`}: { kind: ${index % 3 === 0 ? 'ballast' : 'ground_stud'}, mass: 1 kg, size: 30 x 20 x 20 mm, at: [${(index * 37) % 3000}, ${((index * 53) % 1400) - 700}, ${(index * 71) % 900} mm] }`).join('\n')}\n`;
const builds: readonly (readonly [string, LayoutModel])[] = [
  ['van', van], example('orchard-hauler'), example('two-string-coupe'), ['empty', modelOf(head)], ['nothing', modelOf('')],
  ['one part', modelOf(`${head}parts:\n  B: { kind: ballast, mass: 3 kg, at: [1, 2, 3 m] }\n`)], ['no place', modelOf(`${head}parts:\n  B: { kind: ballast }\n  C: { kind: ground_stud }\nruns:\n  W: { from: B.x, to: C.stud }\n`)],
  ['below the ground and huge', modelOf(`${head}parts:\n  B: { kind: ballast, size: 40 x 9 x 9 m, at: [1, 2, -3 m] }\n`)], ['500 parts', modelOf(many)],
];

describe.each(builds)('the layout of %s', (_, model) => {
  const { general, lowVoltage, details } = arrange(model);
  const pages = layoutDrawing.pages(model);
  const drawn = pages.map(({ body }) => renderToStaticMarkup(<svg>{body}</svg>));
  const plans = [general.plan, ...(lowVoltage ? [lowVoltage.plan] : []), ...details.map(({ plan }) => plan)];

  it('has labels that lie on no other label and leaders that do not cross within a row', () => {
    for (const { content, balloons } of plans) {
      content.names.forEach((a, index) => content.names.slice(index + 1).forEach((b) => expect(overlaps(a.box, b.box), `${a.text} ${b.text}`).toBe(false)));
      balloons.forEach((a, index) => balloons.slice(index + 1).filter((b) => b.row === a.row).forEach((b) => {
        expect(Math.hypot(a.at.x - b.at.x, a.at.y - b.at.y)).toBeGreaterThanOrEqual(PITCH - 1e-6);
        expect(cross(a.at, a.site, b.at, b.site), `${a.name} ${b.name}`).toBe(false);
      }));
    }
  });
  it('keeps all lettering on the paper and in the words of the sheet', () => {
    expect(pages.length).toBeGreaterThan(0);
    for (const [index, page] of pages.entries()) {
      expect(page.text.length).toBeGreaterThan(0);
      for (const { left, right, y, text } of textsOf(drawn[index]!)) {
        expect(left, text).toBeGreaterThanOrEqual(-0.5);
        expect(right, text).toBeLessThanOrEqual(area.width + 0.5);
        expect(y, text).toBeGreaterThan(0);
        expect(y, text).toBeLessThanOrEqual(area.height + 0.5);
      }
    }
    const words = JSON.stringify(pages.map(({ text }) => text));
    for (const { name } of model.parts) expect(words).toContain(name);
  });
  it('draws no number that is none', () => {
    expect(drawn.join('')).not.toMatch(/NaN|Infinity|undefined/);
  });
});

/** Where each line of lettering stands [mm]. */
function textsOf(html: string): { left: number; right: number; y: number; text: string }[] {
  return [...html.matchAll(/<text x="([-\d.]+)" y="([-\d.]+)" font-size="([\d.]+)"([^>]*)>([^<]*)<\/text>/g)].map(([, x, y, size, rest, raw]) => {
    const text = raw!.replaceAll('&amp;', '&').replaceAll('&#x27;', "'").replaceAll('&quot;', '"');
    const width = widthOf(text, Number(size), rest!.includes('font-weight="600"') ? 'strong' : 'sans');
    const left = Number(x) - (rest!.includes('"end"') ? width : rest!.includes('"middle"') ? width / 2 : 0);
    return { left, right: left + width, y: Number(y), text };
  });
}

describe('lines and rows', () => {
  it('cuts a line at the edges of a window', () => {
    const window = { x: 0, y: 0, width: 10, height: 10 };
    expect(clipLine({ x: -5, y: 5 }, { x: 15, y: 5 }, window)).toEqual([{ x: 0, y: 5 }, { x: 10, y: 5 }]);
    expect(clipLine({ x: -5, y: 0 }, { x: 0, y: -5 }, window)).toBeUndefined();
    expect(clipLine({ x: 2, y: 2 }, { x: 2, y: 2 }, window)).toEqual([{ x: 2, y: 2 }, { x: 2, y: 2 }]);
  });
  it('moves balloons apart no further than they must go, and keeps them in the row', () => {
    expect(spread([10, 50], 0, 100)).toEqual([10, 50]);
    expect(spread([20, 20], 0, 100)).toEqual([20 - PITCH / 2, 20 + PITCH / 2]);
    expect(spread([0, 0, 0], 0, 100)).toEqual([0, PITCH, 2 * PITCH]);
    expect(spread([100, 100], 0, 100)).toEqual([100 - PITCH, 100]);
  });
});
