/**
 * Factors of the unit table against the printed factors.
 *
 * Source:  NIST Special Publication 811, 2008 edition, appendix B.8 (alphabetical list) and B.9.
 * Read by: from memory of SP 811 B.8, digits as printed (seven significant, or exact in bold print). Not opened here.
 * Grade:   published value, from memory.
 * Limits:  half of the last printed digit.
 * Every row of the unit table whose source is SP 811 must stand here. Rows with source SI are held against their prefix.
 */
import { describe, expect, it } from 'vitest';
import { fromUnit } from '../../core/quantity/unit-conversion.ts';
import { units } from '../../core/quantity/unit-table.ts';

const printed: Readonly<Record<string, string>> = {
  in: '2.54 E-02', ft: '3.048 E-01', yd: '9.144 E-01', mi: '1.609344 E+03', mil: '2.54 E-05',
  'in²': '6.4516 E-04', 'ft²': '9.290304 E-02', kcmil: '5.067075 E-07',
  'US fl oz': '2.957353 E-05', 'US pt': '4.731765 E-04', 'US qt': '9.463529 E-04', 'US gal': '3.785412 E-03', 'UK gal': '4.54609 E-03', 'in³': '1.638706 E-05', 'ft³': '2.831685 E-02',
  oz: '2.834952 E-02', lb: '4.535924 E-01', 'lb/ft³': '1.601846 E+01', 'lb/in³': '2.767990 E+04', 'lb/US gal': '1.198264 E+02',
  min: '6.0 E+01', h: '3.6 E+03', d: '8.64 E+04',
  'km/h': '2.777778 E-01', mph: '4.4704 E-01', 'ft/s': '3.048 E-01', 'ft/s²': '3.048 E-01', g_n: '9.80665 E+00',
  '°': '1.745329 E-02', rev: '6.283185 E+00', rpm: '1.047198 E-01',
  lbf: '4.448222 E+00', kgf: '9.80665 E+00', 'lbf·ft': '1.355818 E+00', 'lbf·in': '1.129848 E-01', 'kgf·m': '9.80665 E+00',
  mbar: '1.0 E+02', bar: '1.0 E+05', psi: '6.894757 E+03', mmHg: '1.333224 E+02', inHg: '3.386389 E+03', mH2O: '9.80665 E+03', inH2O: '2.490889 E+02',
  bar_gauge: '1.0 E+05', psi_gauge: '6.894757 E+03', mbar_abs: '1.0 E+02', bar_abs: '1.0 E+05', psi_abs: '6.894757 E+03',
  'L/min': '1.666667 E-05', 'US gal/min': '6.309020 E-05', 'ft³/min': '4.719474 E-04',
  '°C diff': '1.0 E+00', '°F diff': '5.555556 E-01', '°C': '1.0 E+00', '°F': '5.555556 E-01',
  mAh: '3.6 E+00', Ah: '3.6 E+03', Wh: '3.6 E+03', kWh: '3.6 E+06', Btu: '1.055056 E+03', 'Btu/h': '2.930711 E-01', hp: '7.456999 E+02', PS: '7.354988 E+02',
  'mΩ/ft': '3.280840 E-03', 'Ω/ft': '3.280840 E+00', 'Ω/kft': '3.280840 E-03',
};

/** factors that are exact as printed; all others are rounded to the digits shown */
const exact = new Set(['in', 'ft', 'yd', 'mi', 'mil', 'in²', 'ft²', 'UK gal', 'min', 'h', 'd', 'mph', 'ft/s', 'ft/s²', 'g_n', 'kgf', 'kgf·m', 'mbar', 'bar', 'bar_gauge', 'mbar_abs', 'bar_abs', 'mH2O', '°C diff', '°C', 'mAh', 'Ah', 'Wh', 'kWh']);

describe('unit factors after NIST SP 811', () => {
  it('has a printed factor for each row that claims one, and none besides', () => {
    expect(Object.keys(printed).sort()).toEqual([...units.values()].filter((row) => row.source.startsWith('NIST')).map((row) => row.key).sort());
  });

  it.each(Object.entries(printed))('%s is %s', (key, text) => {
    const [mantissa, exponent] = text.split(' E') as [string, string];
    const factor = Number(`${mantissa}e${exponent}`);
    const half = 0.5 * 10 ** (Number(exponent) - (mantissa.split('.')[1] ?? '').length);
    expect(Math.abs(units.get(key)!.factor - factor)).toBeLessThanOrEqual(exact.has(key) ? 1e-15 * factor : half * 1.000001);
  });

  // SP 811 B.9: K = °C + 273.15, K = (°F + 459.67)/1.8
  it.each([[0, '°C', 273.15], [-273.15, '°C', 0], [100, '°C', 373.15], [-459.67, '°F', 0], [32, '°F', 273.15], [68, '°F', 293.15], [212, '°F', 373.15]] as const)('%d %s is %d K', (number, key, kelvin) => {
    expect(Math.abs(fromUnit(number, key, 'temperature') - kelvin)).toBeLessThan(1e-10);
  });

  // SP 811 table 5: the SI prefixes
  const prefixes: Readonly<Record<string, number>> = { p: 1e-12, n: 1e-9, 'µ': 1e-6, m: 1e-3, c: 1e-2, h: 1e2, k: 1e3, M: 1e6, G: 1e9 };
  const pairs = [...units.values()].flatMap((row) => {
    const base = [...units.values()].find((other) => other.serves[0] === row.serves[0] && other !== row && row.key.length > 1 && row.key.slice(1) === other.key && prefixes[row.key.charAt(0)] !== undefined);
    return base === undefined ? [] : [[row.key, base.key] as const];
  }).filter(([key]) => !['mm²', 'cm²', 'm³'].includes(key) && key !== 'min' && key !== 'ft');
  it('finds most prefixed units of the table', () => expect(pairs.length).toBeGreaterThan(50));
  it.each(pairs)('%s is its prefix times %s', (key, base) => {
    expect(units.get(key)!.factor / (units.get(base)!.factor * prefixes[key.charAt(0)]!)).toBeCloseTo(1, 12);
  });

  // the rows left: powers and ratios of SI units, each written out here a second time
  it.each([
    ['mm²', 0.001 * 0.001], ['cm²', 0.01 * 0.01], ['mL', 0.01 ** 3], ['L', 0.1 ** 3], ['t', 1000], ['kg/L', 1 / 0.001], ['g/cm³', 0.001 / 0.01 ** 3], ['N·cm', 0.01], ['L/h', 0.001 / 3600], ['L/s', 0.001], ['mL/min', 1e-6 / 60], ['m³/h', 1 / 3600],
    ['US gal/h', 3.785411784e-3 / 3600], ['Ω/km', 1 / 1000], ['K/kW', 1 / 1000], ['K·cm/W', 0.01], ['%', 1 / 100], ['‰', 1 / 1000], ['°/s', Math.PI / 180], ['kA²s', 1e3],
  ] as const)('%s is %d of its coherent unit', (key, factor) => expect(units.get(key)!.factor / factor).toBeCloseTo(1, 12));
});
