/** The tables of the assembly: the procedure, the way back, both orders step by step. */
import type { Car } from '../../core/car/car.ts';
import type { AssemblyPlan } from '../../core/order/assembly-plan.ts';
import type { JointHold } from '../../core/order/joint-hold.ts';
import { jointTool } from '../../core/order/joint-tool.ts';
import { afterWords, apartWords, beforeWords, bridgeWords, coverWords, cutWords, glovesWords, storedWords } from '../../core/order/step-words.ts';
import type { Say } from '../../core/order/step-words.ts';
import { takeApart } from '../../core/order/take-apart.ts';
import { boxCell } from '../power-up/box-cell.ts';
import { up } from '../shown.ts';
import type { Numbers } from '../shown.ts';
import type { Section } from '../table/flow.tsx';
import type { Cell, Column, Row, Table } from '../table/table.ts';
import { CLASS_A_HIGHEST } from '../../core/physics/voltage-class.ts';

type Planned = Extract<AssemblyPlan, { outcome: 'planned' }>;

const muted = (text: string): Cell => ({ text, tone: 'muted' });
const named = (text: string): Cell => ({ text, face: 'strong', tone: 'highVoltage' });
const classCell = (volts: number): Cell => (volts > CLASS_A_HIGHEST ? { text: 'B', face: 'strong', tone: 'highVoltage' } : 'A');
const sayOf = ({ say }: Numbers): Say => (si, quantity, options) => say(si, quantity, options);

const columns: readonly Column[] = [
  { head: 'Step', width: 11 }, { head: 'Join', width: 34 }, { head: 'Before: meter reads', width: 50 }, { head: 'With', width: 50 }, { head: 'Gloves', width: 20 }, { head: 'After: meter reads', width: 50 },
  { head: 'Touchable', width: 22, align: 'end' }, { head: 'at', width: 24, gap: 2 }, { head: 'Class', width: 12 }, { head: 'A dropped tool', width: 47 }, { head: 'Then cover', width: 40 }, { head: 'Written down', width: 26 },
];

/** @param holds  joints that must not be made as things stand */
export function procedureTable({ steps }: Planned, car: Car, numbers: Numbers, holds: ReadonlyMap<string, JointHold>): Table {
  const say = sayOf(numbers);
  return {
    columns,
    rows: steps.map((step, index): Row => {
      const { joint, touchable, touchAt, bridge, stored } = step;
      const { tool, insulation, hardware, torquePath } = jointTool(car, step);
      const torque = torquePath === undefined ? undefined : numbers.field(torquePath);
      const isRun = joint.is === 'run';
      const hold = holds.get(joint.name);
      if (hold) {
        return {
          path: `${isRun ? 'runs' : 'parts'}.${joint.name}`, label: `step ${index + 1}: held, do not ${isRun ? 'join' : 'push in'} ${joint.name}`,
          cells: [
            [{ text: String(index + 1), face: 'strong' }, { text: 'HELD', face: 'strong', tone: 'red' }], [named(joint.name), isRun ? `${joint.a} to` : 'do not push it in:', isRun ? joint.b : muted(`${joint.a} to ${joint.b}`)],
            beforeWords(step, say), { text: hold.words, face: 'strong', tone: 'red' }, '', '', '', '', '', '', '', boxCell(2),
          ],
        };
      }
      return {
        path: `${isRun ? 'runs' : 'parts'}.${joint.name}`, label: `step ${index + 1}: ${isRun ? 'join' : 'push in'} ${joint.name}`,
        cells: [
          { text: String(index + 1), face: 'strong' }, [named(joint.name), isRun ? `${joint.a} to` : 'push it in:', isRun ? joint.b : muted(`${joint.a} to ${joint.b}`)],
          beforeWords(step, say), [tool, ...(torque ? [torque] : []), ...(hardware === undefined ? [] : [hardware]), muted(insulation)], glovesWords(step.gloves, step.voltageClass), afterWords(step, say),
          numbers.result(`assembly.${joint.name}.touchable`, touchable, 'voltage', up), touchAt ?? '', classCell(touchable),
          [bridge ? bridgeWords(bridge, say) : muted('nothing within reach'), ...(stored.length > 0 ? [`in capacitors: ${storedWords(stored, say)}`] : [])],
          coverWords(step), boxCell(2),
        ],
      };
    }),
  };
}

const apartColumns: readonly Column[] = [
  { head: 'Step', width: 11 }, { head: 'Take off', width: 44 }, { head: 'Before: meter reads', width: 62 }, { head: 'With', width: 48 }, { head: 'Gloves', width: 22 }, { head: 'After: meter reads', width: 88 },
  { head: 'Touchable before', width: 26, align: 'end' }, { head: 'after', width: 22, align: 'end' }, { head: 'A dropped tool, while it is joined', width: 70, gap: 3 },
];

/** @param wait  how long nothing active needs to 60 V [s] */
export function apartSection({ steps }: Planned, car: Car, wait: number | undefined, numbers: Numbers): Section {
  const say = sayOf(numbers);
  return {
    title: 'Taking apart',
    note: `The same states backwards. ${apartWords(car, wait, say)} Cover both ends of each joint as soon as they are apart.`,
    table: {
      columns: apartColumns,
      rows: takeApart(steps).map((step, index): Row => {
        const { joint, touchableBefore, touchable, bridge } = step;
        const read = cutWords(step, say);
        const { tool, insulation } = jointTool(car, step);
        return {
          path: `${joint.is === 'run' ? 'runs' : 'parts'}.${joint.name}`, label: `taking apart, step ${index + 1}: ${joint.name}`,
          cells: [
            { text: String(index + 1), face: 'strong' }, [named(joint.name), `${joint.a} to ${joint.b}`], read.before, [joint.is === 'run' ? 'spanner' : tool, muted(insulation)], glovesWords(step.gloves, step.voltageClass), read.after,
            numbers.result(`assembly.apart.${joint.name}.before`, touchableBefore, 'voltage', up), numbers.result(`assembly.apart.${joint.name}.after`, touchable, 'voltage', up), bridge ? bridgeWords(bridge, say) : muted('nothing within reach'),
          ],
        };
      }),
    },
  };
}

const comparedColumns: readonly Column[] = [
  { head: 'Step', width: 20 }, { head: 'Best order', width: 60 }, { head: 'Touchable', width: 40, align: 'end' }, { head: 'Class', width: 30, gap: 6 },
  { head: 'Order of the file', width: 60 }, { head: 'Touchable', width: 40, align: 'end' }, { head: 'Class', width: 30, gap: 6 }, { head: 'Lower by', width: 40, align: 'end' }, { head: '', width: 62 },
];

export function comparedSection({ battery, best, own }: Planned, numbers: Numbers): Section {
  const volts = (key: string, si: number | undefined): Cell => numbers.result(`assembly.compared.${key}`, si, 'voltage', up);
  return {
    title: 'Both orders, step by step',
    note: 'The order of the file takes the runs as they stand in it, each as soon as after and before allow; disconnects last.',
    table: {
      columns: comparedColumns,
      rows: [
        ...best.steps.map(({ joint, touchable }, index): Row => {
          const other = own.steps[index]!;
          return { cells: [String(index + 1), battery.live[joint]!.name, volts(`best.${index}`, touchable), classCell(touchable), battery.live[other.joint]!.name, volts(`own.${index}`, other.touchable), classCell(other.touchable), Math.abs(other.touchable - touchable) < 1e-9 ? '' : numbers.result(`assembly.compared.lower.${index}`, other.touchable - touchable, 'voltage'), ''] };
        }),
        { total: true, cells: ['Together', '', volts('best', best.sum), `${best.stepsInClassB} in B`, '', volts('own', own.sum), `${own.stepsInClassB} in B`, numbers.result('assembly.compared.lower', own.sum - best.sum, 'voltage'), ''] },
      ],
    },
  };
}
