/** Both electrical sheets on the demos and on strange builds: everything drawn once, nothing over another thing, the numbers those of the analysis. */
import { readFileSync } from 'node:fs';
import { renderToStaticMarkup } from 'react-dom/server';
import { beforeAll, describe, expect, it } from 'vitest';
import { analysed } from '../../checks/fixtures/analysed.ts';
import type { Analysis } from '../../core/analyse.ts';
import type { HighVoltageResults } from '../../core/topics/high-voltage/study.ts';
import { drawPage } from '../draw-page.tsx';
import { area } from '../frame/page-size.ts';
import { highVoltageDrawing } from '../high-voltage/drawing.tsx';
import { highVoltageModel } from '../high-voltage/model.ts';
import type { DiagramModel } from './diagram-model.ts';
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { lowVoltageDrawing } from '../low-voltage/drawing.tsx';
import { lowVoltageModel } from '../low-voltage/model.ts';
import { paper } from '../palette.ts';
import type { Choices, SheetDrawing } from '../sheet.ts';
import { plainText } from '../text-block.ts';
import { lineText } from './make-mark.ts';

const sheets = { 'high-voltage': [highVoltageModel, highVoltageDrawing], 'low-voltage': [lowVoltageModel, lowVoltageDrawing] } as const;
type Name = keyof typeof sheets;
type Model = DiagramModel;
const demo = (name: string): string => readFileSync(new URL(`../../examples/${name}/build.yaml`, import.meta.url), 'utf8');
const metric = (state: Choices['state'] = {}): Choices => ({ units: { system: 'metric' }, state });
const modelOf = async (name: Name, analysis: Analysis, choices: Choices): Promise<Model> => sheets[name][0].model(analysis, choices);
const drawn = (name: Name, model: Model): string => {
  const drawing = sheets[name][1] as SheetDrawing<unknown>;
  const pages = drawing.pages(model);
  return pages.map((_, index) => renderToStaticMarkup(drawPage(drawing, pages, index, { build: 'b', revision: 'r', date: undefined, note: undefined, palette: paper }))).join('\n');
};
const marksOf = (model: Model) => model.pages.flatMap((page, at) => page.blocks.flatMap((block) => block.marks.map((one) => ({ ...one, page: at, block }))));
const allLines = (model: Model, part: string): string[] => marksOf(model).flatMap(({ mark }) => (mark.part === part ? mark.lines.map(lineText) : mark.slots.flatMap((slot) => (slot.parts.includes(part) ? slot.lines.map(lineText) : []))));

interface Box { readonly what: string; readonly x: number; readonly y: number; readonly width: number; readonly height: number }
const overlap = (a: Box, b: Box): boolean => a.x + 0.05 < b.x + b.width && b.x + 0.05 < a.x + a.width && a.y + 0.05 < b.y + b.height && b.y + 0.05 < a.y + a.height;

/** Every mark and every label of a run as a box on its page. */
function boxesOf(model: Model): readonly (readonly Box[])[] {
  return model.pages.map((page) => page.blocks.flatMap((block) => [
    ...block.marks.map(({ mark, x, y }): Box => ({ what: mark.id, x: block.x + x, y: block.y + y, width: mark.width, height: mark.height })),
    ...block.wires.map(({ run, label, text }): Box => { const width = Math.max(widthOf(run, letterSize.small, 'strong'), widthOf(lineText(text.size), letterSize.small)); return { what: `run ${run}`, x: block.x + label.x - width / 2, y: block.y + label.y - 3.4, width, height: 7.2 }; }),
  ]));
}

const demos = ['bakery-van', 'two-string-coupe', 'orchard-hauler'] as const;
const analyses = new Map<string, Analysis>();
const models = new Map<string, Model>();
beforeAll(async () => {
  for (const name of demos) {
    const analysis = analysed(demo(name));
    analyses.set(name, analysis);
    for (const sheet of Object.keys(sheets) as Name[]) models.set(`${sheet} ${name}`, await modelOf(sheet, analysis, metric({ mode: 'drive' })));
  }
}, 240_000);

describe.each(demos.flatMap((name) => (Object.keys(sheets) as Name[]).map((sheet) => ({ name, sheet }))))('$sheet of $name', ({ name, sheet }) => {
  const model = (): Model => models.get(`${sheet} ${name}`)!;
  const analysis = (): Analysis => analyses.get(name)!;

  it('keeps everything on the paper and nothing over another thing', () => {
    for (const boxes of boxesOf(model())) {
      boxes.forEach((box, index) => {
        expect(box.x >= -0.01 && box.y >= 0 && box.x + box.width <= area.width + 0.01 && box.y + box.height <= area.height + 0.01, `${box.what} lies on the paper`).toBe(true);
        for (const other of boxes.slice(index + 1)) expect(overlap(box, other), `${box.what} and ${other.what}`).toBe(false);
      });
    }
  });

  it('gives every line of lettering room in its mark', () => {
    for (const { mark, references } of marksOf(model())) for (const text of [...mark.lines.map(lineText), ...references]) expect(widthOf(text, letterSize.small), `${mark.id}: ${text}`).toBeLessThanOrEqual(mark.width + 0.01);
  });

  it('draws every run of its side once', () => {
    const own = model().pages.flatMap((page) => page.blocks.flatMap((block) => [
      ...block.wires.map(({ run }) => run), ...block.marks.flatMap(({ mark }) => mark.grounds.map(({ run }) => run)),
    ]));
    expect(new Set(own).size).toBe(own.length);
    const inColumns = new Set(marksOf(model()).flatMap(({ mark }) => mark.slots.flatMap((slot) => [...slot.inside.map(({ text }) => text), ...slot.below.map(({ run }) => run)])));
    const high = [...analysis().car.runs.values()].filter(({ carries }) => carries === 'high_voltage').map(({ name: run }) => run);
    if (sheet === 'high-voltage') for (const run of high) expect(own.includes(run) || inColumns.has(run), run).toBe(true);
    else {
      const other = new Set(marksOf(models.get(`high-voltage ${name}`)!).flatMap(({ mark, block }) => [...mark.grounds.map(({ run }) => run), ...block.wires.map(({ run }) => run)]));
      for (const { name: run, carries } of analysis().car.runs.values()) if (carries !== 'high_voltage') expect(own.includes(run) || other.has(run), run).toBe(true);
    }
  });

  it('says on each part where else it stands', () => {
    const pages = new Map<string, { readonly page: number; readonly block: unknown }[]>();
    for (const { mark, page, block } of marksOf(model())) pages.set(mark.id, [...(pages.get(mark.id) ?? []), { page, block }]);
    for (const { mark, references, page } of marksOf(model())) {
      expect(references.length > 0, mark.id).toBe(pages.get(mark.id)!.length > 1);
      for (const text of references) if (text.startsWith('to page ')) expect(pages.get(mark.id)!.some((other) => text.startsWith(`to page ${other.page + 1},`) && other.page !== page), `${mark.id}: ${text}`).toBe(true);
    }
  });

  it('puts a probe on points that the network knows', () => {
    const known = new Set(analysis().ask.points);
    const points = [...drawn(sheet, model()).matchAll(/data-point="([^"]+)"/g)].map((match) => match[1] as string);
    expect(points.length).toBeGreaterThan(10);
    for (const point of points) expect(known.has(point), point).toBe(true);
  });

  it('survives a structured clone and names the state', () => {
    expect(structuredClone(model())).toEqual(model());
    expect(drawn(sheet, model())).toContain('State: drive');
  });
});

describe('high voltage of the van', () => {
  it('shows voltage, current and fault of the drive unit as the analysis has them', () => {
    const analysis = analyses.get('bakery-van')!;
    const solved = analysis.ask.solve({ mode: 'drive' });
    if (solved.outcome !== 'solved') throw new Error('the van drives');
    const lines = allLines(models.get('high-voltage bakery-van')!, 'DU');
    const volts = solved.voltageOf('DU.pos') - solved.voltageOf('DU.neg');
    expect(lines).toContain(`${Number(volts.toPrecision(3))} V, ${Number(Math.abs(solved.currentOf('H21')).toPrecision(3))} A`);
    const faults = (analysis.results['high-voltage'] as HighVoltageResults).faults.filter(({ at, where, end }) => at === 'DU' && where === 'equipment' && end === 'high');
    const highest = Math.max(...faults.map(({ current }) => current));
    const said = Number(/fault ([\d.]+) kA/.exec(lines.join())?.[1]) * 1000;
    expect(said).toBeGreaterThanOrEqual(highest);
    expect(said).toBeLessThan(highest * 1.01 + 10);
  });

  it('draws contacts in the position of the state', async () => {
    const position = (model: Model, part: string) => marksOf(model).find(({ mark }) => mark.id === part)!.mark.symbol.isClosed;
    expect(position(models.get('high-voltage bakery-van')!, 'K_pos')).toBe(true);
    expect(position(models.get('high-voltage bakery-van')!, 'PRE')).toBe(false);
    const rest = await modelOf('high-voltage', analyses.get('bakery-van')!, metric());
    expect(position(rest, 'K_pos')).toBe(false);
    expect(allLines(rest, 'K_pos').join()).toMatch(/open, [\d.]+ V/);
    // what the state changes are numbers and contacts: the drawing stays where it is
    expect(marksOf(rest).map(({ mark, x, y }) => [mark.id, x, y])).toEqual(marksOf(models.get('high-voltage bakery-van')!).map(({ mark, x, y }) => [mark.id, x, y]));
    expect(rest.head.state).toBe('everything at rest');
  });

  it('draws modules in series as one symbol where nothing stands between them', () => {
    const slots = marksOf(models.get('high-voltage bakery-van')!).flatMap(({ mark }) => mark.slots.map(({ parts }) => parts.join(' ')));
    expect(slots).toEqual(['M5 M6 M7', 'SD', 'F_mid', 'M1 M2 M3 M4']);
  });

  it('says on the sheet what is wrong with the words of a state, and shows nothing of it', async () => {
    const model = await modelOf('high-voltage', analyses.get('bakery-van')!, metric({ mode: 'drvie' }));
    expect(model.head.wrong[0]).toMatch(/did you mean drive/);
    expect(allLines(model, 'DU')).toContain('—, —');
    expect(drawn('high-voltage', model)).toContain('did you mean drive');
  });
});

describe('low voltage of the van', () => {
  it('says of what is off that it is off, and of what runs what arrives and what is lost', () => {
    const model = models.get('low-voltage bakery-van')!;
    const solved = analyses.get('bakery-van')!.ask.solve({ mode: 'drive' });
    if (solved.outcome !== 'solved') throw new Error('the van drives');
    expect(allLines(model, 'VAC').join()).toMatch(/off/);
    expect(marksOf(model).find(({ mark }) => mark.id === 'VAC')!.mark.isOff).toBe(true);
    const fan = solved.voltageOf('FAN.supply') - solved.voltageOf('FAN.ground');
    expect(allLines(model, 'FAN').join()).toContain(`${Number(fan.toPrecision(4))} V`);
    expect(allLines(model, 'FAN').join()).toMatch(/lost on the way/);
  });

  it('ends what goes to a ground stud at the part', () => {
    const fan = marksOf(models.get('low-voltage bakery-van')!).find(({ mark }) => mark.id === 'FAN')!.mark;
    expect(fan.grounds.map(({ run, stud }) => [run, stud])).toEqual([['L07', 'G_front']]);
  });

  it('says which output a selector is closed to', () => {
    expect(allLines(models.get('low-voltage bakery-van')!, 'KEY').join()).toMatch(/closed to accessory, run|closed to run/);
  });

  it('says the same in words', () => {
    const text = lowVoltageDrawing.pages(models.get('low-voltage bakery-van')!).map(({ text: blocks }) => plainText(blocks)).join('\n');
    expect(text).toMatch(/VAC\tVAC, .*off/);
    expect(text).toMatch(/L07\tFAN\.ground\tG_front\.stud\t4 mm²/);
  });
});

describe('strange builds', () => {
  const long = 'a_contactor_with_a_very_long_name_that_nobody_would_ever_write';
  const builds = {
    'an empty file': '',
    'one module': 'halfshaft: 1\nname: one\ncells: { c: { chemistry: nmc, capacity: 60 Ah, resistance: 1 mΩ } }\nparts:\n  M1: { kind: battery_module, cell: c, series: 12 }\n',
    'parts without values, and a run to nowhere': 'halfshaft: 1\nname: bare\nparts:\n  F1: { kind: hv_fuse }\n  DU: { kind: drive_unit }\n  R1: { kind: relay }\n  L1: { kind: load }\nruns:\n  W1: { from: F1.out, to: DU.pos }\n  W2: { from: F1.in, to: NOBODY.x }\n  W3: { from: R1.no, to: L1.supply }\n',
    'a long name': `halfshaft: 1\nname: long\nparts:\n  ${long}: { kind: contactor, rating: 250 A }\n  ${long}_2: { kind: hv_fuse, rating: 250 A }\nruns:\n  ${long}_run: { from: ${long}.out, to: ${long}_2.in }\n`,
    'a ring of one part': 'halfshaft: 1\nname: ring\nparts:\n  J: { kind: junction, studs: 4 }\nruns:\n  W1: { from: J.stud_1, to: J.stud_2 }\n',
    'a rail of sixty fuses': `halfshaft: 1\nname: many\nparts:\n  B: { kind: battery_12v, nominal_voltage: 12 V, capacity: 60 Ah }\n  G: { kind: ground_stud }\n  F0: { kind: fuse, rating: 100 A }\n  J1: { kind: junction, studs: 24, carries: low_voltage, pole: positive, lugs: 4 }\n${Array.from({ length: 60 }, (_, n) => `  F${n + 1}: { kind: fuse, rating: 10 A }\n  L${n + 1}: { kind: load, current: 1 A }`).join('\n')}\nruns:\n  V1: { from: B.pos, to: F0.a, length: 1 m }\n  V2: { from: F0.b, to: J1.stud_1, length: 1 m }\n  V3: { from: B.neg, to: G.stud, length: 1 m }\n${Array.from({ length: 60 }, (_, n) => `  A${n + 1}: { from: J1.stud_${2 + (n % 22)}, to: F${n + 1}.a, length: 1 m }\n  C${n + 1}: { from: F${n + 1}.b, to: L${n + 1}.supply, length: 1 m }\n  D${n + 1}: { from: L${n + 1}.ground, to: G.stud, length: 1 m }`).join('\n')}\n`,
  };

  it.each(Object.entries(builds).flatMap(([called, text]) => (Object.keys(sheets) as Name[]).map((sheet) => ({ called, text, sheet }))))('draws $called on $sheet', async ({ text, sheet }) => {
    const model = await modelOf(sheet, analysed(text), metric());
    const picture = drawn(sheet, model);
    expect(picture).not.toMatch(/NaN|undefined|Infinity/);
    for (const boxes of boxesOf(model)) boxes.forEach((box, index) => { for (const other of boxes.slice(index + 1)) expect(overlap(box, other), `${box.what} and ${other.what}`).toBe(false); });
    for (const boxes of boxesOf(model)) for (const box of boxes) expect(box.y + box.height, box.what).toBeLessThanOrEqual(area.height + 0.01);
  }, 120_000);
});
