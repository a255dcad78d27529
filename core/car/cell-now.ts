/**
 * A cell of the file at a state of charge and a temperature: its open-circuit voltage and resistance.
 */
import type { Catalogue } from '../part/catalogue.ts';
import type { CellNow, Conditions } from '../part/kind.ts';
import type { Plain } from './realise.ts';
import { cellVoltage } from '../physics/cell-voltage.ts';
import { resistanceFactor } from '../physics/cell-resistance.ts';

/**
 * @param fields      plain fields of the cell: capacity [C], resistance [ohm] at 25 °C, …
 * @param conditions  charge [1] and cell temperature [K]
 * @returns undefined when the catalogue has no curve for the chemistry, or the conditions are outside it
 */
export function cellNow(name: string, fields: Plain, conditions: Conditions, catalogue: Catalogue): CellNow | undefined {
  const chemistry = fields['chemistry'] as string;
  throw new Error(`not yet: ${name} ${chemistry} ${String(conditions)} ${String(catalogue)} ${String(cellVoltage)} ${String(resistanceFactor)}`);
}
