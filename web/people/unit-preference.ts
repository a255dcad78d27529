/** The units that a person likes: a system or the file's own, and for some quantities a unit of its own. */
import { quantities } from '../../core/quantity/quantity-table.ts';
import type { QuantityName } from '../../core/quantity/quantity-table.ts';
import { units } from '../../core/quantity/unit-table.ts';
import type { UnitChoice } from '../../sheets/unit-choice.ts';

export interface UnitPreference { readonly system: 'file' | 'metric' | 'imperial'; readonly byQuantity: Readonly<Partial<Record<QuantityName, string>>> }
export const asTheFileSays: UnitPreference = { system: 'file', byQuantity: {} };

export function choiceOf({ system, byQuantity }: UnitPreference, ofFile: UnitChoice['system']): UnitChoice {
  return { system: system === 'file' ? ofFile : system, ...(Object.keys(byQuantity).length > 0 ? { byQuantity } : {}) };
}

/** Units that can be chosen for a quantity. Wire gauges are read everywhere, but are no unit to print areas in that are not wires. */
export function unitsFor(quantity: QuantityName): readonly { readonly key: string; readonly printed: string }[] {
  return [...units.values()].filter(({ serves, scale }) => serves.includes(quantity) && scale === 'linear').map(({ key, printed }) => ({ key, printed }));
}

/** Keeps of a remembered value what the tables of today still know. */
export function readPreference(value: unknown): UnitPreference | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { system, byQuantity } = value as { readonly system?: unknown; readonly byQuantity?: unknown };
  const known = Object.entries(typeof byQuantity === 'object' && byQuantity !== null ? byQuantity : {})
    .filter(([quantity, key]) => quantity in quantities && unitsFor(quantity as QuantityName).some((unit) => unit.key === key));
  return { system: system === 'metric' || system === 'imperial' ? system : 'file', byQuantity: Object.fromEntries(known) };
}
