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
import type { Conductor } from '../part/run-kind.ts';
import { remembered } from './remembered.ts';

/** Emissivity of a bar lightly oxidised and of one that is painted or sleeved [1]; from memory, see busbar-heating. */
const BARE_EMISSIVITY = 0.3;
const COVERED_EMISSIVITY = 0.9;
/** Coldest air that the bar model answers for [K]; colder air counts as this, which errs to the hot side. */
const COLDEST_FOR_BARS = 220;

export interface RunHeating {
  /** air around it that the model counts with [K] */
  readonly ambient: number;
  /** air that the file states [K] */
  readonly of: number;
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

type Balance = Omit<RunHeating, 'of'>;

export type RunHeatingResult = { readonly outcome: 'known'; readonly heating: RunHeating } | { readonly outcome: 'needs'; readonly needs: readonly string[] };

const heatingsOf = remembered((_: Car) => ({ byRun: new Map<CarRun, RunHeatingResult>(), byConductor: new Map<Conductor, RunHeating[]>() }));

/**
 * The heat balance of a run; remembered for the life of its car.
 *
 * @returns `needs` with the paths of what is missing: a conductor without its data, an outside diameter that is not larger than
 *          the metal's, more conductors in a bundle than the grouping table has
 */
export function runHeating(car: Car, run: CarRun): RunHeatingResult {
  const { byRun, byConductor } = heatingsOf(car);
  let result = byRun.get(run);
  if (!result) byRun.set(run, (result = heatingOf(car, run, byConductor)));
  return result;
}

/** @param byConductor  runs of one stock in the same air, and bundled alike, share one balance */
function heatingOf(car: Car, run: CarRun, byConductor: Map<Conductor, RunHeating[]>): RunHeatingResult {
  const { conductor } = run;
  if (!conductor) return { outcome: 'needs', needs: run.missing };
  const ambient = typeof run.fields['ambient'] === 'number' ? run.fields['ambient'] : car.conditions.ambient;
  const bundled = run.fields['bundled'];
  const grouping = groupingFactor(typeof bundled === 'number' ? bundled : 1);
  if (grouping.outcome !== 'factor') return { outcome: 'needs', needs: [`runs.${run.name}.bundled`] };
  const factor = grouping.factor;
  let shared = byConductor.get(conductor);
  if (!shared) byConductor.set(conductor, (shared = []));
  const same = shared.find((heating) => heating.grouping === factor && heating.of === ambient);
  if (same) return { outcome: 'known', heating: same };
  const keep = (heating: RunHeating): RunHeatingResult => {
    shared.push(heating);
    return { outcome: 'known', heating };
  };
  const { shape, material, insulationThermalResistivity } = conductor;
  if (shape.form === 'flat') {
    const bar: FlatBar = { width: Math.max(shape.width, shape.thickness), thickness: Math.min(shape.width, shape.thickness), material, emissivity: insulationThermalResistivity === undefined ? BARE_EMISSIVITY : COVERED_EMISSIVITY, lies: 'flat' };
    return keep({ ...barHeating(bar, Math.max(ambient, COLDEST_FOR_BARS), factor), of: ambient });
  }
  const { outsideDiameter, conductorDiameter } = shape;
  if (!(outsideDiameter > conductorDiameter)) return { outcome: 'needs', needs: [stockPath(car, run, 'outside_diameter')] };
  if (insulationThermalResistivity === undefined) return { outcome: 'needs', needs: [stockPath(car, run, 'insulation')] };
  return keep({ ...cableHeating({ resistance20: conductor.resistancePerLength, material, conductorDiameter, outsideDiameter, thermalResistivity: insulationThermalResistivity, area: conductor.area }, ambient, factor), of: ambient });
}

/** Where the file says something about the conductor of a run: its stock, or the run itself. */
export function stockPath(car: Car, run: CarRun, field: string): string {
  const stock = car.build.runs.get(run.name)?.stock;
  return stock === undefined ? `runs.${run.name}.${field}` : `stock.${stock}.${field}`;
}

/** A conductor among others is as hot as one alone that carries `current / factor`. */
function cableHeating(cable: CableThermal, ambient: number, factor: number): Balance {
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

function barHeating(bar: FlatBar, ambient: number, factor: number): Balance {
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
function tooHot(ambient: number, grouping: number, modelLimit: number): Balance {
  return { ambient, grouping, modelLimit, steady: () => ambient, currentAt: () => 0, peak: () => ambient, after: () => ambient };
}

const alone = (duty: readonly DutyStep[], factor: number): readonly DutyStep[] => (factor === 1 ? duty : duty.map(({ current, time }) => ({ current: current / factor, time })));
