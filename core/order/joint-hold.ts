/**
 * A joint that must not be made as things stand: a finding at `stop` is about it or about a part that it joins, its ends stand too far
 * apart, or no gloves are made for what hands would meet. Its step says so, and names no tool.
 */
import { stopNames } from '../findings/open-stops.ts';
import type { OpenStop } from '../findings/open-stops.ts';
import { contactMeetings } from '../topics/pack/contact-meeting.ts';
import type { Car } from '../car/car.ts';
import { isTooFarApart } from './step-words.ts';
import type { AssemblyStep } from './procedure.ts';

export interface JointHold {
  /** findings that hold it; empty: it holds itself */
  readonly stops: readonly OpenStop[];
  /** what stands instead of the instruction */
  readonly words: string;
}

/** Which joints are held, by their names. Findings that name joints hold those alone: the other joints of the parts they name are well. */
export function jointHolds(car: Car, steps: readonly AssemblyStep[], stops: readonly OpenStop[]): ReadonlyMap<string, JointHold> {
  const joints = new Set(steps.map(({ joint }) => joint.name));
  const meetings = contactMeetings(car);
  const scopes = stops.flatMap((stop) => {
    // strings that contactors lay in parallel may be put together: it is the contacts that wait
    if (meetings.some(({ strings }) => strings.every((name) => stop.about.includes(name)))) return [];
    const named = stop.about.filter((name) => joints.has(name));
    return [{ stop, names: new Set(named.length > 0 ? named : stop.about) }];
  });
  const holds = new Map<string, JointHold>();
  for (const step of steps) {
    const { name, a, b } = step.joint;
    const [one, other] = [a, b].map((point) => point.split('.')[0]!);
    const by = scopes.filter(({ names }) => names.has(name) || names.has(one!) || names.has(other!)).map(({ stop }) => stop);
    if (by.length > 0) holds.set(name, { stops: by, words: `Do not make this joint. It is held by ${stopNames(by)} until that is settled: ${by.map(({ statement }) => statement).join(' ')}` });
    else if (isTooFarApart(step.parallel)) holds.set(name, { stops: [], words: 'Do not make this joint. Bring its two ends together first, and read them again.' });
    else if (step.voltageClass === 'B' && step.gloves === undefined) holds.set(name, { stops: [], words: 'Do not make this joint. No gloves are made for this voltage.' });
  }
  return holds;
}
