/** The units in which a reader likes to see numbers: a system, and for some quantities a unit of their own. */
import type { PrintOptions } from '../core/quantity/print-value.ts';
import type { QuantityName } from '../core/quantity/quantity-table.ts';

export interface UnitChoice {
  readonly system: 'metric' | 'imperial';
  /** quantity -> key of the unit table, where the reader wants another unit than the system's */
  readonly byQuantity?: Readonly<Partial<Record<QuantityName, string>>>;
}

/** How to print a quantity for this reader. */
export function printAs(units: UnitChoice, quantity: QuantityName): Pick<PrintOptions, 'system' | 'unit'> {
  return { system: units.system, unit: units.byQuantity?.[quantity] };
}
