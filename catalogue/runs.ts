/** Handbook rows of the run kinds. */
import type { HandbookRow } from '../core/part/catalogue.ts';

export const runRows: readonly HandbookRow[] = [
  { key: 'run.fill_factor', quantity: 'ratio', value: '72 %', range: '65..78 %', source: 'common-practice', note: 'flexible conductors of class 5 and 6; secondary note. Diameters of BS 638-4 welding cable give 63 to 67 %' },
  { key: 'wire.wall', quantity: 'length', value: '0.35 mm', range: '0.2..0.65 mm', source: 'common-practice', note: 'thin-wall vehicle wire 0.35 to 10 mm²: 0.2 mm at the thin end, 0.65 mm at the thick end; from memory, no source' },
];
