/** Impossible cars and broken files give a procedure all the same: never an exception, never NaN, every step with its words. */
import { describe, expect, it } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { analyse } from '../../core/analyse.ts';
import { causeFinder } from '../../core/power-up/causes.ts';
import { powerUp } from '../../core/power-up/steps.ts';
import { seededRandom } from '../../core/solve/random.ts';
import { examples } from '../fixtures/examples.ts';

function procedure(text: string, withCauses = false): number {
  const { car, ask, prepared } = analyse(text, words, { only: [] });
  const { steps } = powerUp(car, ask, withCauses ? prepared : undefined, { count: 3, seed: 1 });
  const ids = new Set<string>();
  for (const { id, title, action, predicted, limit, people } of steps) {
    expect(ids.has(id), id).toBe(false);
    ids.add(id);
    for (const said of [title, action, people]) expect(said).not.toMatch(/NaN|undefined|\[object/);
    expect(action.length).toBeGreaterThan(10);
    if (predicted) for (const value of [predicted.nominal, predicted.low, predicted.high]) expect(Number.isFinite(value), `${id} ${value}`).toBe(true);
    if (predicted) expect(predicted.low <= predicted.nominal && predicted.nominal <= predicted.high, id).toBe(true);
    if (limit) expect(Number.isFinite(limit.value), id).toBe(true);
  }
  if (withCauses) { const finder = causeFinder(car, ask); for (const step of steps) for (const { reads } of finder.causesOf(step)) expect(reads === undefined || Number.isFinite(reads)).toBe(true); }
  return steps.length;
}

const van = examples.find(({ name }) => name === 'bakery-van')?.text as string;
const head = 'halfshaft: 1\nname: strange\n';

describe('an impossible car', () => {
  it('that is empty makes no step', () => { expect(procedure('')).toBe(0); expect(procedure(head)).toBe(0); });
  it('with everything disconnected', () => expect(procedure(van.replace(/^runs:[^]*?(?=^modes:)/m, ''), true)).toBeGreaterThan(10));
  it('without modes', () => expect(procedure(van.replace(/^modes:[^]*$/m, ''))).toBeGreaterThan(10));
  it('without a battery pack, without a 12 V battery, without both', () => {
    const noPack = van.replace(/^ {2}M\d+:.*\n.*$/gm, '');
    const noBattery = van.replace(/^ {2}B12:.*$/gm, '');
    for (const text of [noPack, noBattery, noPack.replace(/^ {2}B12:.*$/gm, '')]) expect(procedure(text)).toBeGreaterThan(3);
  });
  it('whose drive asks for more power than any pack has', () => expect(procedure(van.replace(/draw: [\d.]+ kW[^,}]*/g, 'draw: 9e9 kW'))).toBeGreaterThan(10));
  it('whose modes follow each other in a ring', () => expect(procedure(van.replace('  off:\n', '  off:\n    from: [drive]\n'))).toBeGreaterThan(10));
});

describe.each(examples)('$name with broken lines', ({ text }) => {
  const lines = text.split('\n');
  it.each(Array.from({ length: 12 }, (_, seed) => seed))('seed %d', (seed) => {
    const random = seededRandom(seed, 31);
    const broken = lines.map((line) => (random() > 0.06 ? line : random() < 0.5 ? '' : line.replace(/\d+/, () => ['0', '-3', '1e30', 'x'][Math.floor(random() * 4)]!)));
    procedure(broken.join('\n'), seed < 2);
  });
});
