/** What is assumed around a vehicle whose file does not say, and about every joint. */
import type { HandbookRow } from '../core/part/catalogue.ts';

export const conditionRows: readonly HandbookRow[] = [
  { key: 'conditions.ambient', quantity: 'temperature', value: '30 °C', range: '10..40 °C', source: 'common-practice', note: 'air around the vehicle on a warm day; common practice, no source' },
  { key: 'conditions.cell_temperature', quantity: 'temperature', value: '20 °C', range: '10..30 °C', source: 'common-practice', note: 'cells in a garage; common practice, no source' },
  { key: 'conditions.state_of_charge', quantity: 'ratio', value: '80 %', range: '60..95 %', source: 'common-practice', note: 'a car that is used; common practice, no source' },
  { key: 'run.joint_resistance', quantity: 'resistance', value: '0.05 mΩ', range: '0.01..0.2 mΩ', source: 'common-practice', note: 'one crimped lug bolted to a clean face; common practice, no source' },
];
