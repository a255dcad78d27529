import { describe, expect, it } from 'vitest';
import { quantities, type QuantityName } from './quantity-table.ts';
import { fromUnit, toUnit } from './unit-conversion.ts';
import { readUnit } from './unit-spelling.ts';
import { unitOf, units } from './unit-table.ts';

const names = Object.keys(quantities) as QuantityName[];

describe('unit table', () => {
  it('throws for a unit that does not exist or does not serve the quantity', () => {
    expect(() => unitOf('furlong', 'length')).toThrow('furlong');
    expect(() => toUnit(1, 'kg', 'length')).toThrow('does not serve');
    expect(() => toUnit(300, '°C', 'temperature_difference')).toThrow('does not serve');
  });

  it('has every preferred unit of every quantity, smallest first', () => {
    for (const name of names) for (const list of [quantities[name].metric, quantities[name].imperial]) {
      const factors = list.map((key) => unitOf(key, name).factor);
      expect(factors, name).toEqual([...factors].sort((a, b) => a - b));
    }
  });

  it('has a unit of factor one, or only scaled ones by choice, for each quantity', () => {
    for (const name of names) expect([...units.values()].filter((row) => row.serves.includes(name)).length, name).toBeGreaterThan(0);
    for (const row of units.values()) {
      expect(row.factor, row.key).toBeGreaterThan(0);
      expect(row.offset !== 0, row.key).toBe(row.key === '°C' || row.key === '°F');
      expect(new Set(row.serves).size).toBe(row.serves.length);
    }
  });

  it('reads every key, printed form and spelling back as its own row, alone and before a basis', () => {
    for (const row of units.values()) for (const name of row.serves) for (const spelling of [row.key, row.printed, ...row.spellings]) {
      if (spelling === '' || row.key === '1') continue;
      expect(readUnit(spelling, 0, name), `${spelling} for ${name}`).toMatchObject({ outcome: 'found', unit: { key: row.key }, end: spelling.length });
      expect(readUnit(`${spelling} measured`, 0, name), `${spelling} measured`).toMatchObject({ outcome: 'found', unit: { key: row.key }, end: spelling.length });
    }
  });

  it.each([
    ['μΩ', 'resistance', 'µΩ'], ['uohm', 'resistance', 'µΩ'], ['Mohm', 'resistance', 'MΩ'], ['mOhm', 'resistance', 'mΩ'], ['k\u2126', 'resistance', 'kΩ'],
    ['m3', 'volume', 'm³'], ['m^3', 'volume', 'm³'], ['mm2', 'area', 'mm²'], ['sq mm', 'area', 'mm²'], ['sq.mm', 'area', 'mm²'], ['MCM', 'area', 'kcmil'],
    ['lbf·ft', 'torque', 'lbf·ft'], ['lbf ft', 'torque', 'lbf·ft'], ['ft-lb', 'torque', 'lbf·ft'], ['ft lb', 'torque', 'lbf·ft'], ['lb-ft', 'torque', 'lbf·ft'], ['N.m', 'torque', 'N·m'], ['N m', 'torque', 'N·m'], ['Nm', 'torque', 'N·m'], ['in-lb', 'torque', 'lbf·in'],
    ['"', 'length', 'in'], ["'", 'length', 'ft'], ['″', 'length', 'in'], ["''", 'length', 'in'], ['in.', 'length', 'in'], ['inch', 'length', 'in'],
    ['bar abs', 'pressure_absolute', 'bar_abs'], ['bar_abs', 'pressure_absolute', 'bar_abs'], ['psia', 'pressure_absolute', 'psi_abs'], ['psig', 'pressure_gauge', 'psi_gauge'],
    ['l/min', 'volume_flow', 'L/min'], ['gpm', 'volume_flow', 'US gal/min'], ['US gal/min', 'volume_flow', 'US gal/min'],
    ['A2s', 'heating_integral', 'A²s'], ['A^2s', 'heating_integral', 'A²s'], ['A²·s', 'heating_integral', 'A²s'], ['A2 s', 'heating_integral', 'A²s'],
    ['mohm/m', 'resistance_per_length', 'mΩ/m'], ['ohm/km', 'resistance_per_length', 'Ω/km'], ['ohm/1000 ft', 'resistance_per_length', 'Ω/kft'], ['kohm/V', 'resistance_per_voltage', 'kΩ/V'],
    ['K m/W', 'thermal_resistivity', 'K·m/W'], ['K.m/W', 'thermal_resistivity', 'K·m/W'], ['lb/ft3', 'density', 'lb/ft³'], ['ºC', 'temperature', '°C'], ['deg C', 'temperature', '°C'], ['C', 'temperature', '°C'], ['C', 'charge', 'C'],
    ['uF', 'capacitance', 'µF'], ['m/s2', 'acceleration', 'm/s²'], ['g', 'acceleration', 'g_n'], ['g', 'mass', 'g'],
  ] as const)('takes %s of %s as %s', (spelling, quantity, key) => {
    expect(readUnit(spelling, 0, quantity)).toMatchObject({ outcome: 'found', unit: { key } });
  });

  it('keeps milli and mega apart, and refuses gallons and tons of no country', () => {
    expect(readUnit('mΩ', 0, 'resistance')).toMatchObject({ unit: { factor: 1e-3 } });
    expect(readUnit('MΩ', 0, 'resistance')).toMatchObject({ unit: { factor: 1e6 } });
    for (const [word, quantity] of [['gal', 'volume'], ['fl oz', 'volume'], ['ton', 'mass'], ['MV', 'voltage'], ['MA', 'current'], ['MF', 'capacitance']] as const) expect(readUnit(word, 0, quantity).outcome, word).toBe('unknown');
  });

  it('converts temperatures by their fixed points', () => {
    expect(fromUnit(0, '°C', 'temperature')).toBe(273.15);
    expect(fromUnit(32, '°F', 'temperature')).toBeCloseTo(273.15, 10);
    expect(fromUnit(212, '°F', 'temperature')).toBeCloseTo(373.15, 10);
    expect(fromUnit(-40, '°F', 'temperature')).toBeCloseTo(fromUnit(-40, '°C', 'temperature'), 10);
    expect(toUnit(293.15, '°C', 'temperature')).toBeCloseTo(20, 10);
  });

  it('undoes each conversion', () => {
    for (const row of units.values()) for (const name of row.serves) expect(toUnit(fromUnit(12, row.key, name), row.key, name), row.key).toBeCloseTo(12, 9);
  });
});
