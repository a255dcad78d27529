import { describe, expect, it } from 'vitest';
import { nearest } from './nearest-spelling.ts';

describe('nearest', () => {
  it('finds nothing for an empty word, an empty list or a page of text', () => {
    expect(nearest('', ['a'])).toBeUndefined();
    expect(nearest('mass', [])).toBeUndefined();
    expect(nearest('x'.repeat(10_000), ['x'.repeat(9_999)])).toBeUndefined();
  });
  it('takes the same letters in other capitals before anything else', () => expect(nearest('KWH', ['kW', 'Wh', 'kWh'])).toBe('kWh'));
  it('finds the word that was mistyped', () => {
    expect(nearest('mesured', ['measured', 'label', 'datasheet'])).toBe('measured');
    expect(nearest('capasity', ['capacity', 'resistance'])).toBe('capacity');
  });
  it('prefers the candidate that starts alike among equally close ones', () => expect(nearest('K2', ['M2', 'K1'])).toBe('K1'));
  it('finds nothing when nothing is close', () => {
    expect(nearest('banana', ['measured', 'label'])).toBeUndefined();
    expect(nearest('V', ['A', 'W'])).toBeUndefined();
    expect(nearest('ab', ['cd'])).toBeUndefined();
  });
  it('keeps to the number of changes that the caller allows', () => {
    expect(nearest('lable', ['label'], { changes: 1 })).toBeUndefined();
    expect(nearest('lable', ['label'], { changes: 2 })).toBe('label');
  });
});
