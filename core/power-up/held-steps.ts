/**
 * A procedure under open findings at `stop`: they stand at its head as a hold point, and each step that would put to the test, under
 * voltage, what one of them is about is held by it. A held step says why and nothing else: no points, no meter, no instruction.
 *
 * What is held: steps that energise the side of the car that a finding is about. Its insulation is read all the same, because nothing is
 * live then; and where strings stand apart, their voltages may be read, while nothing closes the contacts between them.
 */
import type { Car } from '../car/car.ts';
import { openJointsOf } from '../car/open-joints.ts';
import { stringsOf } from '../car/strings.ts';
import { openStops, stopNames, stopsWords, stopWords } from '../findings/open-stops.ts';
import type { OpenStop } from '../findings/open-stops.ts';
import type { Finding, TopicName } from '../findings/finding.ts';
import { contactMeetings } from '../topics/pack/contact-meeting.ts';
import { phases } from './step.ts';
import type { Phase, PowerUpStep } from './step.ts';

export const SETTLE_STEP = 'prepare.settle';

const order = Object.keys(phases) as Phase[];
const JOINED = order.indexOf('join');
/** The first phase in which a finding of a subject is met under voltage. */
const metFrom: Readonly<Record<TopicName, Phase>> = { file: 'low_voltage', mass: 'drive', 'low-voltage': 'low_voltage', modes: 'coils', pack: 'limited_source', 'high-voltage': 'limited_source' };

/** @returns the same steps where no finding is at `stop` */
export function heldSteps(car: Car, steps: readonly PowerUpStep[], findings: readonly Finding[]): readonly PowerUpStep[] {
  const stops = openStops(findings);
  if (stops.length === 0 || steps.length === 0) return steps;
  const scopes = stops.map((stop) => ({ stop, names: scopeOf(car, stop), from: order.indexOf(metFrom[stop.topic]) }));
  return [
    { ...settleStep(stops, 'the steps'), id: SETTLE_STEP, phase: 'prepare' },
    ...steps.map((step): PowerUpStep => {
      if (step.isWayBack) return step;
      const names = namesOf(car, step);
      const at = order.indexOf(step.phase);
      const by = scopes.filter((scope) => at >= scope.from && isInMode(car, scope.stop, step) && names.some((name) => scope.names.has(name) && !isLeftOff(step, name))).map(({ stop }) => stop);
      return by.length === 0 ? step : held(step, by);
    }),
  ];
}

/** Nothing is done and nothing read. */
const NOTHING_READ = { state: undefined, measure: undefined, quantity: undefined, instrument: undefined, predicted: undefined, willFail: false, limit: undefined, notPredicted: undefined, unknown: [], lost: [] } as const;

/** The head of a procedure under open findings. @param waits  what is not done meanwhile: `the joints`, `the steps` */
export function settleStep(stops: readonly OpenStop[], waits: string): Omit<PowerUpStep, 'id' | 'phase'> {
  return {
    ...NOTHING_READ, title: stops.length === 1 ? 'A finding at STOP is open' : `${stops.length} findings at STOP are open`, action: stopsWords(stops, waits), about: [...new Set(stops.flatMap(({ about }) => about.slice(0, 1)))], hazard: 'none', isHoldPoint: true,
    expect: 'halfshaft check shows none at STOP any more.', people: 'Both, together.',
    cautions: stops.map(stopWords), heldBy: stops,
  };
}

function held({ id, phase, title, about, hazard, people }: PowerUpStep, by: readonly OpenStop[]): PowerUpStep {
  return {
    ...NOTHING_READ, id, phase, title, about, hazard, people, isHoldPoint: true, heldBy: by, expect: '', cautions: [], action: `Do not do this step. It is held by ${stopNames(by)} until that is settled: ${by.map(({ statement }) => statement).join(' ')}`,
  };
}

/** Where it is about strings that contactors lay in parallel: those contactors, because by itself each string may be read. */
function scopeOf(car: Car, { about, topic }: OpenStop): ReadonlySet<string> {
  const meetings = contactMeetings(car).filter(({ strings }) => strings.every((name) => about.includes(name)));
  if (meetings.length > 0) return new Set(meetings.flatMap(({ contacts }) => contacts));
  // what is wrong with a module is met as soon as the pack is joined
  const isOfPack = topic === 'pack' && about.some((name) => car.parts.get(name)?.roles.cells);
  return new Set([...about, ...(isOfPack ? [...stringsOf(car).packs.flatMap(({ strings }) => strings.map(({ name }) => name)), ...openJointsOf(car)] : [])]);
}

/** What is wrong in one mode alone is met in that mode. */
const isInMode = (car: Car, { variant }: OpenStop, { state, about }: PowerUpStep): boolean => variant === undefined || !car.modes.has(variant) || state?.mode === variant || about.includes(variant);

/** A run that is not there yet is not met, except where it is joined in that very step. */
const isLeftOff = ({ phase, state }: PowerUpStep, name: string): boolean => phase !== 'join' && state?.without?.includes(name) === true;

/** What a step puts to the test; of a joint the parts at its ends too. While every contactor is open: what is joined, not what lies behind them. */
function namesOf({ parts, runs }: Car, { about, isCalm, phase }: PowerUpStep): readonly string[] {
  return about.flatMap((name) => {
    const run = runs.get(name);
    if (run) return run.carries === 'high_voltage' ? [name, run.from.split('.')[0]!, run.to.split('.')[0]!] : [name];
    return isCalm && order.indexOf(phase) >= JOINED && !parts.get(name)?.roles.cells ? [] : [name];
  });
}
