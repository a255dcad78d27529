/** Highest touchable voltage step by step, best order and the builder's own. */
import type { AssemblyPlan } from '../../core/order/assembly-plan.ts';
import type { Order } from '../../core/order/best-order.ts';
import { niceAxis, niceStep } from '../plot/axis.ts';
import type { Axis } from '../plot/axis.ts';
import type { Plot } from '../plot/time-plot.tsx';
import type { Numbers } from '../shown.ts';
import type { UnitChoice } from '../unit-choice.ts';
import { CLASS_A_HIGHEST } from '../../core/physics/voltage-class.ts';

export function orderPlot({ best, own }: Extract<AssemblyPlan, { outcome: 'planned' }>, { say }: Numbers, units: UnitChoice): Plot {
  const count = best.steps.length;
  const highest = Math.max(...[...best.steps, ...own.steps].map(({ touchable }) => touchable));
  const isSame = best.steps.every(({ touchable }, index) => Math.abs(touchable - (own.steps[index]?.touchable ?? 0)) < 1e-6);
  return {
    time: stepAxis(count), value: niceAxis('highest touchable voltage', 'voltage', 0, Math.max(highest, CLASS_A_HIGHEST) * 1.08, units, 6),
    curves: [
      ...(isSame ? [] : [{ name: 'order of the file', points: stairs(own), tone: 'ink', line: 'dashed' } as const]),
      { name: isSame ? 'best order; that of the file is as good' : 'best order', points: stairs(best), tone: 'highVoltage', line: 'solid' },
    ],
    levels: [{ value: CLASS_A_HIGHEST, text: `${say(CLASS_A_HIGHEST, 'voltage')}: class B above`, tone: 'muted', line: 'chain' }], moments: [], points: [],
  };
}

/** A step's voltage stands from it to the next. */
function stairs({ steps }: Order): readonly (readonly [number, number])[] {
  return steps.flatMap(({ touchable }, index) => [[index + 0.5, touchable], [index + 1.5, touchable]] as const);
}

function stepAxis(count: number): Axis {
  const every = Math.max(1, niceStep(count / 26));
  const ticks = Array.from({ length: Math.floor(count / every) + 1 }, (_, index) => index * every).filter((at) => at >= 1);
  if (every > 1 && ticks[0] !== 1) ticks.unshift(1);
  return { label: 'step', unit: '', from: 0.5, to: count + 0.5, ticks: ticks.map((at) => ({ at, text: String(at) })) };
}
