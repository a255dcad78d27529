/** Peak temperature of a flat bar in still air under a repeated duty. */
import { bracketedRoot } from '../solve/bracketed-root.ts';
import { BUSBAR_MODEL_LIMIT, busbarHeatLoss, type FlatBar } from './busbar-heating.ts';
import { METAL_HEAT } from './cable-duty.ts';
import { conductorMetals } from './conductor-resistance.ts';
import { periodicTemperature, type DutyStep, type ThermalMass } from './duty-heating.ts';

export type BusbarDutyTemperature =
  | { readonly outcome: 'periodic'; readonly peak: number; readonly lowest: number; readonly mean: number; readonly timeConstant: number }
  | { readonly outcome: 'over_range'; readonly limit: number };

/**
 * Settled peak temperature of a flat bar under a repeated duty.
 *
 * The heat path is the one at the mean temperature of the settled period, found by iteration, so a constant current gives
 * exactly the steady temperature. The bar's own metal is the thermal mass; a sleeve adds none.
 *
 * @param duty     steps of one period
 * @param ambient  air around the bar [K], 220 .. 473 K
 * @returns temperatures [K] and thermal time constant [s], or `over_range` when the mean or peak would pass 473 K
 * Range:   one bar in still air, ends do not cool it
 * Source:  heat path as `steadyBusbarTemperature`; [iec-60949] heat of metals
 * Checked: busbar-duty.test.ts (constant current equals `steadyBusbarTemperature`)
 */
export function busbarDutyTemperature(bar: FlatBar, duty: readonly DutyStep[], ambient: number): BusbarDutyTemperature {
  const settled = (mean: number): ReturnType<typeof periodicTemperature> => periodicTemperature(busbarThermalMass(bar, mean, ambient), duty, ambient);
  // mean temperature that the duty gives, minus the one the heat path was taken at: falls as the latter rises
  const gap = (mean: number): number => {
    const outcome = settled(mean);
    return outcome.outcome === 'runaway' ? BUSBAR_MODEL_LIMIT : outcome.mean - mean;
  };
  const atLimit = gap(BUSBAR_MODEL_LIMIT);
  if (atLimit > 0) return { outcome: 'over_range', limit: BUSBAR_MODEL_LIMIT };
  // the better the heat path, the lower the mean: what the path at the limit gives lies below the settled mean, what the path there gives above it
  const below = BUSBAR_MODEL_LIMIT + atLimit;
  const rise = gap(below);
  const mean = rise <= 0 ? below : bracketedRoot(gap, below, Math.min(BUSBAR_MODEL_LIMIT, below + rise));
  const outcome = settled(mean);
  if (outcome.outcome === 'runaway' || outcome.peak > BUSBAR_MODEL_LIMIT) return { outcome: 'over_range', limit: BUSBAR_MODEL_LIMIT };
  const mass = busbarThermalMass(bar, mean, ambient);
  return { outcome: 'periodic', peak: outcome.peak, lowest: outcome.lowest, mean: outcome.mean, timeConstant: mass.heatCapacity / mass.conductance };
}

/** A bar as one thermal mass per metre, with the heat path it has at a temperature; at ambient itself the path is taken at a rise of 1 K. */
export function busbarThermalMass(bar: FlatBar, temperature: number, ambient: number): ThermalMass {
  const area = bar.width * bar.thickness;
  const rise = Math.max(1, temperature - ambient);
  return {
    resistance20: conductorMetals[bar.material].resistivity20 / area, material: bar.material,
    heatCapacity: area * METAL_HEAT[bar.material], conductance: busbarHeatLoss(bar, ambient + rise, ambient) / rise,
  };
}
