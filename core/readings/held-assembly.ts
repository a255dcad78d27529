/** The assembly under open findings at `stop`: they stand at its head, and the joints that they are about are held. */
import type { Car } from '../car/car.ts';
import { openStops } from '../findings/open-stops.ts';
import type { Finding } from '../findings/finding.ts';
import { assemblyPlan } from '../order/assembly-plan.ts';
import { jointHolds } from '../order/joint-hold.ts';
import { settleStep } from '../power-up/held-steps.ts';
import { jointStepIds } from './assembly-steps.ts';
import type { AssemblyStepToRead } from './assembly-steps.ts';
import { remembered } from '../car/remembered.ts';

const stepsOf = remembered((car: Car) => { const plan = assemblyPlan(car); return plan.outcome === 'planned' ? plan.steps : []; });

/** @returns the same steps where nothing is held */
export function heldAssembly(car: Car, steps: readonly AssemblyStepToRead[], findings: readonly Finding[]): readonly AssemblyStepToRead[] {
  if (steps.length === 0) return steps;
  const stops = openStops(findings);
  const holds = new Map([...jointHolds(car, stepsOf(car), stops)].map(([joint, hold]) => [jointStepIds(joint).after, hold]));
  const shown = holds.size === 0 ? steps : steps.map((step): AssemblyStepToRead => {
    const hold = holds.get(step.id);
    if (!hold) return step;
    // what stands before the joint may be read; the joint is not made, so nothing is read behind it
    return { ...step, title: `Held: ${step.title}`, action: hold.words, expect: '', instead: '', cautions: [], isHoldPoint: true, measure: undefined, quantity: undefined, instrument: undefined, predicted: undefined, limit: undefined, notPredicted: undefined, unknown: [], heldBy: hold.stops };
  });
  return stops.length === 0 ? shown : [{ ...settleStep(stops, 'the joints'), id: 'assembly.settle', phase: steps[0]!.phase, restsOnState: 'assembly', stateSays: '' }, ...shown];
}
