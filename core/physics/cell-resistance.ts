/** How a cell's resistance changes with temperature. */
import { requirePositive } from './argument-rule.ts';

/** Molar gas constant [J/(mol.K)], SI 2019. */
export const GAS_CONSTANT = 8.314462618;
/** Temperature at which a cell's resistance is given [K]: 25 °C. */
export const CELL_REFERENCE_TEMPERATURE = 298.15;
/** Cell temperatures that the factor answers for [K]: -30 .. 60 °C. */
export const CELL_TEMPERATURE_RANGE = { minimum: 243.15, maximum: 333.15 } as const;

export type ResistanceFactor =
  | { readonly outcome: 'factor'; readonly factor: number }
  | { readonly outcome: 'outside'; readonly lowest: number; readonly highest: number };

/**
 * Resistance of a cell over its resistance at 25 °C: exp(Ea/R (1/T - 1/298.15 K)).
 *
 * @param activationEnergy  Ea [J/mol]; 20 000 fits the usual range of graphite cells in the cold, published values 20 .. 40 kJ/mol; above 25 °C use a smaller one
 * @param temperature       of the cell [K]
 * @returns factor [1], or `outside` beyond -30 .. 60 °C
 * Range:   10 s resistance at mid charge; below 20 % charge it is higher. One energy does not fit both sides of 25 °C:
 *          open data of one NMC cell show 0.97 at 45 °C where 20 kJ/mol gives 0.60, so the cell has one for the cold and one for the warm side; in the cold it errs to the high side (2.1 against 1.5 at 0 °C)
 * Source:  Arrhenius law; energy from memory (open literature), compared with [lgm50-open-data]
 * Checked: checks/reference/cells.open-data.check.ts
 */
export function resistanceFactor(activationEnergy: number, temperature: number): ResistanceFactor {
  requirePositive({ activationEnergy, temperature });
  const { minimum, maximum } = CELL_TEMPERATURE_RANGE;
  if (temperature < minimum || temperature > maximum) return { outcome: 'outside', lowest: minimum, highest: maximum };
  return { outcome: 'factor', factor: Math.exp((activationEnergy / GAS_CONSTANT) * (1 / temperature - 1 / CELL_REFERENCE_TEMPERATURE)) };
}
