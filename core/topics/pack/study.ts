/**
 * Pack: strings, voltage, energy, resistance, power and short-circuit current of the battery, what each mode asks of the cells,
 * what the measured module voltages say, and what flows when parallel strings are joined.
 */
import { stringsOf } from '../../car/strings.ts';
import type { Pack } from '../../car/strings.ts';
import type { Check } from '../../findings/finding.ts';
import type { Topic } from '../topic.ts';
import { cellFigures } from './cell-figures.ts';
import { chargeVoltageChecks } from './charge-voltage.ts';
import { joiningOf } from './joining.ts';
import type { Joining } from './joining.ts';
import { layoutChecks, layoutOfString, parallelsIn } from './layout-checks.ts';
import type { StringLayout } from './layout-checks.ts';
import { readingChecks, readingsOf } from './measured-voltages.ts';
import type { StringReadings } from './measured-voltages.ts';
import { modeLoads } from './mode-loads.ts';
import type { ModeLoad } from './mode-loads.ts';
import { figuresOf } from './pack-figures.ts';
import type { Figures, FiguresOf } from './pack-figures.ts';
import { voltageClass, voltageWindowChecks } from './voltage-window.ts';
import type { VoltageClass } from './voltage-window.ts';

export interface ModuleResult {
  readonly name: string; readonly cell: string; readonly series: number; readonly parallel: number;
  readonly minimumVoltage: number; readonly nominalVoltage: number; readonly maximumVoltage: number;
  /** [V], [ohm] at the car's conditions */
  readonly openVoltage: number; readonly resistance: number;
  /** across its own terminals, at the car's conditions and at most (full, 45 °C) [A] */
  readonly shortCircuit: number; readonly highestShortCircuit: number;
  /** [J] */
  readonly energy: number;
}

export interface PackResult {
  readonly strings: readonly string[];
  /** nodes at its ends; undefined when it does not have two */
  readonly positive: string | undefined; readonly negative: string | undefined;
  readonly figures: Figures | undefined;
  readonly voltageClass: VoltageClass | undefined;
}

export interface PackResults {
  readonly packs: readonly PackResult[];
  readonly strings: readonly (StringLayout & { readonly figures: Figures | undefined })[];
  readonly modules: readonly ModuleResult[];
  readonly modes: readonly ModeLoad[];
  readonly readings: readonly StringReadings[];
  readonly joinings: readonly Joining[];
  readonly unconnected: readonly string[]; readonly shorted: readonly string[]; readonly notCounted: readonly string[];
}

export const pack: Topic<PackResults> = {
  name: 'pack',
  readsBulk: false,
  study: (car, ask) => {
    const layout = stringsOf(car);
    const cells = cellFigures(car);
    const figures = figuresOf(car, cells);
    const strings = layout.packs.flatMap((member) => member.strings);
    const packs = layout.packs.map((member) => packResult(member, figures));
    const modes = modeLoads(car, ask, layout, cells);
    const readings = strings.map((string) => readingsOf(string, cells));
    const joinings = layout.packs.flatMap(({ assembly }) => (assembly ? parallelsIn(assembly) : [])).map((parallel) => joiningOf(parallel, figures, cells));
    const checks: Check[] = [
      ...layoutChecks(car, layout),
      ...layout.packs.flatMap((member, index) => { const sum = packs[index]?.figures; return sum ? [...voltageWindowChecks(car, member, sum), ...chargeVoltageChecks(car, member, sum.maximumVoltage)] : []; }),
      ...modes.checks,
      ...strings.flatMap((string, index) => readingChecks(car, string, readings[index]!, cells)),
      ...joinings.flatMap((joining) => joining.checks),
    ];
    return {
      checks,
      results: {
        packs, strings: strings.map((string) => ({ ...layoutOfString(string), figures: figures.string(string) })), modules: moduleResults(layout.packs, figures),
        modes: modes.results, readings, joinings: joinings.map(({ results }) => results),
        unconnected: layout.unconnected.map(({ name }) => name), shorted: layout.shorted.map(({ part }) => part.name), notCounted: layout.notCounted.map(({ name }) => name),
      },
    };
  },
};

function packResult({ strings, assembly, positive, negative }: Pack, figuresFor: FiguresOf): PackResult {
  const figures = assembly && figuresFor.assembly(assembly);
  return { strings: strings.map(({ name }) => name), positive, negative, figures, voltageClass: figures && voltageClass(figures.maximumVoltage) };
}

function moduleResults(packs: readonly Pack[], figuresFor: FiguresOf): ModuleResult[] {
  return packs.flatMap(({ strings }) => strings).flatMap(({ modules }) => modules).flatMap((module): ModuleResult[] => {
    const sum = figuresFor.module(module);
    const role = module.part.roles.cells;
    if (!sum || !role) return [];
    return [{
      name: module.part.name, cell: role.cell, series: role.series, parallel: role.parallel,
      minimumVoltage: sum.minimumVoltage, nominalVoltage: sum.nominalVoltage, maximumVoltage: sum.maximumVoltage,
      openVoltage: sum.now.openVoltage, resistance: sum.now.resistance, shortCircuit: sum.now.shortCircuit, highestShortCircuit: sum.highestFault.shortCircuit, energy: sum.energy,
    }];
  });
}
