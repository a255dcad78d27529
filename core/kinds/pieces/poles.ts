/** The two high-voltage poles of a part. */
import type { Port } from '../../part/kind.ts';

/** @param holds lugs that a stud takes */
export const poles = (holds = 2): readonly Port[] => [
  { name: 'pos', carries: 'high_voltage', meaning: 'high-voltage positive', holds, pole: 'positive' },
  { name: 'neg', carries: 'high_voltage', meaning: 'high-voltage negative', holds, pole: 'negative' },
];

/** The two ends of a part that sits in one pole. */
export const seriesEnds = (holds = 2): readonly Port[] => [
  { name: 'in', carries: 'high_voltage', meaning: 'end towards the battery', holds },
  { name: 'out', carries: 'high_voltage', meaning: 'end away from the battery', holds },
];
