import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { class5Rows, resistanceAt, resistancePerLength20 } from './conductor-resistance.ts';

describe('resistancePerLength20', () => {
  it('refuses areas outside 0.2..400 mm2, also not a number', () => {
    for (const area of [0, 0.19e-6, 401e-6, Number.NaN, -1e-6]) expect(() => resistancePerLength20({ area, material: 'copper' })).toThrow('0.2..400 mm2');
  });
  it('takes the published row within 1 % of a standard size', () => {
    expect(resistancePerLength20({ area: 35.2e-6, material: 'copper' })).toBe(0.554e-3);
    expect(resistancePerLength20({ area: 50e-6, material: 'copper' })).toBe(0.386e-3);
  });
  it('is never below resistivity over area, and never more than 20 % above it', () => {
    fc.assert(fc.property(fc.double({ min: 0.2e-6, max: 400e-6, noNaN: true }), (area) => {
      const ratio = (resistancePerLength20({ area, material: 'copper' }) * area) / 17.241e-9;
      expect(ratio).toBeGreaterThan(1.05);
      expect(ratio).toBeLessThan(1.2);
    }));
  });
  it('falls as the area grows, from size to size and between', () => {
    const areas = class5Rows.flatMap(([area], index) => {
      const next = class5Rows[index + 1];
      return next ? [area, Math.sqrt(area * next[0])] : [area];
    });
    const values = areas.map((area) => resistancePerLength20({ area, material: 'copper' }));
    values.slice(1).forEach((value, index) => expect(value).toBeLessThan(values[index]!));
  });
  it('gives aluminium the ratio of the resistivities', () => {
    expect(resistancePerLength20({ area: 50e-6, material: 'aluminium' }) / resistancePerLength20({ area: 50e-6, material: 'copper' })).toBeCloseTo(28.264 / 17.241, 12);
  });
});

describe('resistanceAt', () => {
  it('is the given value at 20 °C and zero for zero', () => {
    expect(resistanceAt(1e-3, 293.15, 'copper')).toBe(1e-3);
    expect(resistanceAt(0, 400, 'aluminium')).toBe(0);
  });
  it('refuses Celsius passed for kelvin', () => {
    expect(() => resistanceAt(1, 90, 'copper')).toThrow('200..700 K');
  });
});
