/**
 * Cells against open data: piecewise open-circuit voltage of three cylindrical cells (knots in the catalogue), the LG M50 21700
 * (NMC 811) open-circuit voltage and pulse resistances at 0 .. 45 °C, and the About:Energy 2 Ah LFP cell at C/20.
 * Read from the project's reference notes (section 10) and the data files beside the repository, `../shared/reference/data/battery`.
 * Grades: published value (open data); other cell of the same chemistry = comparison.
 *
 * Tolerances:
 * - mid values of the notes: 0.6 mV (printed to 1 mV);
 * - nmc table against the 101-point curve it was thinned from: 10 mV between points;
 * - nmc table against rest voltages of the pulse test, another measurement on six cells: 10 mV from 20 to 90 % (found 8),
 *   80 mV at 10 % (found 67), where the curve is steep and each test counts its own charge;
 * - lfp table against the C/20 discharge of another maker's cell: 40 mV from 15 to 95 %, discharge side only, so below (found 11 .. 33 mV);
 * - another NCA cell against the nca table: 90 mV: this is how far two cells of one family lie apart at low charge;
 * - resistance law: handbook 20 kJ/mol must not be below the LG M50 in the cold and is 0 .. 45 % above it at 0 °C (cautious); the LG M50
 *   itself gives 10.8 kJ/mol from 0 to 25 °C and about 1 kJ/mol from 25 to 45 °C: one number does not fit a whole cell.
 */
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { catalogue } from '../../catalogue/index.ts';
import { GAS_CONSTANT, resistanceFactor } from '../../core/physics/cell-resistance.ts';
import { cellCharge, cellVoltage } from '../../core/physics/cell-voltage.ts';
import { equalisingCurrent } from '../../core/physics/parallel-strings.ts';

const folder = new URL('../../../shared/reference/data/battery/', import.meta.url);
const isThere = existsSync(folder);
if (!isThere) console.log('cells.open-data: SKIPPED, no data folder ../shared/reference/data/battery beside the repository: LG M50 curve, rest voltages and resistances, LFP C/20 curve are not compared');

const curveOf = (name: string): readonly (readonly number[])[] => catalogue.tables.get(`cell.ocv.${name}`)!.rows;
const voltageAt = (name: string, charge: number): number => {
  const found = cellVoltage(curveOf(name), charge);
  if (found.outcome !== 'voltage') throw new Error(`outside the curve: ${charge}`);
  return found.voltage;
};
const table = (file: string): readonly (readonly number[])[] =>
  readFileSync(new URL(file, folder), 'utf8').trim().split('\n').slice(1).map((line) => line.split(',').map((text) => (text === '' ? Number.NaN : Number(text))));

describe('piecewise open-circuit voltage, mid values', () => {
  for (const [name, voltage] of [['nca', 3.743], ['nca_second', 3.74], ['lfp', 3.299]] as const) {
    it(`${name} at 50 %: ${voltage} V`, () => {
      expect(Math.abs(voltageAt(name, 0.5) - voltage)).toBeLessThan(0.0006);
    });
  }
  it('LFP is worth 9 % of charge per 10 mV, and 0.11 V per unit, in the middle', () => {
    const found = cellCharge(curveOf('lfp'), 3.3);
    expect(found.outcome === 'charge' && found.perVolt * 0.01).toBeCloseTo(0.09, 2);
    const slope = cellVoltage(curveOf('lfp'), 0.5);
    expect(slope.outcome === 'voltage' && slope.slope).toBeCloseTo(0.11, 2);
  });
  it('two power cells of one family lie within 20 mV of each other from 10 to 95 %', () => {
    for (let charge = 0.1; charge <= 0.95; charge += 0.05) expect(Math.abs(voltageAt('nca', charge) - voltageAt('nca_second', charge))).toBeLessThan(0.02);
  });
  it('a third NCA cell, 101-point table in the notes, 20 to 50 %: within 90 mV of the knots below 40 %, 20 mV above', () => {
    for (const [percent, voltage] of [[20, 3.3904], [25, 3.4804], [30, 3.5202], [35, 3.5787], [40, 3.643], [45, 3.6931], [50, 3.7403]] as const) {
      expect(Math.abs(voltageAt('nca', percent / 100) - voltage), `${percent} %`).toBeLessThan(percent < 40 ? 0.09 : 0.02);
    }
  });
});

describe('LG M50 open-circuit voltage', () => {
  it.skipIf(!isThere)('nmc table meets all 101 points within 10 mV, 2.8723, 3.6935 and 4.1753 V at 0, 50, 100 %', () => {
    const rows = table('lgm50-21700-ocv-25C.csv');
    expect(rows.length).toBe(101);
    for (const [percent, voltage] of rows) expect(Math.abs(voltageAt('nmc', percent! / 100) - voltage!), `${percent} %`).toBeLessThan(0.01);
    expect(voltageAt('nmc', 0)).toBeCloseTo(2.8723, 4);
    expect(voltageAt('nmc', 0.5)).toBeCloseTo(3.6935, 4);
    expect(voltageAt('nmc', 1)).toBeCloseTo(4.1753, 4);
  });
  it.skipIf(!isThere)('nmc table meets the rest voltages of the pulse test at 25 °C', () => {
    const rest = table('lgm50-21700-pulse-resistance.csv').filter(([celsius]) => celsius === 25);
    expect(rest.length).toBe(9);
    for (const [, percent, , , voltage] of rest) expect(Math.abs(voltageAt('nmc', percent! / 100) - voltage!), `${percent} %`).toBeLessThan(percent! >= 20 ? 0.01 : 0.08);
  });
});

describe('LFP cell of another maker at C/20', () => {
  it.skipIf(!isThere)('lies within 40 mV of the lfp table from 15 to 95 %, below it', () => {
    for (const [percent, voltage] of table('lfp-18650-2Ah-25C-quasi-ocv.csv')) {
      if (percent! < 15 || percent! > 95) continue;
      const difference = voltageAt('lfp', percent! / 100) - voltage!;
      expect(difference, `${percent} %`).toBeGreaterThan(0);
      expect(difference, `${percent} %`).toBeLessThan(0.04);
    }
  });
});

describe('resistance over temperature', () => {
  const factor = (energy: number, celsius: number): number => {
    const found = resistanceFactor(energy, celsius + 273.15);
    if (found.outcome !== 'factor') throw new Error('outside');
    return found.factor;
  };
  it('formula rows of the notes: 30 kJ/mol ×3.03, ×8.6, ×0.47; 20 kJ/mol ×2.1, ×4.2, ×0.60 at 0, -20, 45 °C', () => {
    for (const [energy, celsius, expected, digits] of [[30e3, 0, 3.03, 2], [30e3, -20, 8.6, 1], [30e3, 45, 0.47, 2], [20e3, 0, 2.1, 1], [20e3, -20, 4.2, 1], [20e3, 45, 0.6, 2]] as const) {
      expect(factor(energy, celsius)).toBeCloseTo(expected, digits);
    }
  });
  it.skipIf(!isThere)('LG M50, 10 s at 50 %: 50.67/39.21/34.04/33.04 mohm; the handbook factor errs to the high side in the cold', () => {
    const at = new Map(table('lgm50-21700-pulse-resistance.csv').filter(([, percent]) => percent === 50).map((row) => [row[0]!, row[6]!]));
    expect([0, 10, 25, 45].map((celsius) => at.get(celsius)!.toFixed(2))).toEqual(['50.67', '39.21', '34.04', '33.04']);
    for (const [kelvin, ohm] of catalogue.tables.get('cell.resistance.nmc_example')!.rows) expect(Math.abs(at.get(Math.round(kelvin! - 273.15))! / (ohm! * 1e3) - 1)).toBeLessThan(2e-4);
    const handbook = Number(catalogue.rows.get('cell.activation_energy')!.value);
    for (const celsius of [0, 10]) {
      const ratio = factor(handbook, celsius) / (at.get(celsius)! / at.get(25)!);
      expect(ratio, `${celsius} °C`).toBeGreaterThan(1);
      expect(ratio, `${celsius} °C`).toBeLessThan(1.45);
    }
    const fitted = (GAS_CONSTANT * Math.log(at.get(0)! / at.get(25)!)) / (1 / 273.15 - 1 / 298.15);
    expect(fitted).toBeCloseTo(10_770, -2);
    const row = (key: string): { value: number; low: number; high: number } => {
      const { value, range } = catalogue.rows.get(key)!;
      const [low, high] = range.split('..').map(Number);
      return { value: Number(value), low: low!, high: high! };
    };
    // measured 11 kJ/mol lies at the low end of the cold row; its high end is the ×8 at -20 °C of the notes
    const cold = row('cell.activation_energy');
    expect(Math.abs(fitted / cold.low - 1)).toBeLessThan(0.03);
    expect(factor(cold.high, -20)).toBeGreaterThan(7.8);
    expect(factor(cold.high, -20)).toBeLessThan(8.2);
    // one energy for both sides promised 0.60 at 45 °C where 0.97 was measured; the warm row covers the measured cell and the notes' 0.6 .. 0.8
    const warm = row('cell.activation_energy_warm');
    const measured = at.get(45)! / at.get(25)!;
    expect(factor(warm.low, 45)).toBeGreaterThan(measured);
    expect(factor(warm.high, 45)).toBeLessThan(0.61);
    expect(Math.abs(factor(warm.value, 45) / measured - 1)).toBeLessThan(0.2);
  });
});

describe('strings joined in parallel (closed form)', () => {
  it('0.5 V over 2 x 10 mohm + 5 mohm: 20 A at first', () => {
    expect(equalisingCurrent({ difference: 0.5, resistance: 0.025, capacity: [360_000, 360_000], slope: [10, 10] }).current).toBeCloseTo(20, 12);
  });
  it('moves half of the difference of charge when the strings are equal', () => {
    const { charge } = equalisingCurrent({ difference: 0.5, resistance: 0.025, capacity: [360_000, 360_000], slope: [10, 10] });
    expect(charge).toBeCloseTo((0.05 * 360_000) / 2, 9);
  });
});
