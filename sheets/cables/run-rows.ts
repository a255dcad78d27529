/** The schedules of runs. */
import type { Car, CarRun } from '../../core/car/car.ts';
import { highVoltageRuns as highVoltageRunsOf } from '../../core/car/high-voltage-runs.ts';
import type { HighVoltageResults } from '../../core/topics/high-voltage/study.ts';
import type { LowVoltageResults } from '../../core/topics/low-voltage/study.ts';
import { bare, down, up } from '../shown.ts';
import type { Numbers, Shown } from '../shown.ts';
import type { Section } from '../table/flow.tsx';
import type { Cell, Column, Row } from '../table/table.ts';
import type { ModeExtremes } from './mode-extremes.ts';
import type { Margin, Standing } from './smallest-margin.ts';

export interface Known { readonly car: Car; readonly numbers: Numbers; readonly standing: Standing; readonly extremes: ModeExtremes }

const highVoltageColumns: readonly Column[] = [
  { head: 'Run', width: 24 }, { head: 'From, to', width: 38 }, { head: 'Conductor', width: 32 }, { head: 'Length', width: 25, align: 'end' },
  { head: 'Current for good', width: 24, align: 'end' }, { head: 'Short-time current', width: 27, align: 'end' }, { head: 'May carry for good', width: 20, align: 'end' },
  { head: 'Warm for good', width: 18, align: 'end' }, { head: 'Warm at the peak', width: 19, align: 'end' }, { head: 'May reach', width: 17, align: 'end' }, { head: 'Voltage lost', width: 18, align: 'end' },
  { head: 'Highest fault', width: 19, align: 'end' }, { head: 'Opened by', width: 26, gap: 3 }, { head: 'Smallest margin', width: 36, align: 'end' }, { head: 'Stands at', width: 29, gap: 3 },
];

export function highVoltageRuns({ car, numbers, standing, extremes }: Known, results: HighVoltageResults | undefined): Section {
  const loads = new Map(results?.conductors.runs.map((load) => [load.run, load]));
  const shorts = new Map(results?.shortCircuits.map((short) => [short.run, short]));
  return {
    title: 'High-voltage runs',
    note: 'Short-time current: the largest of the modes that may not last. The pulse of a precharge is on the sheet Precharge. Warm: the conductor. Voltage lost: along this run alone at the current for good, joints included. Opened by: the fuse that ends the worst short circuit beyond the run.',
    table: {
      columns: highVoltageColumns,
      rows: rowsOr(highVoltageRunsOf(car), (run) => {
        const [load, short, key] = [loads.get(run.name), shorts.get(run.name), `run.${run.name}`];
        const peak = extremes.shortTime(run.name);
        return [
          named(run.name, 'highVoltage'), [run.from, run.to], conductorCell(run, car, numbers), lengthCells(run, numbers),
          current(numbers, `${key}.current`, load), shortTime(numbers, `${key}.short-time`, peak, load?.current), numbers.result(`${key}.capacity`, load?.capacity, 'current', down),
          numbers.result(`${key}.steady`, load?.steadyTemperature, 'temperature', up), load?.steadyTemperature !== undefined && load.peakTemperature === undefined ? { text: 'no warmer', tone: 'muted' } : numbers.result(`${key}.peak`, load?.peakTemperature, 'temperature', up),
          numbers.result(`${key}.rating`, load?.temperatureRating, 'temperature'),
          fromAThousandth(numbers, `${key}.drop`, load?.resistance === undefined || load.current === undefined ? undefined : load.resistance * load.current, 'voltage'),
          numbers.result(`${key}.fault`, short?.faultCurrent, 'current', up), short ? (short.fuse ?? 'nothing known') : undefined,
          stacked(standing.margin(run.name)), standing.level(run.name),
        ];
      }, 'There is no high-voltage run in the file.', highVoltageColumns.length),
    },
  };
}

const lowVoltageColumns: readonly Column[] = [
  { head: 'Run', width: 21 }, { head: 'From', width: 35 }, { head: 'To', width: 35 }, { head: 'Conductor', width: 29 }, { head: 'Length', width: 17, align: 'end' }, { head: 'Basis', width: 28, gap: 2 },
  { head: 'Current for good', width: 19, align: 'end' }, { head: 'in mode', width: 31, gap: 2 }, { head: 'Short-time current', width: 21, align: 'end' }, { head: 'May carry', width: 17, align: 'end' }, { head: 'Voltage lost', width: 17, align: 'end' },
  { head: 'Protected by', width: 26, gap: 3 }, { head: 'Least fault at its end', width: 20, align: 'end' }, { head: 'Smallest margin', width: 18, align: 'end' }, { head: 'of', width: 30, gap: 2 }, { head: 'Stands at', width: 29, gap: 1 },
];

export function lowVoltageRuns({ car, numbers, standing, extremes }: Known, results: LowVoltageResults | undefined): Section {
  const wires = new Map(results?.wires.map((wire) => [wire.run, wire]));
  const runs = [...car.runs.values()].filter(({ carries }) => carries !== 'high_voltage');
  return {
    title: '12 V and signal runs',
    note: 'Voltage lost is along this run alone in the mode of the current for good. Least fault: a dead short at the far end with hot copper and the battery alone; it must open the fuse.',
    table: {
      columns: lowVoltageColumns,
      rows: rowsOr(runs, (run) => {
        const [wire, key, length, margin] = [wires.get(run.name), `run.${run.name}`, lengthCells(run, numbers), standing.margin(run.name)];
        return [
          named(run.name, run.carries === 'signal' ? 'signal' : 'lowVoltage'), run.from, run.to, conductorLine(run, car, numbers), length[0], length[1],
          fromAThousandth(numbers, `${key}.current`, wire?.steady, 'current'), { text: wire?.steady === 0 ? '' : wire?.steadyMode ?? '', tone: 'muted' }, shortTime(numbers, `${key}.short-time`, extremes.shortTime(run.name), wire?.steady, false), numbers.result(`${key}.capacity`, wire?.ampacity, 'current', down),
          fromAThousandth(numbers, `${key}.drop`, wire?.steadyMode === undefined ? undefined : extremes.drop(wire.steadyMode, run.from, run.to), 'voltage'),
          wire === undefined ? undefined : !wire.isFed ? { text: 'not fed', tone: 'muted' } : wire.protectedBy.length === 0 ? 'no fuse' : wire.protectedBy.join(', '),
          wire?.farFault === undefined ? '' : numbers.result(`${key}.far-fault`, wire.farFault, 'current', down), margin?.by, margin?.of ?? '', standing.level(run.name),
        ];
      }, 'There is no 12 V run in the file.', lowVoltageColumns.length),
    },
  };
}

function rowsOr(runs: readonly CarRun[], cellsOf: (run: CarRun) => readonly Cell[], none: string, columns: number): readonly Row[] {
  if (runs.length === 0) return [{ heading: none }];
  return runs.map((run) => {
    const cells = cellsOf(run);
    if (cells.length !== columns) throw new RangeError(`row of ${run.name} has ${cells.length} cells for ${columns} columns`);
    return { path: `runs.${run.name}`, label: `run ${run.name} from ${run.from} to ${run.to}`, cells };
  });
}

export const named = (text: string, tone: 'highVoltage' | 'lowVoltage' | 'signal'): Cell => ({ text, face: 'strong', tone });

function stockAndMetal({ name, conductor, kind }: CarRun, car: Car, numbers: Numbers): readonly [string, string] {
  return [car.build.runs.get(name)?.stock ?? kind.title.toLowerCase(), conductor ? `${numbers.say(conductor.area, 'area')}${conductor.material === 'copper' ? '' : ` ${conductor.material}`}` : 'not described'];
}

function conductorCell(run: CarRun, car: Car, numbers: Numbers): Cell {
  const [stock, metal] = stockAndMetal(run, car, numbers);
  return [stock, { text: run.conductor ? `${metal} ${run.conductor.material === 'copper' ? 'copper' : ''}`.trim() : metal, tone: 'muted' }];
}

const conductorLine = (run: CarRun, car: Car, numbers: Numbers): Cell => stockAndMetal(run, car, numbers).join(', ');

/** Of the file, with tolerance and basis; or of the route, which is said. */
function lengthCells({ name, length, lengthIs }: CarRun, numbers: Numbers): readonly [Cell, Cell] {
  if (lengthIs === 'missing') return [undefined, { text: 'missing', tone: 'muted' }];
  const given = lengthIs === 'given' ? numbers.field(`runs.${name}.length`) : undefined;
  if (!given) return [numbers.result(`run.${name}.length`, length, 'length', up), { text: 'from the route', tone: 'muted' }];
  return [bare(given), { text: given.sure ?? '', tone: 'muted' }];
}

/** A current and the mode that asks for it. */
export function current(numbers: Numbers, key: string, load: { readonly current: number | undefined; readonly mode: string | undefined } | undefined): Cell {
  if (load?.current === undefined) return undefined;
  const shown = fromAThousandth(numbers, key, load.current, 'current');
  return load.current === 0 || load.mode === undefined ? shown : [shown, { text: load.mode, tone: 'muted' }];
}

/** Only what is more than the current for good is worth a number. */
function shortTime(numbers: Numbers, key: string, load: { readonly current: number; readonly mode: string } | undefined, lasting: number | undefined, withMode = true): Cell {
  if (load === undefined) return '';
  if (lasting !== undefined && load.current <= lasting * 1.001) return { text: 'no more', tone: 'muted' };
  return withMode ? current(numbers, key, load) : fromAThousandth(numbers, key, load.current, 'current');
}

/** What is less than a milliampere or a millivolt says no more than that. */
function fromAThousandth(numbers: Numbers, key: string, value: number | undefined, quantity: 'current' | 'voltage'): Shown {
  const shown = numbers.result(key, value, quantity, up);
  return value !== undefined && value > 0 && value < 1e-3 ? { ...shown, text: quantity === 'current' ? '< 1 mA' : '< 1 mV' } : shown;
}

/** One under the other. */
export const stacked = (margin: Margin | undefined): Cell => margin && [margin.by, margin.of];
