/** The two plots of a precharge: voltage of the capacitors and current into them, over the same time. */
import type { PrechargePoint, PrechargeResult } from '../../core/topics/high-voltage/precharge.ts';
import { FULL_SHARE } from '../../core/topics/high-voltage/precharge.ts';
import { niceAxis } from '../plot/axis.ts';
import type { Plot } from '../plot/time-plot.tsx';
import { down, up } from '../shown.ts';
import type { Numbers } from '../shown.ts';
import type { UnitChoice } from '../unit-choice.ts';

/** undefined: the precharge gives no curve. */
export function plotsOf(result: PrechargeResult, closes: boolean, numbers: Numbers, units: UnitChoice): { readonly voltage: Plot; readonly current: Plot } | undefined {
  const { curve, lasts, packVoltage } = result;
  const last = curve.at(-1);
  if (!last || !(packVoltage > 0)) return undefined;
  const end = Math.max(last.time, lasts ?? 0, result.timeToFull ?? 0) * 1.06;
  const time = niceAxis('time since the precharge began', 'time', 0, end > 0 ? end : 1, units);
  return { voltage: voltagePlot(result, closes, time, numbers, units), current: currentPlot(result, time, numbers, units) };
}

function voltagePlot(result: PrechargeResult, closes: boolean, time: Plot['time'], { say }: Numbers, units: UnitChoice): Plot {
  const { packVoltage, lasts, voltageReached, residual, timeToFull, endVoltage } = result;
  const whole = [...result.curve.map((point): Pair => [point.time, point.voltage]), [time.to, endVoltage] as const].filter(([at]) => at <= time.to);
  const known = lasts === undefined || voltageReached === undefined ? undefined : { lasts, voltageReached };
  const filling = known ? [...whole.filter(([at]) => at < known.lasts), [known.lasts, known.voltageReached] as const] : whole;
  const leftAlone = known ? [[known.lasts, known.voltageReached] as const, ...whole.filter(([at]) => at > known.lasts)] : [];
  const share = say(FULL_SHARE, 'ratio');
  return {
    time, value: niceAxis('voltage of the capacitors', 'voltage', 0, Math.max(packVoltage, endVoltage) * 1.08, units, 6),
    curves: [
      { name: 'capacitors', points: filling, tone: 'highVoltage', line: 'solid' },
      ...(known && closes ? [{ name: 'after the contactor', points: [[known.lasts, known.voltageReached], [known.lasts, packVoltage], [time.to, packVoltage]] as const, tone: 'highVoltage', line: 'dashed' } as const] : []),
      ...(leftAlone.length > 1 ? [{ name: 'left alone', points: leftAlone, tone: 'highVoltage', line: 'dotted' } as const] : []),
    ],
    levels: [
      { value: packVoltage, text: `full pack ${say(packVoltage, 'voltage', up)}`, tone: 'ink', line: 'dashed' },
      { value: FULL_SHARE * packVoltage, text: `${share} of it, ${say(FULL_SHARE * packVoltage, 'voltage', up)}: full enough`, tone: 'muted', line: 'chain' },
    ],
    moments: known ? [{ time: known.lasts, text: closes ? `the main contactor closes after ${say(known.lasts, 'time')}` : `the mode is over after ${say(known.lasts, 'time')}`, tone: 'ink', line: 'chain' }] : [],
    points: [
      timeToFull === undefined
        ? { time: Math.min(result.curve.at(-1)!.time, time.to), value: endVoltage, text: `comes to rest at ${say(endVoltage, 'voltage', down)}: it never gets to ${share}, however long it waits`, tone: 'red' }
        : { time: timeToFull, value: FULL_SHARE * packVoltage, text: `${share} after ${say(timeToFull, 'time', up)}`, tone: 'ink' },
      ...(known && residual !== undefined ? [{ time: known.lasts, value: known.voltageReached, text: `${say(Math.abs(residual), 'voltage', up)} left when the mode is over`, tone: 'ink' } as const] : []),
    ],
  };
}

type Pair = readonly [number, number];

function currentPlot(result: PrechargeResult, time: Plot['time'], { say }: Numbers, units: UnitChoice): Plot {
  const { curve, lasts, peakCurrent } = result;
  const within: readonly PrechargePoint[] = lasts === undefined ? curve : curve.filter((point) => point.time <= lasts);
  // at rest only what draws meanwhile goes on flowing
  const last = within.at(-1);
  const shown = last && last.time < (lasts ?? time.to) ? [...within, { ...last, time: lasts ?? time.to }] : within;
  return {
    time, value: niceAxis('current of the precharge', 'current', 0, Math.max(peakCurrent, 1e-6) * 1.1, units, 4),
    curves: [{ name: 'current', points: shown.map((point): Pair => [point.time, point.current]), tone: 'highVoltage', line: 'solid' }],
    levels: [], moments: lasts === undefined ? [] : [{ time: lasts, text: say(lasts, 'time'), tone: 'ink', line: 'chain' }],
    points: [{ time: 0, value: peakCurrent, text: `${say(peakCurrent, 'current', up)} at the start`, tone: 'ink' }],
  };
}
