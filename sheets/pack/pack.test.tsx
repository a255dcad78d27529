import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { analysed } from '../../checks/fixtures/analysed.ts';
import { examples } from '../../checks/fixtures/examples.ts';
import type { PackResults } from '../../core/topics/pack/study.ts';
import { area } from '../frame/page-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { chainRows, MODULE_WIDTH } from './chain-rows.ts';
import { packDrawing } from './drawing.tsx';
import { packModel } from './model.ts';
import type { PackModel } from './model.ts';

const exampleText = (name: string): string => examples.find((example) => example.name === name)!.text;
const modelOf = (text: string): PackModel => packModel.model(analysed(text), { units: { system: 'metric' }, state: {} }) as PackModel;
const bodies = (model: PackModel): string[] => packDrawing.pages(model).map(({ body }) => renderToStaticMarkup(<svg>{body}</svg>));
const van = modelOf(exampleText('bakery-van'));
const coupe = modelOf(exampleText('two-string-coupe'));
const hauler = modelOf(exampleText('orchard-hauler'));

describe('the chain of the van', () => {
  const chain = van.packs[0]!.chains[0]!;
  it('runs from pack negative to pack positive with all that lies between', () => {
    expect(chain.pieces.filter(({ sign }) => sign !== 'run').map(({ name, sign }) => `${name} ${sign}`)).toEqual([
      'K_neg contact', 'M1 module', 'M2 module', 'M3 module', 'M4 module', 'F_mid fuse', 'SD disconnect', 'M5 module', 'M6 module', 'M7 module', 'F_main fuse', 'K_pos contact',
    ]);
    expect([chain.negative, chain.positive]).toEqual(['J_neg.stud_1', 'J_pos.stud_1']);
    expect(chain.pieces.every((piece, index) => index === 0 || piece.from === chain.pieces[index - 1]!.to)).toBe(true);
    expect(chain.pieces.find(({ name }) => name === 'SD')?.hasFuse).toBe(true);
  });
  it('ends at the voltages that the analysis gives for the pack', () => {
    const { figures } = (analysed(exampleText('bakery-van')).results.pack as PackResults).packs[0]!;
    const end = chain.pieces.at(-1)!.potential!;
    expect(parseFloat(end.nominal.text)).toBeCloseTo(figures!.nominalVoltage, -0.5);
    expect(parseFloat(end.highest.text)).toBeGreaterThanOrEqual(figures!.maximumVoltage);
    expect(parseFloat(end.lowest.text)).toBeLessThanOrEqual(figures!.minimumVoltage);
    expect(chain.start?.now.text).toBe('0 V');
  });
  it('is of one class from end to end, with the cells full', () => {
    expect(chain.pieces.every(({ voltageClass }) => voltageClass === 'B')).toBe(true);
    expect(hauler.packs[0]!.chains[0]!.pieces.every(({ voltageClass }) => voltageClass === 'A')).toBe(true);
  });
  it('shows readings as numbers of the file and how far each is off the mean', () => {
    const cells = chain.pieces.filter(({ sign }) => sign === 'module').map((piece) => piece.cells!);
    expect(cells[0]!.reading?.path).toBe('parts.M1.measured_voltage');
    // by hand: mean of 47.92 47.95 47.90 47.93 47.88 47.94 47.91 is 47.9186
    expect(cells.map(({ deviation }) => deviation?.text)).toEqual(['+1.4 mV', '+31 mV', '-19 mV', '+11 mV', '-39 mV', '+21 mV', '-8.6 mV']);
  });
  it('has a probe at every terminal of every module', () => {
    const html = bodies(van).join('');
    for (let index = 1; index <= 7; index++) for (const port of ['pos', 'neg']) expect(html).toContain(`data-point="M${index}.${port}"`);
  });
  it('survives a structured clone', () => {
    expect(structuredClone(van)).toEqual(van);
  });
});

describe('parallel strings', () => {
  it('stand beside each other between the same two ends, with what flows when they are joined', () => {
    const [pack] = coupe.packs;
    expect(pack!.chains.map(({ name }) => name)).toEqual(['A1', 'B1']);
    expect(pack!.joined).toHaveLength(1);
    expect(pack!.joined[0]).toMatch(/A1 and B1 are parallel.*A1 stands 16\.\d V above B1/);
    expect(pack!.figureHeads).toEqual(['Pack', 'String A1', 'String B1']);
  });
  it('names the module that is out of line', () => {
    expect(coupe.remarks.some(({ statement }) => statement.startsWith('B6 reads'))).toBe(true);
  });
  it('asks for readings before it says what flows', () => {
    const without = modelOf(exampleText('two-string-coupe').replace('measured_voltage: 45.32 V ±0.02 measured, ', ''));
    expect(without.packs[0]!.joined[0]).toContain('measure the voltage of B1');
  });
});

const cells = 'cells:\n  c: { chemistry: nmc, capacity: 50 Ah, resistance: 1 mΩ }\nstock:\n  bar: { kind: busbar, width: 20 mm, thickness: 3 mm, insulation: bare }\n';
const string = (count: number, module: (index: number) => string, name = (index: number): string => `M${index}`): string =>
  `halfshaft: 1\nname: long\n${cells}parts:\n${Array.from({ length: count }, (_, index) => `  ${name(index)}: { kind: battery_module, ${module(index)} }`).join('\n')}\nruns:\n${Array.from({ length: count - 1 }, (_, index) => `  W${index}: { from: ${name(index)}.pos, to: ${name(index + 1)}.neg, stock: bar, length: 60 mm }`).join('\n')}\n`;
const full = (): string => 'cell: c, series: 4';
const builds: readonly (readonly [string, PackModel])[] = [
  ['the van', van], ['the coupe', coupe], ['the hauler', hauler], ['nothing', modelOf('')], ['an empty build', modelOf('halfshaft: 1\nname: empty\n')],
  ['one loose module', modelOf(string(1, full).replace('runs:', ''))], ['40 modules', modelOf(string(40, full))], ['200 modules', modelOf(string(200, full))],
  ['long names', modelOf(string(20, full, (index) => `module_${'n'.repeat(50)}_${index}`))], ['a module without cells', modelOf(string(6, (index) => (index === 3 ? 'series: 4' : 'cell: c, series: 4')))],
  ['a module turned round', modelOf(string(4, full).replace('from: M1.pos, to: M2.neg', 'from: M1.pos, to: M2.pos').replace('from: M2.pos, to: M3.neg', 'from: M2.neg, to: M3.neg'))],
  ['a ring', modelOf(`${string(4, full)}  short: { from: M3.pos, to: M0.neg, stock: bar, length: 1 m }\n`)],
];

describe.each(builds)('the pack sheet of %s', (_, model) => {
  const drawn = bodies(model);
  it('keeps all lettering on the paper', () => {
    for (const html of drawn) {
      for (const { left, right, y, text } of textsOf(html)) {
        expect(left, text).toBeGreaterThanOrEqual(-0.5);
        expect(right, text).toBeLessThanOrEqual(area.width + 0.5);
        expect(y, text).toBeGreaterThan(0);
        expect(y, text).toBeLessThanOrEqual(area.height + 0.5);
      }
    }
  });
  it('draws no number that is none and says the same in words', () => {
    expect(drawn.join('')).not.toMatch(/NaN|Infinity|undefined/);
    const text = JSON.stringify(packDrawing.pages(model).map((page) => page.text));
    for (const { chains } of model.packs) for (const { pieces } of chains) for (const { name } of pieces) expect(text).toContain(name);
  });
  it('wraps every chain without losing or overlapping a piece', () => {
    for (const chain of model.packs.flatMap(({ chains }) => chains)) {
      const rows = chainRows(chain, area.width);
      expect(rows.flatMap((row) => [...row.pieces.flatMap(({ runs, piece }) => [...runs, piece]), ...row.tail]).map(({ name }) => name)).toEqual(chain.pieces.map(({ name }) => name));
      for (const { pieces } of rows) {
        const sorted = [...pieces].sort((a, b) => a.x - b.x);
        expect(sorted.every((piece, index) => index === 0 || piece.x >= sorted[index - 1]!.x + sorted[index - 1]!.width)).toBe(true);
        expect(sorted.every(({ x }) => x >= 0 && x + MODULE_WIDTH <= area.width + 8)).toBe(true);
      }
    }
  });
});

it('marks a module that is turned round, and counts it down', () => {
  const turned = builds.find(([name]) => name === 'a module turned round')![1].packs[0]!.chains[0]!;
  expect(turned.pieces.filter(({ isReversed }) => isReversed).map(({ name }) => name)).toEqual(['M2']);
  const at = (name: string): number => parseFloat(turned.pieces.find((piece) => piece.name === name)!.potential!.nominal.text);
  expect(at('M2')).toBeCloseTo(at('M0'), 6);
});

function textsOf(html: string): { left: number; right: number; y: number; text: string }[] {
  return [...html.matchAll(/<text x="([-\d.]+)" y="([-\d.]+)" font-size="([\d.]+)"([^>]*)>([^<]*)<\/text>/g)].map(([, x, y, size, rest, raw]) => {
    const text = raw!.replaceAll('&amp;', '&').replaceAll('&#x27;', "'").replaceAll('&quot;', '"');
    const width = widthOf(text, Number(size), rest!.includes('font-weight="600"') ? 'strong' : 'sans');
    const left = Number(x) - (rest!.includes('"end"') ? width : rest!.includes('"middle"') ? width / 2 : 0);
    return { left, right: left + width, y: Number(y), text };
  });
}
