/** Handbook rows and tables of fuses that are not fields of a kind. Numbers come from the formulas' own files in `core/physics`. */
import type { HandbookRow, HandbookTable } from '../core/part/catalogue.ts';
import { generalFuseGates } from '../core/physics/fuse-gates.ts';
import { pulseLife } from '../core/physics/fuse-repetitive.ts';

export const fuseRows: readonly HandbookRow[] = [
  { key: 'fuse_law.ambient_limit', quantity: 'temperature', value: '130 °C', range: '130..150 °C', source: 'fuse-maker-guides', note: 'a in the ambient factor: air at which a semiconductor fuse may carry nothing' },
  { key: 'fuse_law.reference_ambient', quantity: 'temperature', value: '30 °C', range: '25..30 °C', source: 'fuse-maker-guides', note: 'air at which the rating holds; blade fuses 20 °C' },
  { key: 'fuse_law.load_factor', quantity: 'ratio', value: '80 %', range: '60..100 %', source: 'fuse-maker-guides', note: 'continuous load over rating: 0.6 printed on one sheet (load that varies), 0.75 to 0.8 a usual rule, from memory' },
  { key: 'fuse_law.clearing_over_melting', quantity: 'number', value: '3', range: '1.5..6', source: 'common-practice', note: 'total clearing over melting I²t near rated voltage; the maker’s curve rules. Common practice, no source' },
  { key: 'fuse_law.minimum_breaking_over_rating', quantity: 'number', value: '4', range: '2.7..5', source: 'iec-60269-4', note: 'partial-range (aR) fuse: lowest current it may be asked to break, over its rating; from memory' },
];

export const fuseTables: readonly HandbookTable[] = [
  {
    key: 'fuse.pulse_life', columns: [{ name: 'pulses', quantity: 'number' }, { name: 'share of melting I²t', quantity: 'ratio' }],
    rows: pulseLife, source: 'fuse-maker-guides', note: 'at least 10 s between pulses',
  },
  {
    key: 'fuse.general_gates',
    columns: [{ name: 'rating', quantity: 'current' }, { name: 'carries 10 s', quantity: 'current' }, { name: 'opens within 5 s', quantity: 'current' }, { name: 'carries 0.1 s', quantity: 'current' }, { name: 'opens within 0.1 s', quantity: 'current' }],
    rows: generalFuseGates.map((gate) => [gate.rating, gate.carries10s, gate.opens5s, gate.carriesTenth, gate.opensTenth]),
    source: 'iec-60269-1', note: 'gG; from memory',
  },
];
