/** The procedures of a build and how far they are by the log: what terminal and screen ask of readings. */
import type { Network } from '../car/ask.ts';
import type { Build } from '../build/build.ts';
import type { Car } from '../car/car.ts';
import type { PreparedCar } from '../car/realise.ts';
import type { Finding } from '../findings/finding.ts';
import { heldSteps } from '../power-up/held-steps.ts';
import { phases } from '../power-up/step.ts';
import { powerUpOnce } from '../power-up/steps.ts';
import { assemblyPhases, assemblyStepsOnce, jointsMade } from './assembly-steps.ts';
import { heldAssembly } from './held-assembly.ts';
import { freeStep } from './judging.ts';
import { standing } from './log.ts';
import { progressOf } from './progress.ts';
import type { Progress } from './progress.ts';
import { proposalsOf } from './proposals.ts';
import type { Proposal } from './proposals.ts';
import type { ReadStep } from './read-step.ts';
import type { Reading } from './reading.ts';
import { restsOnOther } from './rests-on.ts';
import { stateWordsOf } from './state-words.ts';

export type ProcedureName = 'assembly' | 'power-up';
export interface Procedure {
  readonly name: ProcedureName;
  readonly steps: readonly ReadStep[];
  /** heading over each step, as many as steps */
  readonly headings: readonly string[];
  readonly progress: Progress;
  /** instead of steps */
  readonly why: string | undefined;
}
/** What an analysis has of a build. */
export interface Studied { readonly build: Build; readonly car: Car; readonly ask: Network; readonly prepared: PreparedCar; /** those at `stop` hold steps; of an analysis of no subject there are none */ readonly findings: readonly Finding[] }

export function procedureOf(name: ProcedureName, { build, car, ask, prepared, findings }: Studied, readings: readonly Reading[]): Procedure {
  const of = <S extends ReadStep>(steps: readonly S[], heading: (step: S) => string, why: string | undefined): Procedure => ({
    name, steps, headings: steps.map(heading), why,
    progress: progressOf(steps, readings, (step, { restsOn }, read) => restsOnOther(restsOn, step, build, read), name),
  });
  if (name === 'power-up') return of(heldSteps(car, powerUpOnce(car, ask, prepared).steps, findings), ({ phase }) => phases[phase], car.parts.size === 0 ? 'The build has no parts yet, so there is nothing to power up.' : undefined);
  const { steps, why } = assemblyStepsOnce(car, prepared)(jointsMade(readings));
  return of(heldAssembly(car, steps, findings), ({ phase }) => assemblyPhases[phase], why);
}

/** Better numbers by all that was read and agrees: the steps of both procedures, and readings across a module that belong to no step. */
export function proposedBy(studied: Studied, readings: readonly Reading[]): readonly Proposal[] {
  const { car, ask, prepared } = studied;
  const read = new Set(readings.map(({ procedure }) => procedure));
  const done = (['assembly', 'power-up'] as const).flatMap((name) => {
    if (!read.has(name)) return [];
    const { steps, progress } = procedureOf(name, studied, readings);
    return steps.map((step, index) => ({ step, done: progress.steps[index]! }));
  });
  const rest = stateWordsOf({});
  const free = standing(readings).flatMap((reading) => {
    const [a, b] = reading.points;
    if (reading.procedure !== 'free' || reading.verdict !== 'agrees' || reading.quantity !== 'voltage' || reading.state !== rest || a === undefined || b === undefined || !ask.points.includes(a) || !ask.points.includes(b)) return [];
    return [{ step: { ...freeStep(car, ask, undefined, { a, b, state: {}, quantity: 'voltage' }), id: `${a} ${b}` }, done: { status: 'passed' as const, readings: [reading] } }];
  });
  return proposalsOf(prepared, [...done, ...free]);
}
