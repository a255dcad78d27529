/** What each mode asks of the cells: voltage, current, power and heat, against the limits of the cells. */
import type { Network } from '../../car/ask.ts';
import { whyFailed } from '../../car/ask-network.ts';
import type { Car } from '../../car/car.ts';
import { rolesIn } from '../../car/roles-in.ts';
import type { PackLayout, PackString, StringModule } from '../../car/strings.ts';
import type { Check } from '../../findings/finding.ts';
import type { RestSolved } from '../../solve/rest-result.ts';
import type { CellFigures } from './cell-figures.ts';

/** Length of the pulse that `peak_discharge` holds for [s], as the field says. */
const PEAK_TIME = 10;
/** Less than a hundredth of the capacity an hour counts as nothing flowing [1/s]; our choice. */
const NOTHING_FLOWS = 0.01 / 3600;

export interface StringLoad {
  readonly string: string;
  /** out of its positive end; negative: it is charged [A] */
  readonly current: number;
  /** lowest and highest cell voltage in it [V] */
  readonly lowestCell: number; readonly highestCell: number;
  /** lost in its modules [W] */
  readonly heat: number;
}

export interface ModeLoad {
  readonly mode: string;
  readonly lasts: number | undefined;
  /** why there is no operating point; undefined: there is one */
  readonly failed: string | undefined;
  readonly strings: readonly StringLoad[];
  /** by pack: between its ends [V], undefined when the mode does not join the strings there; out of the cells [A, W]; lost in the modules [W] */
  readonly packs: readonly { readonly voltage: number | undefined; readonly current: number; readonly power: number; readonly heat: number }[];
}

export function modeLoads(car: Car, ask: Network, layout: PackLayout, cells: ReadonlyMap<string, CellFigures>): { readonly results: readonly ModeLoad[]; readonly checks: readonly Check[] } {
  const strings = layout.packs.flatMap(({ strings: members }) => members);
  const runsAt = runsByNode(car, strings);
  const results: ModeLoad[] = [];
  const checks: Check[] = [];
  const missing = new Set<string>();
  const full = fullCharge(strings, cells);
  for (const { name: mode, lasts, highestCharge } of car.modes.values()) {
    const answer = ask.solve({ mode });
    const failed = answer.outcome === 'solved' ? undefined : whyFailed(answer);
    checks.push({ code: 'pack.operating-point', about: [mode], path: `modes.${mode}`, value: failed === undefined ? 1 : 0, limit: 1, sense: 'is_true', details: { reason: failed ?? '' } });
    if (answer.outcome !== 'solved') {
      results.push({ mode, lasts, failed, strings: [], packs: [] });
      continue;
    }
    const loads = new Map<PackString, ModuleLoad[]>();
    for (const string of strings) {
      const modules = moduleLoads(string, answer, runsAt, (name) => cells.get(name));
      if (modules.length < string.modules.length) continue;
      loads.set(string, modules);
      checks.push(...stringChecks(string, modules, mode, lasts, missing), ...coldChecks(car, string, modules, mode, lasts));
    }
    if (hasCharger(car, mode) || [...loads.values()].some(isCharged)) checks.push(...fullChecks(car, ask, strings, runsAt, { mode, lasts, charge: Math.min(highestCharge ?? 1, full) }));
    results.push({
      mode, lasts, failed: undefined,
      strings: [...loads].map(([string, modules]) => stringLoad(string, modules)),
      packs: layout.packs.map(({ strings: members, positive, negative, assembly }) => {
        const all = members.flatMap((string) => loads.get(string) ?? []);
        const isJoined = positive !== undefined && negative !== undefined && answer.islandOf(positive) === answer.islandOf(negative);
        const power = all.reduce((sum, { terminal, current }) => sum + terminal * current, 0);
        const voltage = isJoined ? answer.voltageOf(positive) - answer.voltageOf(negative) : undefined;
        // the branches of a parallel share one voltage, so power over voltage is the current between the ends
        const current = assembly?.form === 'string' ? loads.get(assembly.string)?.[0]?.current ?? 0 : voltage !== undefined && Math.abs(voltage) > 1 ? power / voltage : 0;
        return { voltage, current, power, heat: all.reduce((sum, { heat }) => sum + heat, 0) };
      }),
    });
  }
  return { results, checks: [...checks, ...[...missing].map(limitNeeded)] };
}

/** A cell at the charge asked about, and what it may carry. */
type LoadedCell = Pick<CellFigures, 'name' | 'now' | 'continuousDischarge' | 'peakDischarge' | 'continuousCharge' | 'coldestCharge'>;

interface ModuleLoad {
  readonly module: StringModule; readonly cell: LoadedCell;
  /** out of its positive terminal, of the module and of each of its cells [A] */
  readonly current: number; readonly cellCurrent: number;
  /** of a cell under this load, of the terminals [V] */
  readonly cellVoltage: number; readonly terminal: number;
  /** [W] */
  readonly heat: number;
}

function moduleLoads(string: PackString, answer: RestSolved, runsAt: RunsAt, cellOf: (name: string) => LoadedCell | undefined): ModuleLoad[] {
  return string.modules.flatMap((module): ModuleLoad[] => {
    const role = module.part.roles.cells;
    const cell = role && cellOf(role.cell);
    if (!role || !cell) return [];
    let current = 0;
    for (const { run, sign } of runsAt.get(module.positive) ?? []) current += sign * answer.currentOf(run);
    const cellCurrent = current / role.parallel;
    return [{
      module, cell, current, cellCurrent,
      cellVoltage: cell.now.voltage - cellCurrent * cell.now.resistance,
      terminal: role.series * cell.now.voltage - current * module.resistance,
      heat: current ** 2 * module.resistance,
    }];
  });
}

function stringLoad(string: PackString, modules: readonly ModuleLoad[]): StringLoad {
  const first = modules[0]!;
  return {
    string: string.name, current: first.module.isReversed ? -first.current : first.current,
    lowestCell: Math.min(...modules.map(({ cellVoltage }) => cellVoltage)), highestCell: Math.max(...modules.map(({ cellVoltage }) => cellVoltage)),
    heat: modules.reduce((sum, { heat }) => sum + heat, 0),
  };
}

/**
 * Of the modules of a string the one nearest to its limit speaks for all; a mode in which nothing flows asks nothing of them.
 * @param missing  collects paths of cell limits that the file does not give although current flows
 */
function stringChecks(string: PackString, modules: readonly ModuleLoad[], mode: string, lasts: number | undefined, missing: Set<string>): Check[] {
  const about = [mode, string.name];
  const path = `modes.${mode}`;
  const checks: Check[] = [];
  const isShort = lasts !== undefined && lasts <= PEAK_TIME;
  if (isCharged(modules)) {
    const highest = worst(modules, highestReserve);
    checks.push({ code: 'pack.cell-maximum-under-charge', about, path, value: highest.cellVoltage, limit: highest.cell.now.maximumVoltage, sense: 'at_most', quantity: 'voltage', details: numbers(string, modules, highest, highestReserve) });
    checks.push(...currentCheck('pack.charge-current', modules, -1, ({ continuousCharge }) => continuousCharge, 'continuous_charge', isShort));
  }
  const flows = modules.some(({ cellCurrent, cell }) => cellCurrent > cell.now.capacity * NOTHING_FLOWS);
  if (flows) {
    const lowestReserve = ({ cellVoltage, cell }: ModuleLoad): number => cellVoltage - cell.now.minimumVoltage;
    const lowest = worst(modules, lowestReserve);
    checks.push({ code: 'pack.cell-minimum-under-load', about, path, value: lowest.cellVoltage, limit: lowest.cell.now.minimumVoltage, sense: 'at_least', quantity: 'voltage', details: numbers(string, modules, lowest, lowestReserve) });
    checks.push(...(isShort
      // a pulse within what may last for ever needs no pulse limit
      ? currentCheck('pack.discharge-current', modules, 1, ({ peakDischarge, continuousDischarge }, current) => peakDischarge ?? (continuousDischarge !== undefined && current <= continuousDischarge ? continuousDischarge : undefined), 'peak_discharge', false)
      : currentCheck('pack.discharge-current', modules, 1, ({ continuousDischarge }) => continuousDischarge, 'continuous_discharge', false)));
  }
  return checks;

  function currentCheck(code: string, loads: readonly ModuleLoad[], sign: 1 | -1, limitOf: (cell: LoadedCell, current: number) => number | undefined, field: string, mildWhenBroken: boolean): Check[] {
    const limited = loads.flatMap((load) => {
      const value = Math.max(0, sign * load.cellCurrent);
      const limit = limitOf(load.cell, value);
      if (limit === undefined) missing.add(`${code} cells.${load.cell.name}.${field}`);
      return limit === undefined ? [] : [{ load, value, limit }];
    });
    if (limited.length < loads.length) return [];
    const reserve = (entry: (typeof limited)[number]): number => (entry.limit - entry.value) / entry.limit;
    const { load, value, limit } = worst(limited, reserve);
    const isOfAll = limited.every((entry) => Math.abs(reserve(entry) - (limit - value) / limit) < ALIKE);
    return [{ code, about, path, value, limit, sense: 'at_most', quantity: 'current', details: { module: isOfAll ? allOf(string) : load.module.part.name, for_how_long: field === 'peak_discharge' ? 'for 10 s' : 'continuously' }, ...(mildWhenBroken ? { levelWhenBroken: 'watch' as const } : {}) }];
  }
}

/** One check a limit that is missing, not one a mode. */
function limitNeeded(entry: string): Check {
  const [code, path] = entry.split(' ') as [string, string];
  return { code, about: [path.split('.')[1]!], path, variant: path.split('.')[2]!, sense: 'at_most', quantity: 'current', needs: [path] };
}

/** Names the module nearest to its limit; when all of the string are as near, the string. */
function numbers(string: PackString, modules: readonly ModuleLoad[], named: ModuleLoad, reserve: (load: ModuleLoad) => number): NonNullable<Check['details']> {
  const isOfAll = modules.every((load) => Math.abs(reserve(load) - reserve(named)) < ALIKE);
  return { module: isOfAll ? allOf(string) : named.module.part.name, current: { value: Math.abs(named.current), quantity: 'current' } };
}

/** Modules whose reserve differs by less than this carry one current: what leaks to the bodywork between them is no difference [V], [1]. */
const ALIKE = 1e-3;

function allOf({ modules, name }: PackString): string {
  return modules.length === 1 ? name : `the string from ${name}`;
}

const highestReserve = ({ cellVoltage, cell }: ModuleLoad): number => cell.now.maximumVoltage - cellVoltage;

function isCharged(modules: readonly ModuleLoad[]): boolean {
  return modules.some(({ cellCurrent, cell }) => cellCurrent < -cell.now.capacity * NOTHING_FLOWS);
}

function hasCharger(car: Car, mode: string): boolean {
  return [...car.parts.values()].some((part) => part.roles.feedsPack !== undefined && rolesIn(car, part, mode).feedsPack?.isOn === true);
}

/** Charging cells colder than they may be; what the drive gives back for a while does less harm than a night on the charger. */
function coldChecks(car: Car, string: PackString, modules: readonly ModuleLoad[], mode: string, lasts: number | undefined): Check[] {
  const charged = modules.flatMap((load) => (isCharged([load]) && load.cell.coldestCharge !== undefined ? [{ load, limit: load.cell.coldestCharge }] : []));
  if (charged.length === 0) return [];
  const { load, limit } = worst(charged, (entry) => -entry.limit);
  return [{
    code: 'pack.charge-cold', about: [mode, string.name], path: 'conditions.cell_temperature', value: car.conditions.cellTemperature, limit, sense: 'at_least', quantity: 'temperature',
    details: numbers(string, modules, load, ({ cell }) => cell.coldestCharge ?? 0), ...(lasts === undefined ? {} : { levelWhenBroken: 'fix' as const }),
  }];
}

/** Charge at which the first cell has its highest voltage, in whole per cent, so that draws share their answers [1]. */
function fullCharge(strings: readonly PackString[], cells: ReadonlyMap<string, CellFigures>): number {
  const ends = strings.flatMap(({ modules }) => modules.map(({ part }) => cells.get(part.roles.cells?.cell ?? '')?.full ?? 1));
  return Math.floor(100 * Math.min(1, ...ends)) / 100;
}

/** A mode that charges, looked at again at the highest charge at which the vehicle still does it. */
function fullChecks(car: Car, ask: Network, strings: readonly PackString[], runsAt: RunsAt, { mode, lasts, charge }: { readonly mode: string; readonly lasts: number | undefined; readonly charge: number }): Check[] {
  const answer = ask.solve({ mode, stateOfCharge: charge });
  const common = { code: 'pack.cell-maximum-when-full', path: `modes.${mode}`, sense: 'at_most', quantity: 'voltage', ...(lasts === undefined ? {} : { levelWhenBroken: 'fix' as const }) } as const;
  if (answer.outcome !== 'solved') return [{ ...common, about: [mode], needs: [`modes.${mode}`] }];
  const conditions = { ...car.conditions, stateOfCharge: charge };
  const cellOf = (name: string): LoadedCell | undefined => {
    const now = car.cells.get(name)?.at(conditions);
    return now && { name, now, continuousDischarge: undefined, peakDischarge: undefined, continuousCharge: undefined, coldestCharge: undefined };
  };
  return strings.flatMap((string): Check[] => {
    const modules = moduleLoads(string, answer, runsAt, cellOf);
    if (modules.length < string.modules.length) return [];
    const highest = worst(modules, highestReserve);
    return [{
      ...common, about: [mode, string.name], value: highest.cellVoltage, limit: highest.cell.now.maximumVoltage,
      details: { ...numbers(string, modules, highest, highestReserve), current: { value: Math.max(0, -highest.current), quantity: 'current' }, charge: { value: charge, quantity: 'ratio' } },
    }];
  });
}

function worst<E>(entries: readonly E[], reserve: (entry: E) => number): E {
  return entries.reduce((least, entry) => (reserve(entry) < reserve(least) ? entry : least));
}

type RunsAt = ReadonlyMap<string, readonly { readonly run: string; readonly sign: 1 | -1 }[]>;

/** Runs at the positive terminals of modules; nothing else takes current there. */
function runsByNode(car: Car, strings: readonly PackString[]): RunsAt {
  const at = new Map<string, { run: string; sign: 1 | -1 }[]>(strings.flatMap(({ modules }) => modules.map(({ positive }) => [positive, []])));
  for (const { name, from, to } of car.runs.values()) {
    at.get(from)?.push({ run: name, sign: 1 });
    at.get(to)?.push({ run: name, sign: -1 });
  }
  return at;
}
