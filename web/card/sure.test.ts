import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readQuantity } from '../../core/quantity/read-quantity.ts';
import { basisWords, splitSure, withSure } from './sure.ts';

describe('tolerance and basis', () => {
  test.each([
    ['31.5 kg ±0.5 measured', { head: '31.5 kg', tolerance: '±0.5', basis: 'measured' }],
    ['31.5 kg', { head: '31.5 kg', tolerance: '', basis: '' }],
    ['12 V +0.2/-0.1 label', { head: '12 V', tolerance: '+0.2/-0.1', basis: 'label' }],
    ['0.3 mΩ (0.1..0.5 mΩ) estimate', { head: '0.3 mΩ', tolerance: '(0.1..0.5 mΩ)', basis: 'estimate' }],
    ['-130', { head: '-130', tolerance: '', basis: '' }],
    ['2/0 AWG label', { head: '2/0 AWG', tolerance: '', basis: 'label' }],
    ['0.8..1.2 mF', { head: '0.8..1.2 mF', tolerance: '', basis: '' }],
  ])('%s', (text, expected) => expect(splitSure(text)).toEqual(expected));

  test.each([
    ['31.5 kg', { tolerance: '0.5' }, '31.5 kg ±0.5'],
    ['31.5 kg ±0.5 measured', { tolerance: '' }, '31.5 kg measured'],
    ['31.5 kg ±0.5 measured', { basis: 'label' }, '31.5 kg ±0.5 label'],
    ['31.5 kg ±0.5 measured', { basis: '' }, '31.5 kg ±0.5'],
    ['262 ±10 mm', { tolerance: '5' }, '262 mm ±5'],
    ['262 ±10 mm', { basis: 'drawing' }, '262 ±10 mm drawing'],
    ['~ 3 A', { basis: 'measured' }, '3 A measured'],
    ['3 A', { tolerance: '+0.1/-0.2', basis: 'label' }, '3 A +0.1/-0.2 label'],
  ])('%s with %j', (text, to, expected) => expect(withSure(text, to)).toBe(expected));

  test('the value that is read stays the same, the tolerance and basis are what was asked', () => {
    const number = fc.integer({ min: 1, max: 9999 }).map((value) => value / 10);
    fc.assert(fc.property(number, fc.constantFrom('', ' ±0.5', ' ±5 %', ' (0.1..2000 kg)'), fc.constantFrom('', ...basisWords), fc.integer({ min: 1, max: 99 }), fc.constantFrom(...basisWords), (value, tolerance, basis, to, word) => {
      const text = `${value} kg${tolerance}${basis === '' ? '' : ` ${basis}`}`;
      const before = readQuantity(text, 'mass', '');
      const after = readQuantity(withSure(text, { tolerance: String(to), basis: word }), 'mass', '');
      if (!before.ok || !after.ok) throw new Error(`${text} cannot be read`);
      expect(after.value.nominal).toBe(before.value.nominal);
      expect(after.value.basis).toBe(word);
      expect(after.value.high - after.value.nominal).toBeCloseTo(to, 9);
    }));
  });
});
