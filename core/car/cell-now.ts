/**
 * A cell of the file at a state of charge and a temperature: its open-circuit voltage and resistance.
 */
import type { Catalogue } from '../part/catalogue.ts';
import type { CellNow, Conditions } from '../part/kind.ts';
import { CELL_REFERENCE_TEMPERATURE, resistanceFactor } from '../physics/cell-resistance.ts';
import { cellVoltage } from '../physics/cell-voltage.ts';

/** Fields of a cell without which nothing can be said about it. */
export const cellNeeds = ['chemistry', 'capacity', 'resistance', 'minimum_voltage', 'nominal_voltage', 'maximum_voltage', 'activation_energy', 'activation_energy_warm'] as const;

/**
 * @param fields      plain fields of the cell, all of `cellNeeds` given: capacity [C], resistance [ohm] at 25 °C, limits [V], activation energy below and above 25 °C [J/mol]
 * @param conditions  charge [1] and cell temperature [K]
 * @returns undefined when the catalogue has no curve for the chemistry, or the conditions are outside what the formulas answer for
 */
export function cellNow(name: string, fields: Readonly<Record<string, unknown>>, conditions: Conditions, catalogue: Catalogue): CellNow | undefined {
  const chemistry = fields['chemistry'] as string;
  const number = (field: (typeof cellNeeds)[number]): number => fields[field] as number;
  const curve = catalogue.tables.get(`cell.ocv.${chemistry}`);
  const voltage = curve && cellVoltage(curve.rows, conditions.stateOfCharge);
  const energy = number(conditions.cellTemperature < CELL_REFERENCE_TEMPERATURE ? 'activation_energy' : 'activation_energy_warm');
  const factor = resistanceFactor(energy, conditions.cellTemperature);
  if (voltage?.outcome !== 'voltage' || factor.outcome !== 'factor') return undefined;
  return {
    name, chemistry, capacity: number('capacity'), voltage: voltage.voltage, resistance: number('resistance') * factor.factor,
    minimumVoltage: number('minimum_voltage'), nominalVoltage: number('nominal_voltage'), maximumVoltage: number('maximum_voltage'),
  };
}
