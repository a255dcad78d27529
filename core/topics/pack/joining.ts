/** What flows between parallel strings when they are joined at the voltages that were measured. */
import type { Assembly } from '../../car/strings.ts';
import type { Check } from '../../findings/finding.ts';
import { cellCharge } from '../../physics/cell-voltage.ts';
import { equalisingCurrent } from '../../physics/parallel-strings.ts';
import type { Equalising } from '../../physics/parallel-strings.ts';
import type { CellFigures } from './cell-figures.ts';
import { branchNames, stringsIn } from './layout-checks.ts';
import type { Parallel } from './layout-checks.ts';
import type { FiguresOf } from './pack-figures.ts';

/** Share of its capacity an hour that a string takes when its cells do not say: 0.2 C [1/s]; common practice, no source. */
const GENTLE = 0.2 / 3600;

export interface Joining {
  /** first string of each branch */
  readonly branches: readonly string[];
  /** modules that have no reading; with any, nothing is computed */
  readonly notRead: readonly string[];
  /** branches that lie furthest apart, the fuller first */
  readonly fuller: string | undefined; readonly emptier: string | undefined;
  /** [V] */
  readonly difference: number | undefined;
  readonly equalising: Equalising | undefined;
  /** what the emptier may take [A], and whose word that is */
  readonly limit: number | undefined;
  readonly limitFrom: 'cells' | 'common practice' | undefined;
}

/** @param parallel  strings that share both ends */
export function joiningOf(parallel: Parallel, figuresOf: FiguresOf, cells: ReadonlyMap<string, CellFigures>): { readonly results: Joining; readonly checks: readonly Check[] } {
  const branches = branchNames(parallel);
  const modules = parallel.members.flatMap(({ assembly }) => stringsIn(assembly)).flatMap((string) => string.modules);
  const notRead = modules.filter(({ part }) => part.roles.cells?.measuredVoltage === undefined).map(({ part }) => part.name);
  const check: Check = { code: 'pack.joining-current', about: branches, sense: 'at_most', quantity: 'current' };
  const nothing: Joining = { branches, notRead, fuller: undefined, emptier: undefined, difference: undefined, equalising: undefined, limit: undefined, limitFrom: undefined };
  if (notRead.length > 0) return { results: nothing, checks: [{ ...check, needs: notRead.map((name) => `parts.${name}.measured_voltage`) }] };

  const sides = parallel.members.map(({ assembly, isOpposed, lead }, index) => ({ name: branches[index]!, voltage: (isOpposed ? -1 : 1) * measuredVoltage(assembly), lead: lead.resistance, figures: figuresOf.assembly(assembly), slope: measuredSlope(assembly, cells) }));
  const [fuller, emptier] = [sides.reduce((best, side) => (side.voltage > best.voltage ? side : best)), sides.reduce((best, side) => (side.voltage < best.voltage ? side : best))];
  const other = emptier === fuller ? sides.find((side) => side !== fuller)! : emptier;
  // a side whose cells could not be counted is not in the layout, so figures are there
  if (!fuller.figures || !other.figures || !(fuller.slope > 0) || !(other.slope > 0)) return { results: nothing, checks: [{ ...check, needs: ['conditions.cell_temperature'] }] };
  const difference = fuller.voltage - other.voltage;
  const equalising = equalisingCurrent({
    difference, resistance: fuller.figures.now.resistance + other.figures.now.resistance + fuller.lead + other.lead,
    capacity: [fuller.figures.capacity, other.figures.capacity], slope: [fuller.slope, other.slope],
  });
  const known = other.figures.continuousCharge;
  const limit = known ?? GENTLE * other.figures.capacity;
  return {
    results: { branches, notRead, fuller: fuller.name, emptier: other.name, difference, equalising, limit, limitFrom: known === undefined ? 'common practice' : 'cells' },
    checks: [{
      ...check, value: equalising.current, limit,
      details: {
        fuller: fuller.name, emptier: other.name, difference: { value: difference, quantity: 'voltage' }, heat: { value: equalising.heat, quantity: 'energy' },
        time: { value: equalising.timeConstant, quantity: 'time' }, moved: { value: equalising.charge, quantity: 'charge' },
        limit_from: known === undefined ? 'a fifth of its capacity an hour, common practice' : 'what its cells may take continuously',
      },
    }],
  };
}

/** Sum of the readings along the way; a module that is turned round counts against the others. */
function measuredVoltage(assembly: Assembly): number {
  if (assembly.form === 'string') return assembly.string.modules.reduce((sum, { part, isReversed }) => sum + (isReversed ? -1 : 1) * part.roles.cells!.measuredVoltage!, 0);
  const sum = assembly.members.reduce((total, member) => total + (member.isOpposed ? -1 : 1) * measuredVoltage(member.assembly), 0);
  return assembly.form === 'parallel' ? sum / assembly.members.length : sum;
}

/** Rise of open voltage per unit of the side's own charge [V], at the charge that each reading stands for. */
function measuredSlope(assembly: Assembly, cells: ReadonlyMap<string, CellFigures>): number {
  if (assembly.form !== 'string') {
    const slopes = assembly.members.map((member) => measuredSlope(member.assembly, cells));
    const sum = slopes.reduce((total, slope) => total + slope, 0);
    return assembly.form === 'parallel' ? sum / slopes.length : sum;
  }
  const capacities = assembly.string.modules.map(({ part }) => part.roles.cells!.parallel * (part.cell?.capacity ?? 0));
  const smallest = Math.min(...capacities);
  return assembly.string.modules.reduce((sum, { part }, index) => {
    const role = part.roles.cells!;
    const cell = cells.get(role.cell);
    const charge = cell && cellCharge(cell.curve, role.measuredVoltage! / role.series);
    const slope = charge?.outcome === 'charge' && charge.perVolt > 0 ? 1 / charge.perVolt : cell?.slope ?? 0;
    return sum + (capacities[index]! > 0 ? (role.series * slope * smallest) / capacities[index]! : 0);
  }, 0);
}
