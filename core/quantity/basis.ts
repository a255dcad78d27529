import type { QuantityName } from './quantity-table.ts';

/**
 * Where a number came from, and the tolerance that goes with it when the builder gives none.
 * The defaults are common practice, no source: a scale or a tape in a garage, a rating plate, a data sheet's typical column.
 * `tolerance` is a share of the value; a temperature has no natural zero for a share, so it takes `temperatureTolerance` [K];
 * a coordinate, for the same reason, takes `placeTolerance` [m].
 */
export const bases = {
  measured: { tolerance: 0.02, temperatureTolerance: 2, placeTolerance: 0.005, meaning: 'read by the builder on an instrument' },
  label: { tolerance: 0.05, temperatureTolerance: 3, placeTolerance: 0.005, meaning: 'on the part’s rating plate or printing' },
  datasheet: { tolerance: 0.05, temperatureTolerance: 3, placeTolerance: 0.005, meaning: 'from the maker’s data sheet' },
  drawing: { tolerance: 0.01, temperatureTolerance: 2, placeTolerance: 0.002, meaning: 'from a dimensioned drawing' },
  handbook: { tolerance: 0.3, temperatureTolerance: 10, placeTolerance: 0.05, meaning: 'a value usual in the trade, from the catalogue' },
  estimate: { tolerance: 0.2, temperatureTolerance: 5, placeTolerance: 0.03, meaning: 'the builder’s guess' },
} as const satisfies Record<string, { tolerance: number; temperatureTolerance: number; placeTolerance: number; meaning: string }>;

export type Basis = keyof typeof bases;

/** Half-width [SI] that goes with a basis when the builder states no tolerance. */
export function defaultTolerance(quantity: QuantityName, nominal: number, basis: Basis): number {
  if (quantity === 'temperature') return bases[basis].temperatureTolerance;
  if (quantity === 'coordinate') return bases[basis].placeTolerance;
  return Math.abs(nominal) * bases[basis].tolerance;
}
