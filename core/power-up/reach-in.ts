/** Splitting the pack before anybody reaches in, and joining it again: what every step that needs hands inside says in the same words. */
import type { State } from '../car/state.ts';
import { printValue } from '../quantity/print-value.ts';
import { voltmeter } from './instruments.ts';
import { passiveWait } from './passive-wait.ts';
import { linksOf, voltageBetween } from './plan.ts';
import type { Plan } from './plan.ts';
import { readMeasure } from './read-measure.ts';
import { disconnectsOut } from './stands.ts';
import type { Measure, StepDraft } from './step.ts';

const seconds = (time: number): string => printValue(time, 'time', { rounding: 'up' });

/** `SD out, in the pocket` */
export function splitWords({ disconnects, openRuns }: Plan): string {
  return disconnects.length > 0 ? `${disconnects.map(({ name }) => name).join(' and ')} out, in the pocket of whoever reaches in` : `${openRuns.join(' and ')} apart and covered, like joining it: gloves, insulated tool`;
}

/** `SD in` */
export function joinWords({ disconnects, openRuns }: Plan): string {
  return disconnects.length > 0 ? `${disconnects.map(({ name }) => name).join(' and ')} in` : `${openRuns.join(' and ')} joined, as before`;
}

/** How long to wait, and why so long. */
export function waitWords({ car, ask }: Plan): string {
  const wait = passiveWait(car, ask);
  switch (wait.is) {
    case 'none': return 'Nothing behind the contactors holds more than 60 V for long; wait five seconds all the same.';
    case 'bleeders': return `Wait ${seconds(wait.wait)}: with nothing active working the bleeders alone take ${seconds(wait.time)} to 60 V.`;
    case 'leaks': return `Nothing in the file empties ${wait.links.join(', ')}: ${wait.time === undefined ? 'they may stay full for days' : `leaks alone would take about ${seconds(wait.time)}, dry insulation far longer`}. No waiting time helps: watch the meter, and if it does not fall below 60 V, empty them through a resistor made for it.`;
  }
}

/** The pack parted, everything off. */
export function splitState({ car, start, openRuns, disconnects }: Plan): State {
  return { ...(start === undefined ? {} : { mode: start }), ...(disconnects.length > 0 ? { set: disconnectsOut(car) } : { without: openRuns }) };
}

/** With a meter on the largest capacitor, the others named: one whose fuse has opened empties by itself alone. */
export function deadWords({ car }: Plan): string {
  const links = linksOf(car);
  const [first, ...others] = links;
  if (!first) return 'Meter tried on a known source, 0 V between the poles that will be touched and from each to the chassis, meter tried again.';
  return `Meter tried on a known source; read ${first.positive} against ${first.negative}${others.length > 0 ? `, then ${others.map(({ positive, negative }) => `${positive} against ${negative}`).join(', ')}` : ''}, then each against the chassis; meter tried again.`;
}

/** A reading of 0 V on the largest capacitor once the pack is split, told from the pack's voltage that would still stand there. */
export function deadReading(plan: Plan, live: State): Partial<StepDraft> {
  const { car, ask, packVoltage } = plan;
  const [link] = linksOf(car);
  const state = splitState(plan);
  if (!link) return { state };
  const measure: Measure = { is: 'voltage', a: link.positive, b: link.negative };
  return { state, measure, instrument: voltmeter(packVoltage), noEffect: readMeasure(car, ask, live, measure) };
}

/** Split, waited for, read dead: a hold point. @param live  state before */
export function splitStep(plan: Plan, draft: Pick<StepDraft, 'id' | 'phase' | 'title'> & { readonly about?: readonly string[]; readonly then?: string }, live: State): StepDraft {
  const { disconnects, openRuns } = plan;
  const { then, about = [], ...rest } = draft;
  return {
    ...rest, about: [...about, ...disconnects.map(({ name }) => name), ...openRuns], hazard: 'class_b', isHoldPoint: true, isWayBack: true, ...deadReading(plan, live),
    action: `Key off. ${splitWords(plan)}. ${waitWords(plan)} ${deadWords(plan)}${then === undefined ? '' : ` Only then: ${then}`}`,
    expect: 'Near 0 V each time, and the meter alive before and after.',
    instead: 'A voltage that stays: a full capacitor, or contacts that are welded. Nobody reaches in; read every minute until it is below 60 V.',
  };
}

/** Joined again and shown to be: what follows proves nothing with the pack parted. */
export function joinedStep(plan: Plan, draft: Pick<StepDraft, 'id' | 'phase' | 'title'> & { readonly before?: string }): StepDraft[] {
  const { car, ask, strings, start, packVoltage, disconnects, openRuns } = plan;
  const { before, ...rest } = draft;
  const state: State = start === undefined ? {} : { mode: start };
  const [string, ...others] = strings;
  if (!string || voltageBetween(ask, state, string.positive, string.negative) === 0) return [];
  const measure: Measure = { is: 'voltage', a: string.positive, b: string.negative };
  return [{
    ...rest, about: [...disconnects.map(({ name }) => name), ...openRuns, string.name], hazard: 'class_b', isHoldPoint: true, state,
    action: `${before === undefined ? '' : `${before} `}Key off, covers on, tools counted, nobody reaches in any more. ${joinWords(plan)} again. Read ${string.positive} against ${string.negative}${others.map(({ positive, negative }) => `, then ${positive} against ${negative}`).join('')}.`,
    measure, instrument: voltmeter(packVoltage), noEffect: readMeasure(car, ask, splitState(plan), measure),
    expect: `${others.length > 0 ? 'Each string’s' : 'The pack’s'} voltage: without it every refusal that follows would be read at a dead pack.`, instead: 'Less: it is not in, or a fuse has opened. Do not go on.',
  }];
}
