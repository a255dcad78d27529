import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bases } from './basis.ts';
import { quantities, type QuantityName } from './quantity-table.ts';
import type { Quantity } from './quantity.ts';
import { readQuantity, type ReadingProblem } from './read-quantity.ts';
import { units } from './unit-table.ts';

const names = Object.keys(quantities) as QuantityName[];
const read = (text: string, quantity: QuantityName): Quantity => {
  const reading = readQuantity(text, quantity, 'parts.M1.mass');
  if (!reading.ok) throw new Error(`${text}: ${JSON.stringify(reading.problem)}`);
  return reading.value;
};
const refuse = (text: string, quantity: QuantityName): ReadingProblem => {
  const reading = readQuantity(text, quantity, 'p');
  if (reading.ok) throw new Error(`${text} was read as ${JSON.stringify(reading.value)}`);
  return reading.problem;
};
/** nominal, low, high in SI to 12 digits */
const limits = (text: string, quantity: QuantityName): number[] => { const q = read(text, quantity); return [q.nominal, q.low, q.high].map((x) => Number(x.toPrecision(12))); };

describe('readQuantity: what builders write', () => {
  it('reads value, unit, tolerance and basis', () => {
    expect(read('31.5 kg ±0.5 measured', 'mass')).toEqual({ quantity: 'mass', nominal: 31.5, low: 31, high: 32, shape: 'normal', basis: 'measured', toleranceIsStated: true, unit: 'kg', path: 'parts.M1.mass' });
  });

  it.each([
    ['350V', 'voltage', [350, 280, 420]], ['  350  V  ', 'voltage', [350, 280, 420]], ['350 A label', 'current', [350, 332.5, 367.5]], ['350 A Label', 'current', [350, 332.5, 367.5]],
    ['0.8 mF ±30 % estimate', 'capacitance', [0.8e-3, 0.56e-3, 1.04e-3]], ['0.8mF±30%', 'capacitance', [0.8e-3, 0.56e-3, 1.04e-3]], ['82 kWh ±15 %', 'energy', [295.2e6, 250.92e6, 339.48e6]],
    ['62 Ah ±3 measured', 'charge', [223200, 212400, 234000]], ['62 Ah +/- 3 Ah measured', 'charge', [223200, 212400, 234000]], ['62 Ah +- 3', 'charge', [223200, 212400, 234000]],
    ['12.4 ±0.1 kg measured', 'mass', [12.4, 12.3, 12.5]], ['12.4 kg ±50 g', 'mass', [12.4, 12.35, 12.45]],
    ['12 mm +0.2/-0.1', 'length', [0.012, 0.0119, 0.0122]], ['12 mm +0.2 -0', 'length', [0.012, 0.012, 0.0122]], ['12 mm + 0.2 / − 0.1 mm drawing', 'length', [0.012, 0.0119, 0.0122]], ['100 kg +10 % -5 %', 'mass', [100, 95, 110]],
    ['0.8..1.2 mF', 'capacitance', [1e-3, 0.8e-3, 1.2e-3]], ['0.8 .. 1.2 mF label', 'capacitance', [1e-3, 0.8e-3, 1.2e-3]], ['800 µF..1.2 mF', 'capacitance', [1e-3, 0.8e-3, 1.2e-3]], ['8…12 V', 'voltage', [10, 8, 12]], ['-5..5 °C', 'temperature', [273.15, 268.15, 278.15]],
    ['0.3 mΩ (0.1..0.5)', 'resistance', [0.3e-3, 0.1e-3, 0.5e-3]], ['0.3 mΩ (100..900 µΩ) handbook', 'resistance', [0.3e-3, 0.1e-3, 0.9e-3]],
    ['3/8"', 'length', [0.009525, 0.00762, 0.01143]], ['1 1/2 in drawing', 'length', [0.0381, 0.037719, 0.038481]], ['1½ in drawing', 'length', [0.0381, 0.037719, 0.038481]],
    ['5 ft 3 in ±1 in', 'length', [1.6002, 1.5748, 1.6256]], [`5' 3" ±0`, 'length', [1.6002, 1.6002, 1.6002]], [`5'3 1/2"±0`, 'length', [1.6129, 1.6129, 1.6129]], ['-5 ft 3 in ±0', 'length', [-1.6002, -1.6002, -1.6002]],
    ['62 °C', 'temperature', [335.15, 330.15, 340.15]], ['62 °C measured', 'temperature', [335.15, 333.15, 337.15]], ['62 °C ±3', 'temperature', [335.15, 332.15, 338.15]], ['62 °C ±3 K', 'temperature', [335.15, 332.15, 338.15]], ['62 °C ±3 °C', 'temperature', [335.15, 332.15, 338.15]], ['62 ±3 °C', 'temperature', [335.15, 332.15, 338.15]],
    ['50 °F ±9', 'temperature', [283.15, 278.15, 288.15]], ['300 K ±1', 'temperature', [300, 299, 301]], ['5 K ±1', 'temperature_difference', [5, 4, 6]], ['9 °F diff ±0', 'temperature_difference', [5, 5, 5]],
    ['85 % ±5 %', 'ratio', [0.85, 0.8, 0.9]], ['85 % ±5', 'ratio', [0.85, 0.8, 0.9]], ['0.85 ±0.05', 'ratio', [0.85, 0.8, 0.9]], ['0.85 ±5 %', 'ratio', [0.85, 0.8, 0.9]], ['0.85 label', 'ratio', [0.85, 0.8075, 0.8925]],
    ['4 ±0', 'number', [4, 4, 4]], ['4 ±10 % datasheet', 'number', [4, 3.6, 4.4]],
    ['1.2 bar abs ±0.1', 'pressure_absolute', [1.2e5, 1.1e5, 1.3e5]], ['1 bar ±0.1 bar measured', 'pressure_gauge', [1e5, 0.9e5, 1.1e5]],
    ['0 V', 'voltage', [0, 0, 0]], ['-310 mm ±5', 'length', [-0.31, -0.315, -0.305]], ['−310 mm measured', 'length', [-0.31, -0.3162, -0.3038]],
    ['~ 3 kg', 'mass', [3, 2.4, 3.6]], ['~3 kg estimate', 'mass', [3, 2.4, 3.6]], ['≈3 kg', 'mass', [3, 2.4, 3.6]], ['1 mΩ ±200 %', 'resistance', [1e-3, -1e-3, 3e-3]],
  ] as const)('reads %s as %s', (text, quantity, expected) => expect(limits(text, quantity)).toEqual(expected));

  it('reads wire gauges in every way the trade writes them', () => {
    const area = (text: string): number => Number((read(text, 'area').nominal * 1e6).toPrecision(3));
    for (const text of ['2/0 AWG', '00 AWG', 'AWG 2/0', '2/0AWG', '2/0 awg label']) expect(area(text), text).toBe(67.4);
    for (const text of ['0000 AWG', '4/0 AWG', 'AWG 0000']) expect(area(text), text).toBe(107);
    for (const text of ['1/0 AWG', '0 AWG', 'AWG 0']) expect(area(text), text).toBe(53.5);
    for (const text of ['6 AWG', 'AWG 6', '6 AWG ±5 %', 'AWG6']) expect(area(text), text).toBe(13.3);
    expect(read('6..4 AWG', 'area')).toMatchObject({ shape: 'uniform', unit: 'AWG' });
    expect(read('1/0..2/0 AWG', 'area').high * 1e6).toBeCloseTo(67.43, 1);
  });

  it('keeps the shape: normal for ±, uniform for a range, exact for no width', () => {
    expect(read('3 kg ±1', 'mass').shape).toBe('normal');
    expect(read('3 kg', 'mass')).toMatchObject({ shape: 'normal', toleranceIsStated: false, basis: 'estimate' });
    expect(read('3..4 kg', 'mass')).toMatchObject({ shape: 'uniform', toleranceIsStated: true });
    expect(read('3..3 kg', 'mass').shape).toBe('exact');
    expect(read('0 kg', 'mass')).toMatchObject({ shape: 'exact', toleranceIsStated: false });
  });

  it('takes the default tolerance of each basis', () => {
    for (const [basis, row] of Object.entries(bases)) {
      expect(read(`100 V ${basis}`, 'voltage').high).toBeCloseTo(100 * (1 + row.tolerance), 9);
      expect(read(`100 °C ${basis}`, 'temperature').high).toBeCloseTo(373.15 + row.temperatureTolerance, 9);
    }
  });
});

describe('readQuantity: what it refuses, and where', () => {
  it.each([
    ['', 'mass', 'empty', 0, 0], ['   ', 'mass', 'empty', 0, 3], ['heavy', 'mass', 'number', 0, 1], ['NaN kg', 'mass', 'number', 0, 1], ['1e999 kg', 'mass', 'number', 0, 5], ['1e308 km', 'length', 'number', 0, 5],
    ['12,4 kg', 'mass', 'decimal_comma', 0, 4], ['3 kg ±0,5', 'mass', 'decimal_comma', 6, 3], ['1 234 kg', 'mass', 'number', 0, 5], ['0.8-1.2 mF', 'capacitance', 'number', 0, 7],
    ['350', 'voltage', 'unit_missing', 3, 0], ['350 measured', 'voltage', 'unit_missing', 3, 0], ['350 mesured', 'voltage', 'unit_missing', 3, 0], ['350 ±5', 'voltage', 'unit_missing', 3, 0], ['350 ±5 %', 'voltage', 'unit_missing', 3, 0], ['8..12', 'voltage', 'unit_missing', 5, 0], ['62 ±2 K', 'temperature', 'unit_missing', 2, 0], ['85', 'ratio', 'unit_missing', 0, 2],
    ['350 Vlot', 'voltage', 'unit_unknown', 4, 4], ['3 kgg measured', 'mass', 'unit_unknown', 2, 3], ['8 gal', 'volume', 'unit_unknown', 2, 3],
    ['350 kg', 'voltage', 'wrong_quantity', 4, 2], ['5 °C', 'temperature_difference', 'wrong_quantity', 2, 2], ['1 bar', 'pressure_absolute', 'wrong_quantity', 2, 3], ['1 bar abs', 'pressure_gauge', 'wrong_quantity', 2, 7], ['2/0 mm²', 'area', 'wrong_quantity', 0, 3], ['85 %', 'number', 'wrong_quantity', 3, 1],
    ['3 kg ±-1', 'mass', 'tolerance', 5, 3], ['3 kg ±', 'mass', 'tolerance', 6, 0], ['62 °C ±5 %', 'temperature', 'tolerance', 6, 4], ['6 AWG ±1', 'area', 'tolerance', 6, 2], ['3 kg +1', 'mass', 'tolerance', 5, 2], ['3 kg (1..', 'mass', 'tolerance', 9, 0], ['3 kg (1..5', 'mass', 'tolerance', 5, 5],
    ['3 kg mesured', 'mass', 'basis', 5, 7], ['~3 kg measured', 'mass', 'basis', 6, 8],
    ['1.2..0.8 mF', 'capacitance', 'range_order', 0, 8], ['4..6 AWG', 'area', 'range_order', 0, 4], ['3 kg (4..5)', 'mass', 'range_order', 5, 6],
    ['3 kg measured twice', 'mass', 'trailing', 14, 5], ['3 kg ±1 ±2', 'mass', 'trailing', 8, 2], ['5 ft 3', 'length', 'trailing', 5, 1], ['3 kg, or so', 'mass', 'unit_unknown', 2, 3],
    ['5 ft 14 in', 'length', 'number', 5, 2], ['5/0 AWG', 'area', 'number', 0, 3], ['6.5 AWG', 'area', 'number', 0, 3], ['-300 °C', 'temperature', 'number', 0, 4], ['1/0 kg', 'mass', 'number', 0, 3],
  ] as const)('refuses %j as %s: %s at %i, %i long', (text, quantity, reason, at, length) => {
    expect(refuse(text, quantity)).toMatchObject({ reason, at, length });
  });

  it('suggests K where a plain °C would be a difference, and bar abs where gauge would be absolute', () => {
    expect(refuse('5 °C', 'temperature_difference')).toMatchObject({ nearest: 'K', expected: expect.stringContaining('5 K') as string });
    expect(refuse('1 bar', 'pressure_absolute').nearest).toBe('bar abs');
    expect(refuse('1 psi', 'pressure_absolute').nearest).toBe('psi abs');
    expect(refuse('1 bar abs', 'pressure_gauge').nearest).toBe('bar');
  });

  it('says what the wrong unit measures and what was wanted', () => {
    expect(refuse('350 kg', 'voltage')).toMatchObject({ found: 'kg (a mass)', expected: 'a voltage in µV, mV, V or kV' });
    expect(refuse('2/0', 'area').expected).toBe('an area in mm² or AWG');
    expect(refuse('12,4 kg', 'mass').expected).toContain('write 12.4, with a point');
  });

  it('offers the nearest spelling of a unit or a basis, never another quantity’s', () => {
    expect(refuse('3 kgg', 'mass').nearest).toBe('kg');
    expect(refuse('8 gal', 'volume').nearest).toBe('US gal');
    expect(refuse('3 kg lable', 'mass').nearest).toBeUndefined();
    expect(refuse('3 kg labell', 'mass').nearest).toBe('label');
    expect(refuse('40 kwH', 'energy').nearest).toBe('kWh');
  });
});

describe('readQuantity: any text at all', () => {
  const check = (text: string, quantity: QuantityName): void => {
    const reading = readQuantity(text, quantity, 'p');
    if (reading.ok) {
      const { nominal, low, high } = reading.value;
      for (const x of [nominal, low, high]) if (!Number.isFinite(x)) throw new Error(`${text} gave ${x}`);
      if (!(low <= nominal && nominal <= high)) throw new Error(`${text} gave ${low}, ${nominal}, ${high}`);
      if (!units.get(reading.value.unit)!.serves.includes(quantity)) throw new Error(`${text} has unit ${reading.value.unit}`);
    } else {
      const { at, length, found, expected } = reading.problem;
      if (!(Number.isInteger(at) && Number.isInteger(length) && at >= 0 && length >= 0 && at + length <= text.length)) throw new Error(`${JSON.stringify(text)} has its problem at ${at}, ${length}`);
      if (found === '' || expected === '') throw new Error('a problem without words');
    }
  };
  const scraps = fc.constantFrom('1', '12.4', '0', '-3', '3/8', '1 1/2', '2/0', '1e308', '1e-320', '..', '…', '±', '+/-', '+', '-', '(', ')', '%', ' ', '  ', 'kg', 'mm', 'ft', 'in', '"', "'", '°C', 'K', 'V', 'bar', 'bar abs', 'AWG', 'measured', 'label', 'mesured', '~', ',', '.', '/', 'e', '½', '−', 'US', 'gal/min', 'x', 'toString', '__proto__', 'constructor');

  it('gives a finite quantity or a located problem, and never throws, for arbitrary text', () => {
    fc.assert(fc.property(fc.string({ unit: 'grapheme' }), fc.constantFrom(...names), check), { numRuns: 2000 });
  });
  it('and for scraps of the grammar in any order', () => {
    fc.assert(fc.property(fc.array(scraps, { maxLength: 10 }).map((list) => list.join('')), fc.constantFrom(...names), check), { numRuns: 20_000 });
  });
  it('and for very long texts, without hanging', () => {
    const started = performance.now();
    for (const piece of ['1', '9.', ' ', 'k', '1 ', '1/', '1,', '+', '±1', '(', '..', "5'", '-', 'US ', '%', '.', '1 kg ', 'N m ', '\u00a0', '½', '00']) for (const head of ['', '3 kg ', '3 ', '3 kg +1', '3 kg ±', '3 kg (']) for (const name of ['mass', 'length', 'area', 'ratio'] as const) {
      check(head + piece.repeat(10_000 / piece.length), name);
    }
    expect(performance.now() - started).toBeLessThan(2000);
  });
});
