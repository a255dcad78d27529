/**
 * The assembly of the battery as steps to be read one by one: each module by itself, then before and after every joint. Their ids are made of
 * the names of modules and joints, so they outlast another order:
 *
 *     assembly.M4.voltage   assembly.H02.before   assembly.H02.after
 *
 * What a step rests on leaves out which joints were made: a joint stays read although the order of the others has changed.
 */
import type { Car } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';
import type { PreparedCar } from '../car/realise.ts';
import { realise } from '../car/realise.ts';
import type { State } from '../car/state.ts';
import { drawTable } from '../chance/draw-table.ts';
import { assemblyPlan } from '../order/assembly-plan.ts';
import type { AssemblyPlan } from '../order/assembly-plan.ts';
import { sharedSolves } from '../order/assembly-network.ts';
import type { SharedSolves } from '../order/assembly-network.ts';
import { batteryJoints } from '../order/battery-joints.ts';
import type { BatteryJoints } from '../order/battery-joints.ts';
import { jointTool } from '../order/joint-tool.ts';
import { measuredNetwork, presentProblem } from '../order/measured-network.ts';
import type { AssemblyStep } from '../order/procedure.ts';
import { beforeWords, bridgeWords, coverWords, glovesWords, storedWords } from '../order/step-words.ts';
import type { Say } from '../order/step-words.ts';
import { gloveClassFor } from '../physics/glove-class.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';
import { bandOf, spreadOf, USUAL_DRAWS } from '../power-up/bands.ts';
import type { Draws } from '../power-up/bands.ts';
import type { Band } from '../power-up/step.ts';
import { voltmeter } from '../power-up/instruments.ts';
import { printValue } from '../quantity/print-value.ts';
import { standing } from './log.ts';
import type { ReadStep } from './read-step.ts';
import type { Reading } from './reading.ts';

export const assemblyPhases = { modules: 'Each module by itself, before anything is joined', joints: 'Joining, one joint after the other' } as const;
export type AssemblyStepToRead = ReadStep & { readonly phase: keyof typeof assemblyPhases };

/** What a meter of 10 MΩ picks up between two ends that nothing joins, far below a module; common practice, no source [V]. */
const PICKED_UP = 1;

export const moduleStepId = (module: string): string => `assembly.${module}.voltage`;
export const jointStepIds = (joint: string): { readonly before: string; readonly after: string } => ({ before: `assembly.${joint}.before`, after: `assembly.${joint}.after` });

/** Joints that the log tells to be made, in that order: what was read after them is newer than what was read before them. */
export function jointsMade(readings: readonly Reading[]): readonly string[] {
  const made = new Map<string, true>();
  for (const { procedure, step } of standing(readings)) {
    const [, joint, when] = procedure === 'assembly' ? /^assembly\.(.+)\.(before|after)$/.exec(step) ?? [] : [];
    if (joint === undefined) continue;
    // read before it again: it was taken apart
    if (when === 'before') made.delete(joint);
    else if (!made.has(joint)) made.set(joint, true);
  }
  return [...made.keys()];
}

/** Of a battery that has nothing to join: none; `why` then says so. */
export interface Assembly { readonly steps: readonly AssemblyStepToRead[]; readonly why: string | undefined }

/**
 * @param prepared  for the bands; undefined leaves them to the meter alone
 * @param made  joints that are made, see `jointsMade`
 */
export function assemblySteps(car: Car, prepared: PreparedCar | undefined, made: readonly string[], draws: Draws = USUAL_DRAWS): Assembly {
  const plan = assemblyPlan(car, 'best', made);
  if (plan.outcome === 'nothing') return { steps: [], why: 'There is no high-voltage joint that a battery reaches yet, so there is nothing to join.' };
  if (plan.outcome === 'impossible') return { steps: [], why: `These joints wait for each other, so there is no order: ${plan.joints.join(', ')}. Look at after and before of the runs.` };
  const drafts = [...moduleDrafts(plan.battery), ...jointDrafts(plan, new Set(made), wordsOf(car, prepared))];
  const asked = drafts.map(({ made: joined, measure }) => ({ made: joined, measure }));
  const nominal = readAlong(car, plan.battery, asked);
  const drawn = prepared ? drawnAlong(prepared, asked, draws) : { along: [], byCharge: [] };
  const byCharge = voltagesByCharge(car, plan.battery);
  return {
    why: undefined,
    steps: drafts.map(({ made: joined, highest, voltageClass, gloves, isApart, ...draft }, index): AssemblyStepToRead => {
      const instrument = draft.measure ? voltmeter(highest) : undefined;
      const value = nominal[index];
      const hazard = voltageClass === 'B' ? 'class_b' : 'class_a';
      return {
        ...draft, instrument, hazard, quantity: draft.measure ? 'voltage' : undefined, state: stateOf(car, plan.battery, joined), restsOnState: 'assembly', stateSays: stateWords(plan.battery, joined),
        predicted: instrument && value !== undefined ? together(value, [bandOf(value, spreadOf(drawn.along[index] ?? []), instrument, false), ...(isApart ? [{ nominal: value, low: value - PICKED_UP, high: value + PICKED_UP }] : []), ...(byCharge[index] === undefined ? [] : [bandOf(byCharge[index], spreadOf(drawn.byCharge[index] ?? []), instrument, false)])]) : undefined,
        notPredicted: draft.measure && value === undefined ? 'the network has no answer in this state' : undefined,
        willFail: draft.limit !== undefined && value !== undefined && Math.abs(value) > draft.limit.value,
        unknown: plan.battery.unknown, people: voltageClass === 'B' ? `One at the battery: gloves ${glovesWords(gloves, 'B')}, leather over them, face shield, nothing metal worn, one hand where one is enough. The other out of reach of it, eyes on the first, something that does not conduct to push with in hand.` : 'One at the battery, eye protection on, nothing metal worn; the other in sight.', lost: [],
      };
    }),
  };
}

/** The same, kept with the car for each list of joints. Who follows the order asks for nothing new: what is left of the best order is the best of what is left. */
export const assemblyStepsOnce = remembered(function assemblyStepsOnce(car: Car, prepared: PreparedCar | undefined): (made: readonly string[]) => Assembly {
  const known = new Map<string, Assembly>();
  const whole = (): Assembly => { const kept = known.get('') ?? assemblySteps(car, prepared, []); known.set('', kept); return kept; };
  return (made) => {
    const { steps, why } = whole();
    const read = made.map((joint) => jointStepIds(joint).before);
    const order = steps.flatMap(({ id }) => (id.endsWith('.before') ? [id] : []));
    if (read.every((id, index) => id === order[index])) return { why, steps: steps.map((step) => (read.includes(step.id) ? { ...step, isHoldPoint: false } : step)) };
    const key = made.join(' ');
    const kept = known.get(key) ?? assemblySteps(car, prepared, made);
    known.set(key, kept);
    return kept;
  };
});

type Measured = Extract<NonNullable<ReadStep['measure']>, { is: 'voltage' }>;
type Draft = Pick<AssemblyStepToRead, 'id' | 'phase' | 'title' | 'action' | 'about' | 'isHoldPoint' | 'expect' | 'instead' | 'limit' | 'cautions'> & {
  readonly measure: Measured | undefined; readonly made: ReadonlySet<string>;
  /** that may stand at the probes [V] */
  readonly highest: number; readonly voltageClass: 'A' | 'B'; readonly gloves: AssemblyStep['gloves'];
  /** nothing joins the two points yet */
  readonly isApart: boolean;
};

function moduleDrafts({ readings, problem, dead }: BatteryJoints): readonly Draft[] {
  const made = new Set(dead.map(({ name }) => name));
  return readings.map(({ module, positive: a, negative: b }, index): Draft => {
    const highest = problem.cells[index]!.voltage;
    return {
      id: moduleStepId(module), isApart: false, phase: 'modules', title: `Module ${module} by itself`, about: [module], isHoldPoint: true, made, measure: { is: 'voltage', a, b }, highest, voltageClass: highest > CLASS_A_HIGHEST ? 'B' : 'A', gloves: highest > CLASS_A_HIGHEST ? gloveClassFor(highest)?.name : undefined, limit: undefined,
      action: `${module} in its place, nothing joined to it. Red lead on ${a}, black lead on ${b}, by the marks of the case: read sign and size. Then caps on both terminals.`,
      expect: 'Plus, and the size predicted.', instead: 'The wrong sign: the module is turned round, or marked wrong. Less by one cell: a cell is empty or a link is broken.',
      cautions: ['A module cannot be switched off. Insulated tools, no jewellery, one terminal open at a time.'],
    };
  });
}

function jointDrafts({ battery, steps }: Extract<AssemblyPlan, { outcome: 'planned' }>, joined: ReadonlySet<string>, said: Said): readonly Draft[] {
  const { say } = said;
  const made = new Set(battery.dead.map(({ name }) => name));
  return steps.flatMap((step): Draft[] => {
    const { joint, touchable, touchableBefore, voltageClass, parallel, after, bridge } = step;
    const ids = jointStepIds(joint.name);
    const does = joint.is === 'disconnect' ? `push ${joint.name} in` : `join ${joint.name}`;
    const common = { isApart: false, phase: 'joints', about: aboutOf(step, joint.name), voltageClass, gloves: step.gloves, highest: Math.max(touchable, touchableBefore), title: '' } as const;
    const until = new Set(made);
    made.add(joint.name);
    const most = parallel?.mayDiffer?.difference;
    return [
      {
        ...common, isApart: !step.closesLoop, id: ids.before, title: `Before you ${does}`, made: until, measure: { is: 'voltage', a: joint.a, b: joint.b },
        // what is joined can be read no more
        isHoldPoint: !joined.has(joint.name),
        action: `Everything before this step is joined, nothing else. Red lead on ${joint.a}, black lead on ${joint.b}, the two ends about to meet.`,
        expect: step.closesLoop ? beforeWords(step, say) : 'Next to nothing: what the meter and the leaks make of two ends that nothing joins.', instead: step.closesLoop ? '' : 'A module’s voltage here: something joins them already. Stop.',
        limit: most === undefined ? undefined : { sense: 'between', value: -most, to: most, source: 'closed-form' },
        cautions: [`Gloves: ${glovesWords(step.gloves, voltageClass)}. The meter tried on a known source before and after.`],
      },
      {
        ...common, id: ids.after, title: `${joint.is === 'disconnect' ? `Push ${joint.name} in` : `Join ${joint.name}`}, then read`, made: new Set(made), isHoldPoint: true, limit: undefined,
        measure: after ? { is: 'voltage', a: after.a, b: after.b } : undefined,
        action: `${joint.is === 'disconnect' ? `Push ${joint.name} in` : `Join ${joint.a} and ${joint.b} with ${joint.name}`}: ${said.tool(step)}. ${after ? `Then red lead on ${after.a}, black lead on ${after.b}: the whole of what hangs together now.` : 'Nothing live hangs on it yet: pull at it, and mark it.'}${coverWords(step) === '' ? '' : ` Then ${coverWords(step)}.`}`,
        expect: after ? 'The sum of what hangs together.' : '', instead: after ? 'Less by twice a module’s voltage: that module is reversed. Less by one: it is bridged or left out.' : '',
        cautions: [...(bridge ? [`A tool laid across: ${bridgeWords(bridge, say)}.`] : []), ...(step.stored.length > 0 ? [`In capacitors: ${storedWords(step.stored, say)}.`] : [])],
      },
    ];
  });
}

/** The joint first, then the parts it joins. */
const aboutOf = ({ joint: { a, b } }: AssemblyStep, name: string): readonly string[] => [...new Set([name, ...[a, b].map((point) => point.split('.')[0]!)])];

interface Said { readonly say: Say; readonly tool: (step: AssemblyStep) => string }

function wordsOf(car: Car, prepared: PreparedCar | undefined): Said {
  const say: Say = (si, quantity, options) => printValue(si, quantity, { system: prepared?.build.units, ...options });
  return { say, tool: (step) => {
    const { tool, insulation, torque, hardware } = jointTool(car, step);
    return `${tool}${torque === undefined ? '' : `, ${say(torque, 'torque')}`}${hardware === undefined ? '' : `, ${hardware}`}; ${insulation}; gloves: ${glovesWords(step.gloves, step.voltageClass)}`;
  } };
}

interface Asked { readonly made: ReadonlySet<string>; readonly measure: Measured | undefined }

function readAlong(car: Car, battery: BatteryJoints, asked: readonly Asked[], shared?: SharedSolves): readonly (number | undefined)[] {
  const network = measuredNetwork(car, battery, shared);
  let last: { readonly made: ReadonlySet<string>; readonly state: ReturnType<typeof network.at> } | undefined;
  return asked.map(({ made, measure }) => {
    if (!measure) return undefined;
    if (last?.made !== made) last = { made, state: network.at(made) };
    return last.state.meter(measure.a, measure.b);
  });
}

interface Drawn { readonly along: readonly (readonly number[])[]; readonly byCharge: readonly (readonly number[])[] }

function drawnAlong(prepared: PreparedCar, asked: readonly Asked[], draws: Draws): Drawn {
  const table = drawTable([...prepared.build.quantities.values()], draws.count, draws.seed);
  const along = asked.map((): number[] => []);
  const byCharge: number[][] = [];
  const shared = sharedSolves();
  for (let draw = 0; draw < draws.count; draw++) {
    const car = realise(prepared, table.valueOf(draw), { isForMargins: true });
    const battery = batteryJoints(car);
    readAlong(car, battery, asked, shared).forEach((value, index) => { if (value !== undefined) along[index]!.push(value); });
    voltagesByCharge(car, battery).forEach((value, index) => { (byCharge[index] ??= []).push(value); });
  }
  return { along, byCharge };
}

/** Of each module. What the meter read there once may be weeks old: by itself a module may stand wherever its charge may be. */
function voltagesByCharge(car: Car, battery: BatteryJoints): readonly number[] {
  return presentProblem(car, battery, false).cells.map(({ voltage }) => voltage);
}

const together = (nominal: number, bands: readonly Band[]): Band => ({ nominal, low: Math.min(...bands.map(({ low }) => low)), high: Math.max(...bands.map(({ high }) => high)) });

const MOST_NAMED = 6;

function stateWords({ live }: BatteryJoints, made: ReadonlySet<string>): string {
  const joined = live.filter(({ name }) => made.has(name)).map(({ name }) => name);
  const named = joined.length > MOST_NAMED ? `${joined.slice(0, MOST_NAMED).join(', ')} and ${joined.length - MOST_NAMED} more` : joined.join(', ');
  return `contactors open; of the battery ${joined.length === 0 ? 'nothing is joined' : joined.length === live.length ? 'all is joined' : `${named} ${joined.length === 1 ? 'is' : 'are'} joined`}`;
}

/** As the network of the whole car takes it. */
function stateOf(car: Car, { live }: BatteryJoints, made: ReadonlySet<string>): State {
  const open = live.filter(({ name }) => !made.has(name));
  const out = open.filter(({ is }) => is === 'disconnect');
  return {
    without: open.filter(({ is }) => is === 'run').map(({ name }) => name),
    ...(out.length > 0 ? { set: Object.fromEntries(out.map(({ name }) => [name, { [car.parts.get(name)!.roles.disconnect!.outSetting]: true }])) } : {}),
  };
}
