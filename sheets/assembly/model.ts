/**
 * The assembly of the battery: the chain with its joints numbered in their order, the procedure, the touchable voltage step by step for the
 * best order and the builder's own, and the way back. Worked out only when the sheet is asked for.
 */
import type { Analysis } from '../../core/analyse.ts';
import { stringsOf } from '../../core/car/strings.ts';
import { openStops, stopsWords, stopWords } from '../../core/findings/open-stops.ts';
import { assemblyPlan } from '../../core/order/assembly-plan.ts';
import type { AssemblyPlan } from '../../core/order/assembly-plan.ts';
import { jointHolds } from '../../core/order/joint-hold.ts';
import { passiveWait } from '../../core/power-up/passive-wait.ts';
import { remembered } from '../../core/car/remembered.ts';
import type { Car } from '../../core/car/car.ts';
import type { Joining } from '../../core/topics/pack/joining.ts';
import type { PackResults } from '../../core/topics/pack/study.ts';
import { chainsOf } from '../pack/chain.ts';
import type { Sign } from '../pack/chain.ts';
import type { Plot } from '../plot/time-plot.tsx';
import type { Choices, SheetModel } from '../sheet.ts';
import { down, numbersOf, up } from '../shown.ts';
import type { Numbers } from '../shown.ts';
import type { Section } from '../table/flow.tsx';
import type { Table } from '../table/table.ts';
import { cautionsOf } from './cautions.ts';
import { orderPlot } from './order-plot.ts';
import { apartSection, comparedSection, procedureTable } from './tables.ts';
import { CLASS_A_HIGHEST } from '../../core/physics/voltage-class.ts';

export interface NumberedJoint {
  readonly name: string; readonly path: string; readonly from: string; readonly to: string;
  /** in the best order; 0: made first, without voltage */
  readonly number: number;
  /** after it more than 60 V can be touched */
  readonly isClassB: boolean;
}

export interface ChainPiece {
  readonly sign: Exclude<Sign, 'run'>; readonly name: string; readonly path: string; readonly from: string; readonly to: string;
  readonly isReversed: boolean;
  /** joints that lead to it from the piece before */
  readonly before: readonly NumberedJoint[];
  /** of a disconnect: when it goes in */
  readonly own: NumberedJoint | undefined;
}

export interface AssemblyChain { readonly name: string; readonly pieces: readonly ChainPiece[]; /** after its last piece */ readonly tail: readonly NumberedJoint[] }

export interface AssemblyModel {
  /** instead of everything else */
  readonly none: string | undefined;
  readonly isClassB: boolean;
  readonly chains: readonly AssemblyChain[];
  /** joints with voltage that lie in no chain */
  readonly beside: readonly NumberedJoint[];
  /** findings at `stop`, at the very head; empty: none */
  readonly stops: readonly string[];
  /** sentences at the head */
  readonly words: readonly string[];
  readonly cautions: readonly { readonly title: string; readonly text: string }[];
  readonly plot: Plot | undefined;
  readonly procedure: Table | undefined;
  readonly sections: readonly Section[];
}

/** Strings that meet in parallel, by a joint or when the contactors close. */
function stringsWords({ branches, notRead, fuller, emptier, difference, equalising, limit, limitFrom }: Joining, { say }: Numbers): string {
  const names = branches.join(' and ');
  if (notRead.length > 0) return `Strings ${names} meet in parallel. How far apart they stand is not known: measure ${notRead.join(', ')} first.`;
  if (!equalising || difference === undefined || limit === undefined) return `Strings ${names} meet in parallel; what will flow could not be worked out.`;
  if (equalising.current <= 0) return `Strings ${names} meet in parallel; as measured they stand alike.`;
  const most = (difference * limit) / equalising.current;
  return `Strings ${names} meet in parallel, by a joint or when the contactors close. As measured, ${fuller ?? ''} stands ${say(difference, 'voltage', up)} above ${emptier ?? ''}: ${say(equalising.current, 'current', up)} would flow at first, dying away with ${say(equalising.timeConstant, 'time')}, ${say(equalising.heat, 'energy', up)} of heat in all. Let them meet at ${say(most, 'voltage', down)} apart or less, which drives ${say(limit, 'current', down)} (${limitFrom === 'cells' ? 'what the cells may take for good' : 'common practice'}).${difference > most ? ' Not now: bring them together first.' : ''}`;
}

const planOf = remembered((car: Car): AssemblyPlan => assemblyPlan(car));

export const assemblyModel: SheetModel<AssemblyModel> = {
  name: 'assembly',
  model: ({ build, car, ask, results, findings }: Analysis, { units }: Choices): AssemblyModel => {
    const numbers = numbersOf(build, units);
    const plan = planOf(car);
    if (plan.outcome !== 'planned') {
      const none = plan.outcome === 'nothing' ? 'There is no high-voltage joint that a battery reaches yet. Add the modules with their cells, and the runs between their terminals.' : `These joints wait for each other, so there is no order: ${plan.joints.join(', ')}. Look at after and before of the runs.`;
      return { none, isClassB: false, chains: [], beside: [], stops: [], words: [], cautions: [], plot: undefined, procedure: undefined, sections: [] };
    }
    const { battery, best, own, steps } = plan;
    const jointOf = new Map(steps.map(({ joint, touchable }, index): [string, NumberedJoint] => [joint.name, { name: joint.name, path: `${joint.is === 'run' ? 'runs' : 'parts'}.${joint.name}`, from: joint.a, to: joint.b, number: index + 1, isClassB: touchable > CLASS_A_HIGHEST }]));
    for (const { name, a, b } of battery.dead) jointOf.set(name, { name, path: `runs.${name}`, from: a, to: b, number: 0, isClassB: false });
    const drawn = new Set<string>();
    const take = (name: string): NumberedJoint | undefined => { const joint = jointOf.get(name); if (joint) drawn.add(name); return joint; };
    const chains = stringsOf(car).packs.flatMap((pack) => chainsOf(car, pack)).map(({ string, pieces }): AssemblyChain => {
      const placed: ChainPiece[] = [];
      let before: NumberedJoint[] = [];
      for (const { sign, name, from, to, isReversed } of pieces) {
        if (sign === 'run') { const joint = take(name); if (joint) before.push(joint); continue; }
        placed.push({ sign, name, path: `parts.${name}`, from, to, isReversed, before, own: sign === 'disconnect' ? take(name) : undefined });
        before = [];
      }
      return { name: string.name, pieces: placed, tail: before };
    });
    const beside = [...jointOf.values()].filter(({ name, number }) => number > 0 && !drawn.has(name));
    const { say } = numbers;
    const whole = steps.at(-1)!.touchable;
    const stops = openStops(findings);
    const wait = passiveWait(car, ask);
    return {
      none: undefined, isClassB: whole > CLASS_A_HIGHEST, chains, beside, cautions: cautionsOf(plan, numbers), plot: orderPlot(plan, numbers, units), procedure: procedureTable(plan, car, numbers, jointHolds(car, steps, stops)), stops: stops.length === 0 ? [] : [stopsWords(stops, 'the joints'), ...stops.map(stopWords)],
      words: [
        `${steps.length} joints meet the battery while every contactor is open. In this order ${best.stepsInClassB || 'none'} of the states that follow ${best.stepsInClassB === 1 ? 'is' : 'are'} above ${say(CLASS_A_HIGHEST, 'voltage')} (class B); in the order of the file ${own.stepsInClassB || 'none'}.${best.isExact ? ' No other order keeps the touchable voltage lower for longer.' : ` With so many joints not every order was tried: the voltages add up to ${say(best.sum, 'voltage')}, and none can add up to less than ${say(best.atLeast, 'voltage')}.`}`,
        ...(battery.dead.length > 0 ? [`First, without voltage (0): ${battery.dead.map(({ name }) => name).join(', ')}.`] : []),
        ...(battery.unknown.length > 0 ? [`Not counted, because values are missing: ${battery.unknown.join(', ')}. Every voltage here leaves them out: complete the file first.`] : []),
        ...((results.pack as PackResults | undefined)?.joinings ?? []).map((joining) => stringsWords(joining, numbers)),
      ],
      sections: [apartSection(plan, car, wait.is === 'bleeders' ? wait.wait : undefined, numbers), comparedSection(plan, numbers)],
    };
  },
};
