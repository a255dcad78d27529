/**
 * Voltage, charge, energy, resistance, short-circuit current and power of a module, a string and a pack.
 *
 * In series voltages and resistances add and the smallest capacity decides; in parallel strings are sources side by side
 * (Millman). Metal between modules counts at 20 °C. Method: docs/method/pack.md
 */
import type { Car } from '../../car/car.ts';
import type { Assembly, PackString, StringModule } from '../../car/strings.ts';
import type { CellFigures } from './cell-figures.ts';
import { energyBetween, HIGHEST_FAULT, LOWEST_FAULT, NOW, shownConditions } from './cell-figures.ts';

/** What a source can do under one of the shown conditions. */
export interface SourceFigures {
  /** [K], [1] */
  readonly cellTemperature: number; readonly stateOfCharge: number;
  /** [V] */
  readonly openVoltage: number;
  /** [ohm] */
  readonly resistance: number;
  /** bolted short at its own ends, V/R [A] */
  readonly shortCircuit: number;
  /** V²/4R: no load can take more [W] */
  readonly matchedPower: number;
  /** power when the weakest cell just reaches its lowest voltage [W] */
  readonly voltageLimitedPower: number;
}

export interface Figures {
  /** cells in series */
  readonly series: number;
  /** every cell at its lowest, nominal and highest voltage [V] */
  readonly minimumVoltage: number; readonly nominalVoltage: number; readonly maximumVoltage: number;
  /** whole curve [C], and between the cells' voltage limits, decided by the smallest [C] */
  readonly capacity: number; readonly usableCharge: number;
  /** whole curve, all cells [J]; between the voltage limits, decided by the smallest [J]; both without losses */
  readonly energy: number; readonly usableEnergy: number;
  /** rise of open voltage per unit of its own charge [V] */
  readonly slope: number;
  /** what the cells may give for ever, for 10 s, and take for ever [A]; undefined when a cell does not say */
  readonly continuousDischarge: number | undefined; readonly peakDischarge: number | undefined; readonly continuousCharge: number | undefined;
  /** at the car's own conditions */
  readonly now: SourceFigures;
  /** at -20, 0, 25 and 45 °C, charge as it is */
  readonly byTemperature: readonly SourceFigures[];
  /** full at 45 °C: the highest short-circuit current; 10 % at -20 °C: the lowest */
  readonly highestFault: SourceFigures; readonly lowestFault: SourceFigures;
  /** highest power now within voltage limit and 10 s current of the cells [W]; undefined when the cells do not say their current */
  readonly peakPower: number | undefined;
}

interface Point { readonly voltage: number; readonly resistance: number; /** current at which the weakest cell is at its lowest voltage [A] */ readonly limit: number }

/** What adds up, before it is turned into figures. */
interface Sum {
  readonly series: number;
  readonly minimum: number; readonly nominal: number; readonly maximum: number;
  readonly capacity: number; readonly usableCharge: number; readonly energy: number; readonly usableEnergy: number; readonly slope: number;
  readonly continuousDischarge: number | undefined; readonly peakDischarge: number | undefined; readonly continuousCharge: number | undefined;
  readonly points: readonly Point[];
}

export interface FiguresOf {
  readonly module: (module: StringModule) => Figures | undefined;
  readonly string: (string: PackString) => Figures | undefined;
  readonly assembly: (assembly: Assembly) => Figures | undefined;
}

export function figuresOf(car: Car, cells: ReadonlyMap<string, CellFigures>): FiguresOf {
  const conditions = shownConditions(car);
  const figures = (sum: Sum | undefined): Figures | undefined => sum && finished(sum, conditions);
  const sums = new Map<PackString, Sum | undefined>();
  const ofString = (string: PackString): Sum | undefined => {
    if (!sums.has(string)) sums.set(string, stringSum(string, cells));
    return sums.get(string);
  };
  return {
    module: (module) => figures(moduleSum(module, cells)),
    string: (string) => figures(ofString(string)),
    assembly: (assembly) => figures(assemblySum(assembly, ofString)),
  };
}

function moduleSum({ part, resistance }: StringModule, cells: ReadonlyMap<string, CellFigures>): Sum | undefined {
  const role = part.roles.cells;
  const cell = role && cells.get(role.cell);
  if (!role || !cell) return undefined;
  const { series, parallel } = role;
  const { now } = cell;
  const capacity = parallel * now.capacity;
  const times = (current: number | undefined): number | undefined => (current === undefined ? undefined : parallel * current);
  return {
    series, minimum: series * now.minimumVoltage, nominal: series * now.nominalVoltage, maximum: series * now.maximumVoltage,
    capacity, usableCharge: capacity * Math.max(0, cell.full - cell.empty),
    energy: series * parallel * cell.energy, usableEnergy: series * parallel * energyBetween(cell, cell.empty, cell.full), slope: series * cell.slope,
    continuousDischarge: times(cell.continuousDischarge), peakDischarge: times(cell.peakDischarge), continuousCharge: times(cell.continuousCharge),
    points: cell.at.map((at) => ({
      voltage: series * at.voltage,
      // links inside keep their resistance; only the cells follow the temperature
      resistance: Math.max(0, resistance + (series / parallel) * (at.resistance - now.resistance)),
      limit: (parallel * Math.max(0, at.voltage - now.minimumVoltage)) / at.resistance,
    })),
  };
}

function stringSum(string: PackString, cells: ReadonlyMap<string, CellFigures>): Sum | undefined {
  const members: { sum: Sum; sign: number }[] = [];
  for (const module of string.modules) {
    const sum = moduleSum(module, cells);
    if (!sum) return undefined;
    members.push({ sum, sign: module.isReversed ? -1 : 1 });
  }
  const joints = string.between.reduce((total, { resistance }) => total + resistance, 0);
  const usableCharge = Math.min(...members.map(({ sum }) => sum.usableCharge));
  const usableEnergy = string.modules.reduce((total, { part }) => {
    const role = part.roles.cells!;
    const cell = cells.get(role.cell)!;
    // all full together: the smallest decides how far the others go down
    return total + role.series * role.parallel * energyBetween(cell, cell.full - usableCharge / (role.parallel * cell.now.capacity), cell.full);
  }, 0);
  return { ...inSeries(members, joints), usableCharge, usableEnergy };
}

function assemblySum(assembly: Assembly, ofString: (string: PackString) => Sum | undefined): Sum | undefined {
  if (assembly.form === 'string') return ofString(assembly.string);
  const members: { sum: Sum; sign: number }[] = [];
  for (const member of assembly.members) {
    const sum = assemblySum(member.assembly, ofString);
    if (!sum) return undefined;
    const lead = 'lead' in member ? member.lead.resistance : 0;
    members.push({ sum: lead === 0 ? sum : { ...sum, points: sum.points.map((point) => ({ ...point, resistance: point.resistance + lead })) }, sign: member.isOpposed ? -1 : 1 });
  }
  return assembly.form === 'series' ? inSeries(members, assembly.joints.resistance) : inParallel(members);
}

type Members = readonly { readonly sum: Sum; readonly sign: number }[];

function inSeries(members: Members, joints: number): Sum {
  const added = (of: (sum: Sum) => number): number => members.reduce((total, { sum, sign }) => total + sign * of(sum), 0);
  const all = (of: (sum: Sum) => number): readonly number[] => members.map(({ sum }) => of(sum));
  const capacity = Math.min(...all((sum) => sum.capacity));
  const usableCharge = Math.min(...all((sum) => sum.usableCharge));
  return {
    series: added((sum) => sum.series), minimum: added((sum) => sum.minimum), nominal: added((sum) => sum.nominal), maximum: added((sum) => sum.maximum),
    capacity, usableCharge, energy: total(all((sum) => sum.energy)),
    usableEnergy: total(all((sum) => (sum.usableCharge > 0 ? (sum.usableEnergy * usableCharge) / sum.usableCharge : 0))),
    slope: total(all((sum) => (sum.slope * capacity) / sum.capacity)),
    continuousDischarge: least(members, 'continuousDischarge'), peakDischarge: least(members, 'peakDischarge'), continuousCharge: least(members, 'continuousCharge'),
    points: members[0]!.sum.points.map((_, index) => ({
      voltage: added((sum) => sum.points[index]!.voltage),
      resistance: joints + total(all((sum) => sum.points[index]!.resistance)),
      limit: Math.min(...all((sum) => sum.points[index]!.limit)),
    })),
  };
}

function inParallel(members: Members): Sum {
  const all = (of: (sum: Sum) => number): readonly number[] => members.map(({ sum }) => of(sum));
  const capacity = total(all((sum) => sum.capacity));
  /** currents share as conductances do: the string that first reaches its limit decides */
  const shared = (limits: readonly (number | undefined)[], index: number): number | undefined => {
    const resistances = all((sum) => sum.points[index]!.resistance);
    const conductance = total(resistances.map((resistance) => 1 / resistance));
    return limits.some((limit) => limit === undefined) ? undefined : Math.min(...limits.map((limit, at) => limit! * resistances[at]! * conductance));
  };
  return {
    series: Math.max(...all((sum) => sum.series)),
    minimum: Math.min(...all((sum) => sum.minimum)), nominal: total(all((sum) => sum.nominal)) / members.length, maximum: Math.max(...all((sum) => sum.maximum)),
    capacity, usableCharge: total(all((sum) => sum.usableCharge)), energy: total(all((sum) => sum.energy)), usableEnergy: total(all((sum) => sum.usableEnergy)),
    slope: total(all((sum) => sum.slope * sum.capacity)) / capacity,
    continuousDischarge: shared(members.map(({ sum }) => sum.continuousDischarge), NOW), peakDischarge: shared(members.map(({ sum }) => sum.peakDischarge), NOW), continuousCharge: shared(members.map(({ sum }) => sum.continuousCharge), NOW),
    points: members[0]!.sum.points.map((_, index) => {
      const conductance = total(all((sum) => 1 / sum.points[index]!.resistance));
      return {
        voltage: members.reduce((sum, member) => sum + (member.sign * member.sum.points[index]!.voltage) / member.sum.points[index]!.resistance, 0) / conductance,
        resistance: 1 / conductance,
        limit: shared(all((sum) => sum.points[index]!.limit), index)!,
      };
    }),
  };
}

function finished(sum: Sum, conditions: readonly { readonly cellTemperature: number; readonly stateOfCharge: number }[]): Figures {
  const at = sum.points.map((point, index): SourceFigures => ({
    cellTemperature: conditions[index]!.cellTemperature, stateOfCharge: conditions[index]!.stateOfCharge,
    openVoltage: point.voltage, resistance: point.resistance,
    shortCircuit: Math.abs(point.voltage) / point.resistance, matchedPower: point.voltage ** 2 / (4 * point.resistance),
    voltageLimitedPower: powerAt(point, point.limit),
  }));
  const now = sum.points[NOW]!;
  return {
    series: sum.series, minimumVoltage: sum.minimum, nominalVoltage: sum.nominal, maximumVoltage: sum.maximum,
    capacity: sum.capacity, usableCharge: sum.usableCharge, energy: sum.energy, usableEnergy: sum.usableEnergy, slope: sum.slope,
    continuousDischarge: sum.continuousDischarge, peakDischarge: sum.peakDischarge, continuousCharge: sum.continuousCharge,
    now: at[NOW]!, byTemperature: at.slice(1, HIGHEST_FAULT), highestFault: at[HIGHEST_FAULT]!, lowestFault: at[LOWEST_FAULT]!,
    peakPower: sum.peakDischarge === undefined ? undefined : powerAt(now, Math.min(now.limit, sum.peakDischarge)),
  };
}

/** Power at a current, never beyond the current of most power. */
function powerAt({ voltage, resistance }: Point, current: number): number {
  if (!(voltage > 0)) return 0;
  const drawn = Math.min(current, voltage / (2 * resistance));
  return drawn * (voltage - drawn * resistance);
}

function least(members: Members, of: 'continuousDischarge' | 'peakDischarge' | 'continuousCharge'): number | undefined {
  const values = members.map(({ sum }) => sum[of]);
  return values.some((value) => value === undefined) ? undefined : Math.min(...(values as number[]));
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
