/**
 * What all readings of the battery so far say about the way it is put together (`core/order/name-mistake.ts`), in words for the verdict on
 * the newest one. Only states in which every contact is open count: then the battery is its modules and its joints.
 */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import type { State } from '../car/state.ts';
import { batteryJoints } from '../order/battery-joints.ts';
import { nameMistake } from '../order/name-mistake.ts';
import type { MistakeFinding, NamedMistake, PointReading } from '../order/name-mistake.ts';
import { closedContacts } from '../topics/modes/mode-graph.ts';
import { readEntered } from './entered.ts';
import type { EnteredValue } from './entered.ts';
import { standing } from './log.ts';
import type { ReadStep } from './read-step.ts';
import type { Reading } from './reading.ts';
import type { Meaning } from './verdict.ts';

/** Names that one sentence holds. */
const MOST_NAMED = 7;
const MOST_LINKS = 3;

/** Joints of the battery that are made in a state; undefined: a contact is closed or something has failed in it. */
export function jointsMadeIn(car: Car, ask: Network, { mode, without = [], set = {}, failures = [] }: State): ReadonlySet<string> | undefined {
  if (failures.length > 0) return undefined;
  if (mode !== undefined && (closedContacts(car, ask, { mode, without, set })?.length ?? 1) > 0) return undefined;
  const open = new Set(without);
  const { live } = batteryJoints(car);
  return new Set(live.filter(({ name, is }) => (is === 'run' ? !open.has(name) : set[name]?.[car.parts.get(name)!.roles.disconnect!.outSetting] !== true)).map(({ name }) => name));
}

/** A reading of a step as `nameMistake` takes it; undefined when it is no voltage of the battery at rest. */
export function pointReading(car: Car, ask: Network, { measure, state = {}, predicted, instrument }: ReadStep, { best, low, high }: EnteredValue): PointReading | undefined {
  if (measure?.is !== 'voltage' || !Number.isFinite(low) || !Number.isFinite(high)) return undefined;
  const made = jointsMadeIn(car, ask, state);
  if (!made) return undefined;
  const meter = instrument ? instrument.share * Math.abs(best) + instrument.fixed : 0;
  const wide = predicted ? Math.max(predicted.high - predicted.nominal, predicted.nominal - predicted.low) : meter;
  return { a: measure.a, b: measure.b, voltage: best, band: wide + (high - low) / 2, made, ...(predicted ? { predicted: predicted.nominal } : {}) };
}

/** The newest reading of every step that was read, as far as it says something of the battery. */
export function readingsOfBattery(car: Car, ask: Network, steps: readonly ReadStep[], readings: readonly Reading[]): readonly PointReading[] {
  const newest = new Map(standing(readings).filter(({ quantity }) => quantity === 'voltage').map((reading) => [reading.step, reading]));
  return steps.flatMap((step) => {
    const reading = newest.get(step.id);
    const read = reading && readEntered(reading.reading, 'voltage');
    return (read?.ok === true && read.value.is === 'value' && pointReading(car, ask, step, read.value)) || [];
  });
}

/**
 * @param now  the reading that lies outside
 * @param others  those of the other steps; where they and this one have no mistake in common, this one alone is explained
 */
export function mistakeMeanings(car: Car, now: PointReading, others: readonly PointReading[]): readonly Meaning[] {
  const together = nameMistake(car, [now, ...others]);
  const found = together.named.length > 0 || others.length === 0 ? together : nameMistake(car, [now]);
  return inWords(found);
}

/** Mistakes of one sort that explain the same share one sentence. */
function inWords({ named }: MistakeFinding): readonly Meaning[] {
  const explains = (part: string | undefined, says: string): Meaning => ({ part, says, reads: undefined, fits: true });
  const single = named.flatMap((one) => (one.mistakes.length === 1 ? [{ one, mistake: one.mistakes[0]! }] : []));
  const several = named.filter(({ mistakes }) => mistakes.length > 1);
  const ofModules = (is: 'reversed' | 'left_out', words: string): readonly Meaning[] => {
    const own = single.flatMap(({ one, mistake }) => (mistake.is === is ? [{ one, module: mistake.module }] : []));
    if (own.length === 0) return [];
    return own.length === 1 ? [explains(own[0]!.module, afterName(own[0]!.one, own[0]!.module))] : [explains(undefined, `One of ${few(own.map(({ module }) => module))} appears ${words}: ${own[0]!.one.where}`)];
  };
  const links = single.flatMap(({ one, mistake }) => (mistake.is === 'wrong_link' ? [{ one, run: mistake.run, says: `${mistake.run} on ${mistake.seems} instead of ${mistake.meant}` }] : []));
  const open = single.flatMap(({ one, mistake }) => (mistake.is === 'not_joined' ? [{ one, joint: mistake.joint }] : []));
  const leads = single.filter(({ mistake }) => mistake.is === 'swapped_leads');
  return [
    ...several.slice(0, 1).map(({ statement }) => explains(undefined, statement)),
    ...ofModules('reversed', 'reversed'), ...ofModules('left_out', 'bridged or left out'),
    ...(open.length === 0 ? [] : open.length === 1 ? [explains(open[0]!.joint, afterName(open[0]!.one, open[0]!.joint))] : [explains(undefined, `One of ${few(open.map(({ joint }) => joint))} appears not to be joined: ${open[0]!.one.where}`)]),
    ...(links.length === 0 ? [] : links.length === 1 ? [explains(links[0]!.run, afterName(links[0]!.one, links[0]!.run))] : [explains(undefined, `A link appears to be on the wrong terminal: ${links.slice(0, MOST_LINKS).map(({ says }) => says).join(', or ')}${links.length > MOST_LINKS ? `, or ${links.length - MOST_LINKS} others` : ''}`)]),
    ...leads.map(({ one }) => explains(undefined, one.statement)),
  ];
}

/** The screen sets the name before the words. */
const afterName = ({ statement }: NamedMistake, name: string): string => (statement.startsWith(`${name} `) ? statement.slice(name.length + 1) : statement);

const few = (names: readonly string[]): string => (names.length > MOST_NAMED ? `${names.slice(0, MOST_NAMED).join(', ')} and ${names.length - MOST_NAMED} more` : names.join(', '));
