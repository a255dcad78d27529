/** What each mode asks of the cells: voltage, current, power and heat, against the limits of the cells. */
import type { Network } from '../../car/ask.ts';
import { whyFailed } from '../../car/ask-network.ts';
import type { Car } from '../../car/car.ts';
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
  for (const { name: mode, lasts } of car.modes.values()) {
    const answer = ask.solve({ mode });
    const failed = answer.outcome === 'solved' ? undefined : whyFailed(answer);
    checks.push({ code: 'pack.operating-point', about: [mode], path: `modes.${mode}`, value: failed === undefined ? 1 : 0, limit: 1, sense: 'is_true', details: { reason: failed ?? '' } });
    if (answer.outcome !== 'solved') {
      results.push({ mode, lasts, failed, strings: [], packs: [] });
      continue;
    }
    const loads = new Map<PackString, ModuleLoad[]>();
    for (const string of strings) {
      const modules = moduleLoads(string, answer, runsAt, cells);
      if (modules.length < string.modules.length) continue;
      loads.set(string, modules);
      checks.push(...stringChecks(string, modules, mode, lasts, missing));
    }
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

interface ModuleLoad {
  readonly module: StringModule; readonly cell: CellFigures;
  /** out of its positive terminal, of the module and of each of its cells [A] */
  readonly current: number; readonly cellCurrent: number;
  /** of a cell under this load, of the terminals [V] */
  readonly cellVoltage: number; readonly terminal: number;
  /** [W] */
  readonly heat: number;
}

function moduleLoads(string: PackString, answer: RestSolved, runsAt: RunsAt, cells: ReadonlyMap<string, CellFigures>): ModuleLoad[] {
  return string.modules.flatMap((module): ModuleLoad[] => {
    const role = module.part.roles.cells;
    const cell = role && cells.get(role.cell);
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
  const isCharged = modules.some(({ cellCurrent, cell }) => cellCurrent < -cell.now.capacity * NOTHING_FLOWS);
  const isShort = lasts !== undefined && lasts <= PEAK_TIME;
  if (isCharged) {
    const highest = worst(modules, ({ cellVoltage, cell }) => cell.now.maximumVoltage - cellVoltage);
    checks.push({ code: 'pack.cell-maximum-under-charge', about, path, value: highest.cellVoltage, limit: highest.cell.now.maximumVoltage, sense: 'at_most', quantity: 'voltage', details: numbers(highest) });
    checks.push(...currentCheck('pack.charge-current', modules, -1, ({ continuousCharge }) => continuousCharge, 'continuous_charge', isShort));
  }
  const flows = modules.some(({ cellCurrent, cell }) => cellCurrent > cell.now.capacity * NOTHING_FLOWS);
  if (flows) {
    const lowest = worst(modules, ({ cellVoltage, cell }) => cellVoltage - cell.now.minimumVoltage);
    checks.push({ code: 'pack.cell-minimum-under-load', about, path, value: lowest.cellVoltage, limit: lowest.cell.now.minimumVoltage, sense: 'at_least', quantity: 'voltage', details: numbers(lowest) });
    checks.push(...(isShort
      // a pulse within what may last for ever needs no pulse limit
      ? currentCheck('pack.discharge-current', modules, 1, ({ peakDischarge, continuousDischarge }, current) => peakDischarge ?? (continuousDischarge !== undefined && current <= continuousDischarge ? continuousDischarge : undefined), 'peak_discharge', false)
      : currentCheck('pack.discharge-current', modules, 1, ({ continuousDischarge }) => continuousDischarge, 'continuous_discharge', false)));
  }
  return checks;

  function currentCheck(code: string, loads: readonly ModuleLoad[], sign: 1 | -1, limitOf: (cell: CellFigures, current: number) => number | undefined, field: string, mildWhenBroken: boolean): Check[] {
    const limited = loads.flatMap((load) => {
      const value = Math.max(0, sign * load.cellCurrent);
      const limit = limitOf(load.cell, value);
      if (limit === undefined) missing.add(`${code} cells.${load.cell.name}.${field}`);
      return limit === undefined ? [] : [{ load, value, limit }];
    });
    if (limited.length < loads.length) return [];
    const { load, value, limit } = worst(limited, (entry) => (entry.limit - entry.value) / entry.limit);
    return [{ code, about, path, value, limit, sense: 'at_most', quantity: 'current', details: { ...numbers(load), for_how_long: field === 'peak_discharge' ? 'for 10 s' : 'continuously' }, ...(mildWhenBroken ? { levelWhenBroken: 'watch' as const } : {}) }];
  }
}

/** One check a limit that is missing, not one a mode. */
function limitNeeded(entry: string): Check {
  const [code, path] = entry.split(' ') as [string, string];
  return { code, about: [path.split('.')[1]!], path, variant: path.split('.')[2]!, sense: 'at_most', quantity: 'current', needs: [path] };
}

function numbers({ module, current }: ModuleLoad): NonNullable<Check['details']> {
  return { module: module.part.name, current: { value: Math.abs(current), quantity: 'current' } };
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
