/** What the builder's meter read at each module: imbalance, modules out of line, and the charge the readings stand for. */
import type { Car } from '../../car/car.ts';
import type { PackString } from '../../car/strings.ts';
import type { Check } from '../../findings/finding.ts';
import { cellCharge } from '../../physics/cell-voltage.ts';
import type { CellFigures } from './cell-figures.ts';

/** Spread of rested cell voltages in one string [V]; common practice, no source. On a flat curve millivolts are worth more charge. */
const SPREAD_LIMIT = 0.02;
const FLAT_SPREAD_LIMIT = 0.005;
/** Curve on which 10 mV are worth more than 5 % of charge [1/V]; our choice. */
const FLAT = 5;
/** Charge by the meter against charge in the file [1]; our choice. */
const CHARGE_LIMIT = 0.1;

export interface ModuleReading {
  readonly module: string;
  /** terminal voltage and voltage per cell [V] */
  readonly voltage: number; readonly perCell: number;
  /** charge that the curve gives for it [1]; beyond the curve its end; undefined: no curve */
  readonly stateOfCharge: number | undefined;
}

export interface StringReadings {
  readonly string: string;
  readonly modules: readonly ModuleReading[];
  /** modules without a reading */
  readonly notRead: readonly string[];
  /** highest minus lowest, per cell [V]; undefined with less than two readings */
  readonly spread: number | undefined;
  /** [V] */
  readonly median: number | undefined;
  /** of the median [1] */
  readonly stateOfCharge: number | undefined;
  /** charge that one volt is worth at the median [1/V] */
  readonly perVolt: number | undefined;
}

/** Readings of one string; its modules' own cells give the curve. */
export function readingsOf(string: PackString, cells: ReadonlyMap<string, CellFigures>): StringReadings {
  const read: (ModuleReading & { readonly perVolt: number | undefined })[] = [];
  const notRead: string[] = [];
  for (const { part } of string.modules) {
    const role = part.roles.cells;
    if (!role || role.measuredVoltage === undefined) { notRead.push(part.name); continue; }
    const perCell = role.measuredVoltage / role.series;
    const cell = cells.get(role.cell);
    const charge = cell && cellCharge(cell.curve, perCell);
    const [stateOfCharge, perVolt] = charge?.outcome === 'charge' ? [charge.stateOfCharge, charge.perVolt] : [charge && (perCell <= charge.lowest ? 0 : 1), undefined];
    read.push({ module: part.name, voltage: role.measuredVoltage, perCell, stateOfCharge, perVolt });
  }
  const sorted = [...read].sort((a, b) => a.perCell - b.perCell);
  // the lower middle one when their number is even: a reading that was really made
  const middle = sorted[Math.floor((sorted.length - 1) / 2)];
  return {
    string: string.name, notRead, modules: read.map(({ module, voltage, perCell, stateOfCharge }) => ({ module, voltage, perCell, stateOfCharge })),
    spread: sorted.length < 2 ? undefined : sorted.at(-1)!.perCell - sorted[0]!.perCell,
    median: middle?.perCell, stateOfCharge: middle?.stateOfCharge, perVolt: middle?.perVolt,
  };
}

export function readingChecks(car: Car, string: PackString, readings: StringReadings, cells: ReadonlyMap<string, CellFigures>): readonly Check[] {
  const about = [string.name];
  const needs = readings.notRead.map((name) => `parts.${name}.measured_voltage`);
  const { modules, median, spread, perVolt } = readings;
  const lowest = least(modules, ({ perCell }) => perCell);
  const highest = least([...modules].reverse(), ({ perCell }) => -perCell);
  const spreadCheck: Check = { code: 'pack.measured-spread', about, sense: 'at_most', quantity: 'voltage' };
  if (median === undefined || !lowest || !highest) return [{ ...spreadCheck, needs }];
  const isFlat = perVolt !== undefined && perVolt > FLAT;
  const limit = isFlat || chemistryOf(string) === 'lfp' ? FLAT_SPREAD_LIMIT : SPREAD_LIMIT;
  const caveat = isFlat ? ` On this flat part of the curve the voltage says little: 1 mV a cell is worth about ${(perVolt / 10).toFixed(1)} % of charge; compare again after a full charge.` : '';
  const checks: Check[] = [];
  if (needs.length > 0) checks.push({ ...spreadCheck, needs });
  else if (spread !== undefined) checks.push({ ...spreadCheck, value: spread, limit, details: { lowest: lowest.module, highest: highest.module, worth: { value: spread * (perVolt ?? 0), quantity: 'ratio' }, caveat } });
  if (modules.length > 2) {
    for (const { module, perCell } of modules) {
      checks.push({ code: 'pack.module-in-line', about: [module], path: `parts.${module}.measured_voltage`, value: Math.abs(perCell - median), limit, sense: 'at_most', quantity: 'voltage', details: { per_cell: { value: perCell, quantity: 'voltage' }, median: { value: median, quantity: 'voltage' }, caveat } });
    }
  }
  const limits = string.modules.flatMap(({ part }) => {
    const now = part.roles.cells && cells.get(part.roles.cells.cell)?.now;
    return now ? [now] : [];
  });
  if (limits.length > 0) {
    const [minimum, maximum] = [Math.max(...limits.map(({ minimumVoltage }) => minimumVoltage)), Math.min(...limits.map(({ maximumVoltage }) => maximumVoltage))];
    checks.push({ code: 'pack.measured-lowest', about, value: lowest.perCell, limit: minimum, sense: 'at_least', quantity: 'voltage', details: { module: lowest.module, terminal: { value: lowest.voltage, quantity: 'voltage' } } });
    checks.push({ code: 'pack.measured-highest', about, value: highest.perCell, limit: maximum, sense: 'at_most', quantity: 'voltage', details: { module: highest.module, terminal: { value: highest.voltage, quantity: 'voltage' } } });
  }
  if (readings.stateOfCharge !== undefined) {
    checks.push({
      code: 'pack.charge-agrees', about, path: 'conditions.state_of_charge', value: Math.abs(readings.stateOfCharge - car.conditions.stateOfCharge), limit: CHARGE_LIMIT, sense: 'at_most', quantity: 'ratio',
      details: { by_meter: { value: readings.stateOfCharge, quantity: 'ratio' }, in_file: { value: car.conditions.stateOfCharge, quantity: 'ratio' }, caveat },
    });
  }
  return checks;
}

function chemistryOf({ modules }: PackString): string | undefined {
  return modules[0]?.part.cell?.chemistry;
}

function least<E>(entries: readonly E[], of: (entry: E) => number): E | undefined {
  return entries.reduce<E | undefined>((best, entry) => (best === undefined || of(entry) < of(best) ? entry : best), undefined);
}
