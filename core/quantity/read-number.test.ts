import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readNumber } from './read-number.ts';

const value = (text: string): number => {
  const reading = readNumber(text, 0);
  if (!reading.ok) throw new Error(`${text}: ${reading.expected}`);
  expect(reading.end).toBe(text.length);
  return reading.value;
};

describe('readNumber', () => {
  it('finds no number in an empty text or a word, and says so at the place', () => {
    for (const text of ['', 'kg', '-', '+', '.', 'NaN', 'Infinity', '±']) expect(readNumber(text, 0)).toMatchObject({ ok: false, reason: 'number', at: 0 });
  });

  it.each([
    ['0', 0], ['-0', 0], ['12', 12], ['12.4', 12.4], ['.5', 0.5], ['+3', 3], ['-12', -12], ['\u221212', -12], ['1.2e-3', 1.2e-3], ['1e\u22123', 1e-3], ['2E6', 2e6],
    ['3/8', 0.375], ['1 1/2', 1.5], ['1-1/2', 1.5], ['-1 1/2', -1.5], ['1½', 1.5], ['1 ½', 1.5], ['¾', 0.75], ['0012', 12],
  ])('reads %s as %d', (text, expected) => expect(value(text)).toBe(expected));

  it('stops before the two points of a range and before an e that is no exponent', () => {
    expect(readNumber('5..6', 0)).toEqual({ ok: true, value: 5, end: 1 });
    expect(readNumber('0.8..1.2', 0)).toEqual({ ok: true, value: 0.8, end: 3 });
    expect(readNumber('5 each', 0)).toEqual({ ok: true, value: 5, end: 1 });
    expect(readNumber('5em', 0)).toEqual({ ok: true, value: 5, end: 1 });
  });

  it('refuses a decimal comma and shows the number with a point', () => {
    expect(readNumber('12,4 kg', 0)).toEqual({ ok: false, reason: 'decimal_comma', at: 0, length: 4, expected: 'a decimal point: write 12.4, with a point' });
  });

  it('refuses a comma that could be either, naming both', () => {
    expect(readNumber('1,234', 0)).toMatchObject({ reason: 'decimal_comma', expected: expect.stringContaining('1.234 or 1234') as string });
  });

  it.each(['1,234.5', '1,234,567', '1 234', '1_234', '1\u202f234'])('refuses thousands separators: %s', (text) => expect(readNumber(text, 0)).toMatchObject({ ok: false, reason: 'number' }));

  it.each(['1/0', '2/0', '1 3/0', '1.2.3', '1/2/3', '1.5/2', '1e999', '1 3/2'])('refuses %s', (text) => expect(readNumber(text, 0)).toMatchObject({ ok: false, reason: 'number' }));

  it('reads back every number that JavaScript prints', () => {
    fc.assert(fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (x) => { expect(value(String(x))).toBe(x === 0 ? 0 : x); }));
  });
});
