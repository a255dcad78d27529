/** A loop of cells that is about to be closed, by a joint or by contacts: what flows when its two ends meet, and how far apart they may stand. */
import type { Car, CarPart } from '../../car/car.ts';
import { runHeating } from '../../car/run-heating.ts';
import { cellCharge } from '../../physics/cell-voltage.ts';
import { equaliseByCapacity, largestDifference } from '../../physics/equalising-limit.ts';
import type { EqualisingDecay, LargestDifference } from '../../physics/equalising-limit.ts';
import { cellFigures } from './cell-figures.ts';

/** Share of its capacity an hour that a module may be charged or emptied with when its cells do not say: 0.2 C [1/s]; common practice, no source. */
const GENTLE = 0.2 / 3600;

/** What lies in the loop that a joint closes, from its end `a` round to its end `b`. */
export interface Loop { readonly modules: readonly CarPart[]; readonly fuses: readonly CarPart[]; /** the joint itself included */ readonly runs: readonly string[] }

export interface ParallelJoint {
  readonly loop: Loop;
  /** end a minus end b before they meet: by the readings of the file where every module of the loop has one, else as computed [V] */
  readonly difference: number;
  readonly differenceFrom: 'readings' | 'computed';
  /** undefined: the resistance or the slope of the cells is not known */
  readonly flow: EqualisingDecay | undefined;
  /** largest difference at which they may be joined; undefined when nothing is known that limits it */
  readonly mayDiffer: (LargestDifference & { /** of the part, run or module that limits */ readonly at: string }) | undefined;
}

/** What flows in a loop of cells, and how far apart its two ends may stand. @param resistance  round the whole loop [ohm]; 0: not known */
export function closedLoop(car: Car, loop: Loop, { difference, differenceFrom, resistance }: Pick<ParallelJoint, 'difference' | 'differenceFrom'> & { readonly resistance: number }): ParallelJoint {
  const capacitance = loopCapacitance(car, loop.modules);
  const known = resistance > 0;
  const flow = known && capacitance !== undefined ? equaliseByCapacity({ difference: Math.abs(difference), resistance, capacitance }) : undefined;
  const limits = known ? limitsOf(car, loop) : [];
  const each = limits.map((limit) => ({ ...largestDifference(limit, resistance, flow?.timeConstant), at: limit.at }));
  const mayDiffer = each.reduce<(typeof each)[number] | undefined>((least, one) => (least === undefined || one.difference < least.difference ? one : least), undefined);
  return { loop, difference, differenceFrom, flow, mayDiffer };
}

/** All modules of the loop as capacitors one after the other, each charge over slope [F], at the charge that its reading stands for; undefined when a cell lacks its curve. */
function loopCapacitance(car: Car, modules: readonly CarPart[]): number | undefined {
  const figures = cellFigures(car);
  let inverse = 0;
  for (const { roles, cell } of modules) {
    const role = roles.cells!;
    const known = figures.get(role.cell);
    const charge = known && role.measuredVoltage !== undefined ? cellCharge(known.curve, role.measuredVoltage / role.series) : undefined;
    const slope = charge?.outcome === 'charge' && charge.perVolt > 0 ? 1 / charge.perVolt : known?.slope;
    if (!cell || slope === undefined || !(slope > 0) || !(cell.capacity > 0)) return undefined;
    inverse += (role.series * slope) / (cell.capacity * role.parallel);
  }
  return inverse > 0 ? 1 / inverse : undefined;
}

interface CurrentLimit { readonly at: string; readonly what: LargestDifference['by']; readonly current: number; readonly heating?: number }

function limitsOf(car: Car, { modules, fuses, runs }: Loop): readonly CurrentLimit[] {
  const number = (value: unknown): number | undefined => (typeof value === 'number' ? value : undefined);
  const ofCells = modules.flatMap(({ name, roles, cell }): CurrentLimit[] => {
    const fields = car.cells.get(roles.cells!.cell)?.fields ?? {};
    const parallel = roles.cells!.parallel;
    const given = [number(fields['continuous_charge']), number(fields['continuous_discharge'])].flatMap((one) => one ?? []);
    const gentle = cell ? [GENTLE * cell.capacity] : [];
    return (given.length > 0 ? given : gentle).map((current) => ({ at: name, what: given.length > 0 ? 'cells' : 'common practice', current: current * parallel }));
  });
  const ofFuses = fuses.flatMap(({ name, roles }) => (roles.protection ?? []).map((fuse): CurrentLimit => ({ at: name, what: 'fuse', current: fuse.rating, ...(fuse.meltingEnergy === undefined ? {} : { heating: fuse.meltingEnergy }) })));
  const ofRuns = runs.flatMap((name): CurrentLimit[] => {
    const run = car.runs.get(name);
    const limit = run?.conductor?.temperatureRating;
    const heat = run && runHeating(car, run);
    return heat?.outcome === 'known' && limit !== undefined ? [{ at: name, what: 'cable', current: heat.heating.currentAt(limit) }] : [];
  });
  return [...ofCells, ...ofFuses, ...ofRuns].filter(({ current }) => current > 0);
}
