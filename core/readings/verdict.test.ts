import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readEntered } from './entered.ts';
import type { Entered } from './entered.ts';
import { judge } from './verdict.ts';
import type { ReadStep } from './read-step.ts';
import type { Verdict } from './verdict.ts';

const step: ReadStep = {
  id: 's', title: 'Voltage', action: '', about: [], hazard: 'class_b', isHoldPoint: true, state: {}, measure: { is: 'voltage', a: 'M4.pos', b: 'M4.neg' }, quantity: 'voltage',
  instrument: undefined, expect: '', predicted: { nominal: 44.1, low: 43.5, high: 44.7 }, willFail: false, limit: undefined, notPredicted: undefined, unknown: [], people: '', cautions: [], lost: [],
};
const entered = (text: string, quantity: 'voltage' | 'resistance' = 'voltage'): Entered => { const read = readEntered(text, quantity); if (!read.ok) throw new Error(read.problem); return read.value; };
const of = (text: string, more: Partial<ReadStep> = {}): Verdict => judge({ ...step, ...more }, entered(text, (more.quantity ?? 'voltage') as 'voltage'));

describe('a reading against its prediction', () => {
  it('agrees within the band, lies outside beyond it, and cannot be told when its last digit decides', () => {
    expect(of('44.3 V').word).toBe('agrees');
    expect(of('42.9 V')).toMatchObject({ word: 'outside', outsideBy: expect.closeTo(0.6, 9), isReversed: false });
    expect(of('43 V').word).toBe('cannot be told');
    expect(of('43.2 V ±0.5').word).toBe('cannot be told');
    expect(of('43.0 V').word).toBe('outside');
  });
  it('knows the wrong sign, and names the module', () => {
    const verdict = judge(step, entered('-44.1 V'), { causes: () => [], mistakes: () => [{ part: 'M4', says: 'appears reversed', reads: undefined, fits: true }] });
    expect(verdict).toMatchObject({ word: 'outside', isReversed: true, meanings: [{ part: undefined }, { part: 'M4' }] });
    expect(of('-44.1 V').meanings.map(({ says }) => says)).toEqual([expect.stringContaining('leads'), expect.stringContaining('wrong way round')]);
    expect(of('-0.2 V', { predicted: { nominal: 0, low: -0.1, high: 0.3 } }).isReversed).toBe(false);
  });
  it('an open reading settles a limit only from its own side', () => {
    const insulation = { measure: undefined, quantity: 'resistance', predicted: undefined, limit: { sense: 'at_least', value: 1e6, source: 'un-r100' } } as const;
    expect(of('> 550 MΩ', insulation).word).toBe('agrees');
    expect(of('> 500 kΩ', insulation).word).toBe('cannot be told');
    expect(of('0.2 MΩ', insulation)).toMatchObject({ word: 'outside', next: expect.stringContaining('open the disconnect') });
    expect(of('< 1 Ω', { ...insulation, limit: { sense: 'at_most', value: 2, source: 'x' } }).word).toBe('agrees');
  });
  it('a limit counts whatever was predicted; insulation better than predicted agrees', () => {
    expect(of('44 V', { limit: { sense: 'at_most', value: 30, source: 'x' } })).toMatchObject({ word: 'outside', says: expect.stringContaining('limit') });
    expect(of('3 GΩ', { measure: { is: 'insulation', poles: ['A.pos'], b: 'chassis' }, quantity: 'resistance', predicted: { nominal: 1e9, low: 1e8, high: 2e9 }, limit: { sense: 'at_least', value: 1e6, source: 'x' } }).word).toBe('agrees');
  });
  it('says so when there is nothing to compare with', () => expect(of('3 V', { predicted: undefined, notPredicted: 'values are missing' })).toMatchObject({ word: 'cannot be told', says: expect.stringContaining('values are missing') }));
  it('what explains the reading comes first, what only goes that way when nothing does', () => {
    const causes = [{ part: 'F1', failure: 'melted', meaning: 'melted', reads: 0, weight: 9, side: 'low' as const }, { part: 'M2', failure: 'low', meaning: 'low', reads: 30, weight: 1, side: 'low' as const }];
    const found = (text: string): string[] => judge(step, entered(text), { causes: () => causes, mistakes: () => [] }).meanings.map(({ part, fits }) => `${part} ${fits}`);
    expect(found('30.5 V')).toEqual(['M2 true']);
    expect(found('0.1 V')).toEqual(['F1 true']);
    expect(found('15 V')).toEqual(['F1 false', 'M2 false']);
    expect(found('60 V')).toEqual([]);
  });
  it('a wider band never turns what agrees into something else', () => {
    const value = fc.double({ min: -1e3, max: 1e3, noNaN: true });
    fc.assert(fc.property(value, value, fc.double({ min: 0, max: 50, noNaN: true }), fc.double({ min: 0, max: 50, noNaN: true }), (best, nominal, half, more) => {
      const reading: Entered = { is: 'value', best, low: best - 0.05, high: best + 0.05 };
      const word = (by: number): string => judge({ ...step, predicted: { nominal, low: nominal - by, high: nominal + by } }, reading).word;
      if (word(half) === 'agrees') expect(word(half + more)).toBe('agrees');
    }));
  });
});

describe('what is written', () => {
  it('is good to half its last digit, or to what it says', () => {
    expect(entered('12.4 V')).toEqual({ is: 'value', best: 12.4, low: expect.closeTo(12.35, 9), high: expect.closeTo(12.45, 9) });
    expect(entered('120 mV ±2')).toMatchObject({ low: expect.closeTo(0.118, 9), high: expect.closeTo(0.122, 9) });
    expect(entered('> 550 MΩ', 'resistance')).toEqual({ is: 'value', best: 550e6, low: 550e6, high: Infinity });
  });
  it('beyond the range is asked back, and so is a number without a unit', () => {
    expect(readEntered('OL', 'resistance')).toMatchObject({ ok: false, problem: expect.stringContaining('> 40 MΩ') });
    expect(readEntered('12.4', 'voltage')).toMatchObject({ ok: false });
    expect(readEntered('maybe', 'observation')).toMatchObject({ ok: false });
  });
});
