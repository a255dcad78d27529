/**
 * What one cell of the file gives: charge between its voltage limits, energy, resistance at the temperatures that are shown.
 */
import type { Car } from '../../car/car.ts';
import { extremeStates } from '../../car/extreme-states.ts';
import type { CellNow, Conditions } from '../../part/kind.ts';
import { cellEnergy } from '../../physics/cell-energy.ts';
import type { VoltageCurve } from '../../physics/cell-voltage.ts';
import { cellCharge, cellVoltage } from '../../physics/cell-voltage.ts';

/** Conditions under which figures are shown: the car's own, then four temperatures [K], then the ends that bound a short circuit. */
const shown = [
  { temperature: undefined, stateOfCharge: undefined },
  { temperature: 253.15, stateOfCharge: undefined },
  { temperature: 273.15, stateOfCharge: undefined },
  { temperature: 298.15, stateOfCharge: undefined },
  { temperature: 318.15, stateOfCharge: undefined },
  { temperature: extremeStates.high.cellTemperature, stateOfCharge: extremeStates.high.stateOfCharge },
  { temperature: extremeStates.low.cellTemperature, stateOfCharge: extremeStates.low.stateOfCharge },
] as const;

/** Places of single conditions in every list of figures. */
export const NOW = 0;
export const HIGHEST_FAULT = 5;
export const LOWEST_FAULT = 6;

/** Graphite cells plate lithium when they are charged below it [K]; common practice, no source. */
const FREEZING = 273.15;

export interface CellFigures {
  readonly name: string;
  readonly curve: VoltageCurve;
  readonly now: CellNow;
  /** open voltage [V] and resistance [ohm] at each of the shown conditions */
  readonly at: readonly { readonly voltage: number; readonly resistance: number }[];
  /** rise of open voltage per unit of charge at the car's charge [V] */
  readonly slope: number;
  /** states of charge at its lowest and highest voltage in service [1] */
  readonly empty: number; readonly full: number;
  /** of the whole curve [J] */
  readonly energy: number;
  /** [A], undefined when the file does not say */
  readonly continuousDischarge: number | undefined; readonly peakDischarge: number | undefined; readonly continuousCharge: number | undefined;
  /** coldest that it may be charged [K]; undefined: no limit */
  readonly coldestCharge: number | undefined;
}

export function shownConditions(car: Car): readonly Conditions[] {
  return shown.map(({ temperature, stateOfCharge }) => ({
    ambient: car.conditions.ambient,
    cellTemperature: temperature ?? car.conditions.cellTemperature,
    stateOfCharge: stateOfCharge ?? car.conditions.stateOfCharge,
  }));
}

/** Figures by cell name; a cell that lacks values, a curve or a temperature the formulas answer for is left out. */
export function cellFigures(car: Car): ReadonlyMap<string, CellFigures> {
  const conditions = shownConditions(car);
  const figures = new Map<string, CellFigures>();
  for (const cell of car.cells.values()) {
    const at: CellNow[] = [];
    for (const asked of conditions) {
      const now = cell.at(asked);
      if (now) at.push(now);
    }
    const now = at[NOW];
    const curve = now && car.catalogue.tables.get(`cell.ocv.${now.chemistry}`)?.rows;
    if (!now || !curve || at.length < conditions.length) continue;
    const slope = cellVoltage(curve, car.conditions.stateOfCharge);
    const energy = cellEnergy(curve, now.capacity, 0, 1);
    const limit = (field: string): number | undefined => cell.fields[field] as number | undefined;
    figures.set(cell.name, {
      name: cell.name, curve, now, at,
      slope: slope.outcome === 'voltage' ? slope.slope : 0,
      empty: chargeAt(curve, now.minimumVoltage), full: chargeAt(curve, now.maximumVoltage),
      energy: energy.outcome === 'energy' ? energy.energy : 0,
      coldestCharge: limit('minimum_charge_temperature') ?? (now.chemistry === 'lto' ? undefined : FREEZING),
      continuousDischarge: limit('continuous_discharge'), peakDischarge: limit('peak_discharge'), continuousCharge: limit('continuous_charge'),
    });
  }
  return figures;
}

/** Charge at a limit voltage; a limit beyond the curve is never reached, so the end of the curve counts. */
function chargeAt(curve: VoltageCurve, voltage: number): number {
  const charge = cellCharge(curve, voltage);
  if (charge.outcome === 'charge') return charge.stateOfCharge;
  return voltage <= charge.lowest ? curve[0]![0]! : curve.at(-1)![0]!;
}

/** Energy given between two charges [J]; both inside the curve. */
export function energyBetween(cell: CellFigures, from: number, to: number): number {
  const clipped = (charge: number): number => Math.min(cell.curve.at(-1)![0]!, Math.max(cell.curve[0]![0]!, charge));
  const result = cellEnergy(cell.curve, cell.now.capacity, Math.min(clipped(from), clipped(to)), clipped(to));
  return result.outcome === 'energy' ? result.energy : 0;
}
