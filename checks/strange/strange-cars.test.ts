/**
 * Impossible cars and broken files give findings: never an exception, never NaN (`marginOf` throws on one), never a hang.
 */
import { describe, expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { analyse } from '../../core/analyse.ts';
import { seededRandom } from '../../core/solve/random.ts';
import { examples } from '../fixtures/examples.ts';

const MOST_SECONDS = 5;

function study(text: string): ReturnType<typeof analyse> {
  const start = performance.now();
  const analysis = analyse(text, words);
  expect((performance.now() - start) / 1000, text.slice(0, 2000)).toBeLessThan(MOST_SECONDS);
  expect(analysis.findings.map(({ statement }) => statement).filter((statement) => statement.length <= 5 || /NaN|Infinity|undefined/.test(statement))).toEqual([]);
  expect(JSON.stringify(analysis.results) ?? '').not.toContain('NaN');
  return analysis;
}
const codes = (text: string): string[] => study(text).findings.filter(({ level }) => level !== 'holds').map(({ code }) => code);

const van = examples.find(({ name }) => name === 'bakery-van')?.text as string;
const cells = 'cells:\n  c: { chemistry: nmc, capacity: 60 Ah, resistance: 1 mΩ }\n';
const head = 'halfshaft: 1\nname: strange\n';

describe('an impossible car', () => {
  it('that is an empty file', () => expect(codes('')).toContain('file.value-given'));
  it('that is only a name', () => expect(study(head).findings.length).toBeGreaterThan(0));
  it('without a source', () => {
    const text = van.replace(/^ {2}M\d+:.*$/gm, '').replace(/^ {2}\w+:.*battery_12v.*$/gm, '');
    expect(study(text).findings.some(({ level }) => level !== 'holds')).toBe(true);
  });
  it('with everything disconnected', () => {
    const text = van.replace(/^runs:[^]*?(?=^modes:)/m, '');
    expect(codes(text).some((code) => code.startsWith('pack.'))).toBe(true);
  });
  it('with a shorted module', () => {
    const text = `${head}${cells}parts:\n  M1: { kind: battery_module, cell: c, series: 12 }\nstock:\n  bar: { kind: busbar, width: 20 mm, thickness: 3 mm, insulation: bare }\nruns:\n  S: { from: M1.pos, to: M1.neg, stock: bar, length: 100 mm }\n`;
    expect(study(text).findings.some(({ level }) => level === 'stop')).toBe(true);
  });
  it('whose modules are joined in a ring, each against the other', () => {
    const text = `${head}${cells}parts:\n  M1: { kind: battery_module, cell: c, series: 12 }\n  M2: { kind: battery_module, cell: c, series: 6 }\nstock:\n  bar: { kind: busbar, width: 20 mm, thickness: 3 mm, insulation: bare }\nruns:\n  A: { from: M1.pos, to: M2.pos, stock: bar, length: 100 mm }\n  B: { from: M1.neg, to: M2.neg, stock: bar, length: 100 mm }\n`;
    expect(study(text).findings.some(({ level }) => level !== 'holds')).toBe(true);
  });
  it('whose cells have nearly no resistance at all', () => {
    expect(study(van.replace(/resistance: [\d.]+ mΩ[^,}]*/g, 'resistance: 1e-12 mΩ')).findings.length).toBeGreaterThan(0);
  });
  it('whose drive asks for more power than any pack has', () => {
    expect(study(van.replace(/draw: [\d.]+ kW[^,}]*/g, 'draw: 9e9 kW')).findings.some(({ level }) => level === 'stop' || level === 'fix')).toBe(true);
  });
  it('whose masses are mountains and whose wheelbase is a hair', () => {
    expect(study(van.replace(/mass: [\d.]+ kg/g, 'mass: 1e12 kg').replace(/wheelbase: [\d.]+ m\b/, 'wheelbase: 1e-6 m')).findings.length).toBeGreaterThan(0);
  });
});

describe.each(examples)('$name with broken lines', ({ text }) => {
  const lines = text.split('\n');
  const numbers = ['0', '1e300', '-5', '1e-300', '999999999', 'x', ''];
  it.each(Array.from({ length: 24 }, (_, seed) => seed))('seed %i', (seed) => {
    const random = seededRandom(seed, 77);
    const pick = (count: number): number => Math.floor(random() * count);
    const broken = [...lines];
    for (let times = 1 + pick(6); times > 0; times--) {
      const at = pick(broken.length);
      switch (pick(5)) {
        case 0: broken.splice(at, 1 + pick(8)); break;
        case 1: broken[at] = (broken[at] ?? '').replace(/-?\d+(\.\d+)?/, () => numbers[pick(numbers.length)] as string); break;
        case 2: broken.splice(at, 0, broken[pick(broken.length)] ?? ''); break;
        case 3: broken[at] = (broken[at] ?? '').slice(0, pick(80)); break;
        default: broken[at] = (broken[at] ?? '').replace(/\b([A-Z]\w*)\.(\w+)/, (_, part: string) => `${part}.${['pos', 'neg', 'nonsense', 'coil_a', 'in'][pick(5)] as string}`);
      }
    }
    const analysis = study(broken.join('\n'));
    for (const problem of analysis.build.problems) expect(problem.place.line).toBeGreaterThanOrEqual(1);
  });
});
