/**
 * How warm a run gets, and what it may carry: the heat balance of a cable or a bar, where the run lies.
 */
import type { Car, CarRun } from './car.ts';
import { busbarDutyTemperature, busbarThermalMass } from '../physics/busbar-duty.ts';
import { BUSBAR_MODEL_LIMIT, steadyBusbarCurrent, steadyBusbarTemperature, type FlatBar } from '../physics/busbar-heating.ts';
import { cableDutyTemperature, cableHeatCapacity, type CableThermal } from '../physics/cable-duty.ts';
import { CABLE_MODEL_LIMIT, cableHeatConductance, steadyCableCurrent, steadyCableTemperature } from '../physics/cable-heating.ts';
import { temperaturesAfter, type DutyStep } from '../physics/duty-heating.ts';
import { groupingFactor } from '../physics/grouping.ts';

/** Emissivity of a bar lightly oxidised and of one that is painted or sleeved [1]; from memory, see busbar-heating. */
const BARE_EMISSIVITY = 0.3;
const COVERED_EMISSIVITY = 0.9;
/** Coldest air that the bar model answers for [K]; colder air counts as this, which errs to the hot side. */
const COLDEST_FOR_BARS = 220;

export interface RunHeating {
  /** air around it [K] */
  readonly ambient: number;
  /** what it may carry of its free-air current because of the conductors beside it [1] */
  readonly grouping: number;
  /** highest temperature the model answers for [K] */
  readonly modelLimit: number;
  /** conductor temperature at a steady current [K]; the model's limit when it would pass it */
  readonly steady: (current: number) => number;
  /** steady current [A] that brings it to a temperature [K] */
  readonly currentAt: (temperature: number) => number;
  /** settled peak of a repeated duty [K]; the model's limit when it would pass it */
  readonly peak: (duty: readonly DutyStep[]) => number;
  /** after one pulse from a temperature on [K]; the model's limit when it would pass it */
  readonly after: (current: number, time: number, start: number) => number;
}

export type RunHeatingResult = { readonly outcome: 'known'; readonly heating: RunHeating } | { readonly outcome: 'needs'; readonly needs: readonly string[] };

const remembered = new WeakMap<CarRun, RunHeatingResult>();

/**
 * The heat balance of a run; remembered for the life of its car.
 *
 * @returns `needs` with the paths of what is missing: a conductor without its data, an outside diameter that is not larger than
 *          the metal's, more conductors in a bundle than the grouping table has
 */
export function runHeating(car: Car, run: CarRun): RunHeatingResult {
  let result = remembered.get(run);
  if (!result) remembered.set(run, (result = heatingOf(car, run)));
  return result;
}

function heatingOf(car: Car, run: CarRun): RunHeatingResult {
  const { conductor } = run;
  if (!conductor) return { outcome: 'needs', needs: run.missing };
  const ambient = typeof run.fields['ambient'] === 'number' ? run.fields['ambient'] : car.conditions.ambient;
  const bundled = run.fields['bundled'];
  const grouping = groupingFactor(typeof bundled === 'number' ? bundled : 1);
  if (grouping.outcome !== 'factor') return { outcome: 'needs', needs: [`runs.${run.name}.bundled`] };
  const factor = grouping.factor;
  const { shape, material, insulationThermalResistivity } = conductor;
  if (shape.form === 'flat') {
    const bar: FlatBar = { width: Math.max(shape.width, shape.thickness), thickness: Math.min(shape.width, shape.thickness), material, emissivity: insulationThermalResistivity === undefined ? BARE_EMISSIVITY : COVERED_EMISSIVITY, lies: 'flat' };
    return { outcome: 'known', heating: barHeating(bar, Math.max(ambient, COLDEST_FOR_BARS), factor) };
  }
  const { outsideDiameter, conductorDiameter } = shape;
  if (!(outsideDiameter > conductorDiameter)) return { outcome: 'needs', needs: [stockPath(car, run, 'outside_diameter')] };
  if (insulationThermalResistivity === undefined) return { outcome: 'needs', needs: [stockPath(car, run, 'insulation')] };
  return { outcome: 'known', heating: cableHeating({ resistance20: conductor.resistancePerLength, material, conductorDiameter, outsideDiameter, thermalResistivity: insulationThermalResistivity, area: conductor.area }, ambient, factor) };
}

/** Where the file says something about the conductor of a run: its stock, or the run itself. */
export function stockPath(car: Car, run: CarRun, field: string): string {
  const stock = car.build.runs.get(run.name)?.stock;
  return stock === undefined ? `runs.${run.name}.${field}` : `stock.${stock}.${field}`;
}

/** A conductor among others is as hot as one alone that carries `current / factor`. */
function cableHeating(cable: CableThermal, ambient: number, factor: number): RunHeating {
  const limit = CABLE_MODEL_LIMIT;
  if (ambient >= limit) return tooHot(ambient, factor, limit);
  return {
    ambient, grouping: factor, modelLimit: limit,
    steady: (current) => {
      const outcome = steadyCableTemperature(cable, current / factor, ambient);
      return outcome.outcome === 'steady' ? outcome.conductor : limit;
    },
    currentAt: (temperature) => factor * steadyCableCurrent(cable, Math.min(temperature, limit), ambient),
    peak: (duty) => {
      const outcome = cableDutyTemperature(cable, alone(duty, factor), ambient);
      return outcome.outcome === 'periodic' ? outcome.peak : limit;
    },
    after: (current, time, start) => {
      const mass = { resistance20: cable.resistance20, material: cable.material, heatCapacity: cableHeatCapacity(cable), conductance: cableHeatConductance(cable, start, ambient) };
      return Math.min(limit, temperaturesAfter(mass, [{ current: current / factor, time }], ambient, start)[0]!);
    },
  };
}

function barHeating(bar: FlatBar, ambient: number, factor: number): RunHeating {
  const limit = BUSBAR_MODEL_LIMIT;
  if (ambient >= limit) return tooHot(ambient, factor, limit);
  return {
    ambient, grouping: factor, modelLimit: limit,
    steady: (current) => {
      const outcome = steadyBusbarTemperature(bar, current / factor, ambient);
      return outcome.outcome === 'steady' ? outcome.temperature : limit;
    },
    currentAt: (temperature) => factor * steadyBusbarCurrent(bar, Math.min(temperature, limit), ambient),
    peak: (duty) => {
      const outcome = busbarDutyTemperature(bar, alone(duty, factor), ambient);
      return outcome.outcome === 'periodic' ? outcome.peak : limit;
    },
    after: (current, time, start) => Math.min(limit, temperaturesAfter(busbarThermalMass(bar, start, ambient), [{ current: current / factor, time }], ambient, start)[0]!),
  };
}

/** In air hotter than the model goes, the conductor is at least as hot as the air and may carry nothing. */
function tooHot(ambient: number, grouping: number, modelLimit: number): RunHeating {
  return { ambient, grouping, modelLimit, steady: () => ambient, currentAt: () => 0, peak: () => ambient, after: () => ambient };
}

const alone = (duty: readonly DutyStep[], factor: number): readonly DutyStep[] => (factor === 1 ? duty : duty.map(({ current, time }) => ({ current: current / factor, time })));
