/**
 * Handbook rows and tables of cells: voltage over charge by chemistry, voltage limits, resistance over temperature.
 *
 * Keys: tables `cell.ocv.<chemistry>` (state of charge, voltage); rows `cell.minimum_voltage.<chemistry>`,
 * `cell.nominal_voltage.<chemistry>`, `cell.maximum_voltage.<chemistry>`, `cell.activation_energy` (below 25 °C), `cell.activation_energy_warm` (above);
 * table `cell.resistance.nmc_example` (temperature, resistance).
 */
import type { HandbookRow, HandbookTable } from '../core/part/catalogue.ts';

export const cellTables: readonly HandbookTable[] = [
  curve('nmc', 'lgm50-open-data', 'NMC 811 against graphite with silicon, mean of charge and discharge at 25 °C; 25 points of a 101-point open data set', [
    [0, 2.872267], [0.01, 2.960528], [0.02, 3.02804], [0.03, 3.095552], [0.04, 3.163064], [0.05, 3.200129], [0.1, 3.323911], [0.15, 3.408082], [0.2, 3.464704],
    [0.25, 3.519751], [0.3, 3.568769], [0.35, 3.604007], [0.4, 3.631244], [0.45, 3.658717], [0.5, 3.693492], [0.55, 3.742817],
    [0.6, 3.806377], [0.65, 3.864033], [0.7, 3.907371], [0.75, 3.949632], [0.8, 4.001268], [0.85, 4.052802], [0.9, 4.084768],
    [0.95, 4.108041], [1, 4.175325],
  ]),
  curve('nca', 'piecewise-ocv-open-data', 'power cell with nickel-rich positive, C/32, room temperature, piecewise-linear knots', [
    [0, 2.5061], [0.0151, 2.8981], [0.0452, 3.1461], [0.0955, 3.3231], [0.1508, 3.4218], [0.2915, 3.5737], [0.4573, 3.7017],
    [0.8342, 4.0637], [0.9497, 4.1009], [1, 4.1932],
  ]),
  curve('nca_second', 'piecewise-ocv-open-data', 'another maker’s power cell, C/20: how far two cells of one chemistry lie apart', [
    [0, 2.5], [0.005, 2.808], [0.0352, 3.1179], [0.0854, 3.3182], [0.1357, 3.4193], [0.2915, 3.5826], [0.4523, 3.6941],
    [0.8392, 4.0664], [0.9548, 4.1121], [1, 4.2],
  ]),
  curve('lfp', 'piecewise-ocv-open-data', 'iron phosphate against graphite, C/32; so flat that 10 mV is worth 9 % of charge in the middle', [
    [0, 2.0102], [0.0033, 2.4177], [0.0117, 2.7405], [0.0267, 2.9299], [0.0534, 3.0872], [0.0885, 3.1942], [0.2972, 3.2772],
    [0.9833, 3.3511], [0.995, 3.418], [1, 3.5981],
  ]),
  curve('lmo', 'common-practice', 'manganese oxide against graphite; from memory, no source: believe it to 0.05 V', [
    [0, 3.0], [0.05, 3.45], [0.1, 3.6], [0.2, 3.72], [0.3, 3.79], [0.4, 3.84], [0.5, 3.89], [0.6, 3.95], [0.7, 4.0], [0.8, 4.06],
    [0.9, 4.11], [1, 4.2],
  ]),
  curve('lto', 'common-practice', 'manganese or nickel manganese cobalt oxide against titanate; from memory, no source: believe it to 0.05 V', [
    [0, 1.7], [0.05, 2.0], [0.1, 2.1], [0.2, 2.17], [0.3, 2.21], [0.4, 2.25], [0.5, 2.29], [0.6, 2.34], [0.7, 2.4], [0.8, 2.47],
    [0.9, 2.56], [1, 2.7],
  ]),
  {
    key: 'cell.resistance.nmc_example', source: 'lgm50-open-data',
    columns: [{ name: 'temperature', quantity: 'temperature' }, { name: '10 s resistance at 50 % charge', quantity: 'resistance' }],
    rows: [[273.15, 50.67e-3], [283.15, 39.21e-3], [298.15, 34.04e-3], [318.15, 33.04e-3]],
    note: 'one 5 Ah NMC 811 energy cell, mean of six: an example of how resistance falls with temperature, not a value for other cells',
  },
];

/** Usual limits by chemistry [V]; the maker's sheet rules over them. */
const limits: readonly { readonly chemistry: string; readonly minimum: readonly [string, string]; readonly nominal: readonly [string, string]; readonly maximum: readonly [string, string] }[] = [
  { chemistry: 'nmc', minimum: ['3', '2.5..3'], nominal: ['3.65', '3.6..3.7'], maximum: ['4.2', '4.1..4.2'] },
  { chemistry: 'nca', minimum: ['2.7', '2.5..3'], nominal: ['3.6', '3.6..3.65'], maximum: ['4.2', '4.1..4.2'] },
  { chemistry: 'lfp', minimum: ['2.5', '2..2.8'], nominal: ['3.2', '3.2..3.3'], maximum: ['3.6', '3.55..3.65'] },
  { chemistry: 'lmo', minimum: ['3', '2.7..3'], nominal: ['3.8', '3.7..3.85'], maximum: ['4.2', '4.1..4.2'] },
  { chemistry: 'lto', minimum: ['1.8', '1.5..2'], nominal: ['2.3', '2.2..2.4'], maximum: ['2.7', '2.65..2.8'] },
];

export const cellRows: readonly HandbookRow[] = [
  ...limits.flatMap(({ chemistry, minimum, nominal, maximum }): HandbookRow[] => [
    voltageRow(`cell.minimum_voltage.${chemistry}`, minimum, 'lowest in service'),
    voltageRow(`cell.nominal_voltage.${chemistry}`, nominal, 'as makers name the cell'),
    voltageRow(`cell.maximum_voltage.${chemistry}`, maximum, 'end of charge'),
  ]),
  {
    key: 'cell.activation_energy', quantity: 'number', value: '20000', range: '11000..29000', source: 'common-practice',
    note: 'J/mol, below 25 °C: 2.1 times the resistance at 0 °C (1.5 to 2.9), 4.2 times at -20 °C (2.2 to 8). Upper end: the 4 to 8 times at -20 °C of open literature (from memory); lower end: one NMC cell of open data, 11 kJ/mol between 0 and 25 °C',
  },
  {
    key: 'cell.activation_energy_warm', quantity: 'number', value: '8000', range: '1000..20000', source: 'common-practice',
    note: 'J/mol, above 25 °C: 0.82 times the resistance at 45 °C (0.60 to 0.97). Between the 0.6 to 0.8 times of open literature (from memory) and one NMC cell of open data, 0.97',
  },
];

function curve(chemistry: string, source: string, note: string, rows: readonly (readonly [number, number])[]): HandbookTable {
  return { key: `cell.ocv.${chemistry}`, columns: [{ name: 'state of charge', quantity: 'ratio' }, { name: 'open-circuit voltage', quantity: 'voltage' }], rows, source, note };
}

function voltageRow(key: string, [value, range]: readonly [string, string], note: string): HandbookRow {
  return { key, quantity: 'voltage', value: `${value} V`, range: `${range} V`, source: 'common-practice', note: `${note}; common practice, from memory: the cell’s own sheet rules` };
}
