import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printQuantity, printValue, rewriteQuantity, splitValue, toUnit } from './print-quantity.ts';
import { quantities, type QuantityName } from './quantity-table.ts';
import type { Quantity } from './quantity.ts';
import { readQuantity } from './read-quantity.ts';
import { areaOfWireGauge } from './wire-gauge.ts';
import { units } from './unit-table.ts';

const read = (text: string, quantity: QuantityName): Quantity => {
  const reading = readQuantity(text, quantity, 'p');
  if (!reading.ok) throw new Error(`${quantity} '${text}': ${JSON.stringify(reading.problem)}`);
  return reading.value;
};

describe('printValue', () => {
  it('throws rather than print what is not a number', () => {
    for (const x of [NaN, Infinity, -Infinity]) expect(() => printValue(x, 'voltage')).toThrow(RangeError);
    expect(() => printValue(1, 'voltage', { unit: 'kg' })).toThrow('does not serve');
  });
  it.each([
    [0, 'voltage', '0 V'], [0, 'length', '0 m'], [402.7, 'voltage', '403 V'], [-402.7, 'voltage', '-403 V'], [12, 'voltage', '12 V'], [12.345, 'voltage', '12.35 V'], [0.00042, 'voltage', '420 µV'], [1500, 'voltage', '1.5 kV'],
    [0.385, 'length', '385 mm'], [2.5, 'length', '2.5 m'], [999.96e-3, 'length', '1 m'], [31.5, 'mass', '31.5 kg'], [35e-6, 'area', '35 mm²'], [293.15, 'temperature', '20 °C'], [233.15, 'temperature', '-40 °C'], [5, 'temperature_difference', '5 K'],
    [0.85, 'ratio', '85 %'], [4, 'number', '4'], [45 * Math.PI / 180, 'angle', '45°'], [90, 'time', '90 s'], [1200, 'time', '20 min'], [36000, 'time', '10 h'], [0.25, 'time', '250 ms'], [40, 'energy', '40 J'], [5000, 'energy', '5 kJ'], [3.6e6, 'energy', '1 kWh'], [12345, 'torque', '12345 N·m'], [1e6, 'resistance', '1 MΩ'],
    [2e5, 'pressure_absolute', '200 kPa abs'], [1e-12, 'voltage', '1e-6 µV'], [1e15, 'voltage', '1e12 kV'],
  ] as const)('prints %d of %s as %s', (si, quantity, text) => expect(printValue(si, quantity)).toBe(text));
  it('uses the units of the system or the unit asked for', () => {
    expect(printValue(0.0254, 'length', { system: 'imperial' })).toBe('1 in');
    expect(printValue(293.15, 'temperature', { system: 'imperial' })).toBe('68 °F');
    expect(printValue(9, 'temperature_difference', { system: 'imperial' })).toBe('16.2 °F diff');
    expect(printValue(1e5, 'pressure_gauge', { unit: 'bar' })).toBe('1 bar');
    expect(printValue(areaOfWireGauge(-1), 'area', { unit: 'AWG' })).toBe('2/0 AWG');
    expect(printValue(50e-6, 'area', { unit: 'AWG' })).toBe('50 mm²');
    expect(splitValue(0.0123, 'current')).toEqual({ number: '12.3', unit: 'mA' });
  });
  it('rounds to the side asked for, and not at all when there is nothing to round', () => {
    expect(printValue(402.1, 'voltage', { rounding: 'up' })).toBe('403 V');
    expect(printValue(402.9, 'voltage', { rounding: 'down' })).toBe('402 V');
    expect(printValue(-402.1, 'voltage', { rounding: 'down' })).toBe('-403 V');
    expect(printValue(0.3, 'length', { rounding: 'up' })).toBe('300 mm');
    expect(printValue(0.1 + 0.2, 'voltage', { unit: 'V', rounding: 'up' })).toBe('0.3 V');
  });
  it('never prints NaN, -0 or a plus in an exponent, and stays within half a unit of its third digit (0.25 %)', () => {
    fc.assert(fc.property(fc.double({ min: -1e12, max: 1e12, noNaN: true }), fc.constantFrom(...(Object.keys(quantities) as QuantityName[])), (x, name) => {
      const { number, unit } = splitValue(x, name);
      const row = [...units.values()].find((candidate) => candidate.printed === unit && candidate.serves.includes(name))!;
      expect(number).toMatch(/^(?!-0$)-?\d+(\.\d*[1-9])?(e-?\d+)?$/);
      const exact = toUnit(x, row.key, name);
      expect(Math.abs(Number(number) - exact)).toBeLessThanOrEqual(0.0025001 * Math.abs(exact) + 1e-322);
    }));
  });
});

describe('printQuantity', () => {
  it.each([
    ['31.5 kg ±0.5 measured', 'mass'], ['0.8 mF ±30 % estimate', 'capacitance'], ['0.8..1.2 mF estimate', 'capacitance'], ['350 A label', 'current'], ['2/0 AWG label', 'area'], ['62 °C ±3 measured', 'temperature'], ['85 % ±5 % estimate', 'ratio'], ['0.3 mΩ (0.1..0.9) handbook', 'resistance'],
    ['12 mm +0.2/-0.1 drawing', 'length'], ['100 kg ±1 measured', 'mass'], ['402.7 V label', 'voltage'], ['4 ±0 estimate', 'number'], ['45° ±1 measured', 'angle'], ['1.2 bar abs ±0.1 label', 'pressure_absolute'], ['6 AWG ±5 % label', 'area'], ['0 V estimate', 'voltage'], ['0.85 ±0.05 label', 'ratio'],
  ] as const)('gives %s back as it was written', (text, quantity) => expect(printQuantity(read(text, quantity))).toBe(text));
  it('cuts digits that the tolerance makes meaningless', () => {
    expect(printQuantity(read('1/3 in ±0.01 measured', 'length'))).toBe('0.333 in ±0.01 measured');
    expect(printQuantity(read('31.5 kg ±0.5 measured', 'mass'), { system: 'imperial' })).toBe('69.4 lb ±1.1 measured');
    expect(printQuantity(read('100 °F ±5 measured', 'temperature'), { unit: '°C' })).toBe('37.8 °C ±2.8 measured');
  });
  it('shows the default tolerance, none, or no basis when asked', () => {
    const q = read('350 A label', 'current');
    expect(printQuantity(q, { tolerance: 'always' })).toBe('350 A ±5 % label');
    expect(printQuantity(read('350 A ±10 label', 'current'), { tolerance: 'never', basis: false })).toBe('350 A');
  });
});

describe('reading what was printed', () => {
  const number = fc.double({ min: 1e-4, max: 1e5, noNaN: true });
  const form = fc.constantFrom('default', 'even', 'share', 'unlike', 'range', 'bracket', 'none');
  const basis = fc.constantFrom('measured', 'label', 'datasheet', 'drawing', 'handbook', 'estimate');

  it('gives the same quantity, for every quantity in every unit', () => {
    for (const row of units.values()) for (const name of row.serves) {
      fc.assert(fc.property(number, fc.double({ min: 1e-3, max: 0.9, noNaN: true }), form, basis, fc.boolean(), (x, share, shape, word, isNegative) => {
        const isGauge = row.scale === 'wire_gauge';
        const isBareRatio = name === 'ratio' && row.key === '1';
        const value = isGauge ? Math.floor(x) % 57 : isBareRatio ? x / 2e5 : isNegative && name !== 'temperature' ? -x : x;
        const size = isGauge || isBareRatio ? share * Math.abs(value) : share * x;
        const tail = isGauge ? ' mm²' : '';
        const by = isGauge && shape === 'unlike' ? share * 0.1 : size;
        if (isGauge && (shape === 'even' || shape === 'range' || shape === 'bracket')) return;
        if (shape === 'share' && (name === 'temperature' || name === 'ratio')) return;
        const unit = row.printed;
        const text = shape === 'range' ? `${value - size}..${value + size} ${unit} ${word}`
          : `${value} ${unit} ${shape === 'even' ? `±${by}` : shape === 'share' ? `±${share * 100} %` : shape === 'unlike' ? `+${by}/-${by / 3}${tail}` : shape === 'bracket' ? `(${value - size}..${value + size / 2})` : shape === 'none' ? `±0${isGauge ? ' %' : ''}` : ''} ${word}`;
        const q = read(text, name);
        const width = Math.max(q.high - q.nominal, q.nominal - q.low, 1e-6 * Math.abs(q.nominal));
        const again = read(rewriteQuantity(q), name);
        expect(again).toEqual({ ...q, nominal: again.nominal, low: again.low, high: again.high });
        for (const end of ['nominal', 'low', 'high'] as const) expect(Math.abs(again[end] - q[end]), `${text} -> ${rewriteQuantity(q)}`).toBeLessThanOrEqual(1e-12 * (Math.abs(q.nominal) + width) + 1e-8 * width);
        const shown = read(printQuantity(q), name);
        expect(shown).toMatchObject({ unit: q.unit, basis: q.basis, toleranceIsStated: q.toleranceIsStated });
        for (const end of ['nominal', 'low', 'high'] as const) expect(Math.abs(shown[end] - q[end]), `${text} -> ${printQuantity(q)}`).toBeLessThanOrEqual(0.11 * width + 1e-5 * Math.abs(q.nominal));
      }), { numRuns: 60 });
    }
  });
});
