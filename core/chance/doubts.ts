/**
 * Margins of many draws -> the chance that each check holds, and which measurement would settle it, how well made.
 *
 * The share of the doubt that a value explains is the square of its correlation with the margin (the inputs are
 * independent, so the shares of a linear margin add up to 1). Measuring the value to half-width w leaves the doubt
 * of the others plus slope² (w/2)²; the check is settled when the nominal margin is 1.645 of that away from 0 (95 %, one side).
 *
 * Source: JCGM 100:2008 clause 5.1 (combination of variances), JCGM 101:2008 (propagation by draws).
 * Checked: core/chance/doubts.test.ts against closed forms
 */
import type { Quantity } from '../quantity/quantity.ts';
import type { SettledBy } from '../findings/finding.ts';
import type { Doubt } from '../findings/judge.ts';
import type { DrawTable } from './draw-table.ts';
import type { Margins } from './sample-margins.ts';

/** One-sided 95 % point of the normal distribution. */
const ONE_SIDED_95 = 1.6449;
/** Of so many draws and some hundred inputs, chance alone correlates one to 20 over the number of draws; such shares are not named. */
const smallestShare = (draws: number): number => Math.max(0.02, 20 / draws);
const MOST_NAMED = 3;

/**
 * @param nominalMargins  margin of each check at the nominal values
 * @returns by check key; checks that no draw could make are absent
 */
export function doubtsOf(margins: Margins, nominalMargins: ReadonlyMap<string, number>, table: DrawTable, quantities: ReadonlyMap<string, Quantity>): Map<string, Doubt> {
  const inputs = standardisedInputs(table);
  const doubts = new Map<string, Doubt>();
  for (const [key, row] of margins) {
    let made = 0;
    let held = 0;
    for (const margin of row) {
      if (Number.isNaN(margin)) continue;
      made++;
      if (margin >= 0) held++;
    }
    if (made === 0) continue;
    const chance = held / made;
    const isUnsettled = chance > 0 && chance < 1 && made === row.length;
    doubts.set(key, { chance, settledBy: isUnsettled ? settledBy(row, nominalMargins.get(key), table, inputs, quantities) : [] });
  }
  return doubts;
}

interface Inputs { readonly centred: readonly Float64Array[]; readonly deviation: Float64Array }

function standardisedInputs(table: DrawTable): Inputs {
  const centred: Float64Array[] = [];
  const deviation = new Float64Array(table.paths.length);
  for (let index = 0; index < table.paths.length; index++) {
    const column = Float64Array.from({ length: table.count }, (_, draw) => table.value(index, draw));
    const mean = column.reduce((sum, value) => sum + value, 0) / table.count;
    let squares = 0;
    for (let draw = 0; draw < table.count; draw++) {
      const difference = (column[draw] as number) - mean;
      column[draw] = difference;
      squares += difference * difference;
    }
    deviation[index] = Math.sqrt(squares / table.count);
    centred.push(column);
  }
  return { centred, deviation };
}

function settledBy(row: Float64Array, nominalMargin: number | undefined, table: DrawTable, inputs: Inputs, quantities: ReadonlyMap<string, Quantity>): SettledBy[] {
  const mean = row.reduce((sum, value) => sum + value, 0) / row.length;
  const variance = row.reduce((sum, value) => sum + (value - mean) ** 2, 0) / row.length;
  if (variance === 0) return [];
  const found: SettledBy[] = [];
  for (let index = 0; index < table.paths.length; index++) {
    const deviation = inputs.deviation[index] as number;
    if (deviation === 0) continue;
    const column = inputs.centred[index] as Float64Array;
    let product = 0;
    for (let draw = 0; draw < row.length; draw++) product += (column[draw] as number) * ((row[draw] as number) - mean);
    const covariance = product / row.length;
    const share = (covariance * covariance) / (deviation * deviation * variance);
    if (share < smallestShare(row.length)) continue;
    const path = table.paths[index] as string;
    const quantity = quantities.get(path);
    if (!quantity) continue;
    const slope = covariance / (deviation * deviation);
    found.push({ path, share: Math.min(1, share), precision: neededPrecision(nominalMargin ?? mean, variance * Math.max(0, 1 - share), slope, deviation), quantity: quantity.quantity });
  }
  return found.sort((a, b) => b.share - a.share).slice(0, MOST_NAMED);
}

function neededPrecision(margin: number, restVariance: number, slope: number, deviation: number): number | undefined {
  const allowed = (margin / ONE_SIDED_95) ** 2 - restVariance;
  if (allowed <= 0 || slope === 0) return undefined;
  const needed = Math.sqrt(allowed) / Math.abs(slope);
  return needed < deviation ? 2 * needed : undefined;
}
