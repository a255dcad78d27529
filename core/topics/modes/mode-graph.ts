/**
 * Which mode follows which, and what must be true on the way.
 *
 * A mode is entered from another with everything that controllers drive as it was there, and everything that hands, plugs and doors
 * work as the entered mode says: so its needs are asked at the moment before it begins.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import { remembered } from '../../car/remembered.ts';
import { byShape } from '../../car/shape.ts';
import type { State } from '../../car/state.ts';
import type { Condition } from '../../condition/condition.ts';
import { asksNetwork, settingsIn } from '../../condition/condition.ts';
import { isTrue } from '../../condition/evaluate.ts';
import { settingIn, situationIn } from './situation.ts';

/** Settings held at a value whatever the modes say: part -> setting -> value. */
export type Held = NonNullable<State['set']>;

export interface WorkedSetting { readonly part: string; readonly setting: string }

/** Every setting that hands, feet, doors, plugs and crashes work. */
export const workedSettings = byShape((car: Car): readonly WorkedSetting[] =>
  [...car.parts.values()].flatMap(({ name, kind, missing }) => (missing.length > 0 ? [] : (kind.worked ?? []).map((setting) => ({ part: name, setting })))));

/** Modes that are entered from no other: where the car begins. The first of the file when there is none. */
export function startModes(car: Car): readonly string[] {
  const all = [...car.build.modes.values()];
  const starts = all.filter(({ from }) => from.length === 0).map(({ name }) => name);
  return starts.length > 0 ? starts : all.slice(0, 1).map(({ name }) => name);
}

/** By mode: how hands, feet, doors and plugs stand in it, in the order of `workedSettings`. */
const handsByMode = remembered(function handsByMode(_: Car): Map<string, readonly unknown[]> { return new Map(); });

function handsIn(car: Car, mode: string): readonly unknown[] {
  const known = handsByMode(car);
  let hands = known.get(mode);
  if (!hands) known.set(mode, (hands = workedSettings(car).map(({ part, setting }) => settingIn(car, { mode }, part, setting))));
  return hands;
}

/** The moment before a mode is entered. */
export function enteringState(car: Car, from: string, to: string, held: Held = {}): State {
  const set: Record<string, Record<string, unknown>> = {};
  const before = handsIn(car, from), then = handsIn(car, to);
  workedSettings(car).forEach(({ part, setting }, n) => {
    const value = held[part]?.[setting] ?? then[n];
    if (value !== undefined && value !== before[n]) (set[part] ??= {})[setting] = value;
  });
  return Object.keys(set).length > 0 ? { mode: from, set } : { mode: from };
}

export interface Entry {
  readonly from: string; readonly to: string;
  readonly state: State;
  /** false: some need is not met; undefined: some cannot be told and none is known to fail */
  readonly isAllowed: boolean | undefined;
  /** needs that refuse; when the first that asks no network refuses, the network was not asked */
  readonly refusedBy: readonly Condition[];
}

/**
 * Whether a mode may be entered from another. Needs on settings alone are asked first; what a hand must do for a moment (turn the key to
 * start, press the pedal) is done, unless it is held.
 */
export function entryOf(car: Car, ask: Network, from: string, to: string, held: Held = {}): Entry {
  const needs = car.build.modes.get(to)?.needs ?? [];
  const onSettings = needs.filter((need) => !asksNetwork(need));
  const refused = (some: readonly Condition[], state: State): Condition[] => { const situation = situationIn(car, ask, state); return some.filter(({ expression }) => isTrue(expression, situation) === false); };
  let state = enteringState(car, from, to, held);
  let refusedBy = refused(onSettings, state);
  if (refusedBy.length > 0) {
    for (const way of waysOf(car, refusedBy)) {
      const tried: State = { mode: from, set: merged(merged(state.set, way), held) };
      if (refused(onSettings, tried).length > 0) continue;
      state = tried;
      refusedBy = [];
      break;
    }
  }
  if (refusedBy.length === 0) refusedBy = refused(needs.filter(asksNetwork), state);
  const isAllowed = refusedBy.length > 0 ? false : needs.some(({ expression }) => isTrue(expression, situationIn(car, ask, state)) === undefined) ? undefined : true;
  return { from, to, state, isAllowed, refusedBy };
}

/** Ways in which hands may stand that are looked at. */
const MOST_WAYS = 64;

/** Every way in which the worked settings of some needs may stand, up to a number; none when they speak of none. */
export function waysOf(car: Car, needs: readonly Condition[]): readonly Held[] {
  let ways: Record<string, Record<string, unknown>>[] = [{}];
  const settings = new Map(needs.flatMap(settingsIn).map((one) => [`${one.part}.${one.setting}`, one]));
  for (const { part, setting } of settings.values()) {
    const values = workedValues(car, part, setting);
    if (values.length === 0) continue;
    ways = ways.flatMap((way) => values.map((value) => ({ ...way, [part]: { ...way[part], [setting]: value } }))).slice(0, MOST_WAYS);
  }
  return ways.length === 1 && Object.keys(ways[0]!).length === 0 ? [] : ways;
}

/** Values that a worked setting can take; none for one that a controller drives. */
export function workedValues(car: Car, part: string, setting: string): readonly unknown[] {
  const known = car.parts.get(part);
  if (!known || known.missing.length > 0 || known.kind.worked?.includes(setting) !== true) return [];
  const words = known.kind.settingWords?.(known.fields as never)[setting];
  if (words && words.length > 0) return words;
  // a switch with positions has no `closed` of its own
  return known.kind.settings[setting]?.type === 'flag' && known.kind.atRest?.(known.fields as never)[setting] !== undefined ? [true, false] : [];
}

/** Settings laid over others. */
export function merged(one: State['set'], other: Held): Held {
  const both: Record<string, Readonly<Record<string, unknown>>> = { ...one };
  for (const [part, settings] of Object.entries(other)) both[part] = { ...both[part], ...settings };
  return both;
}

export interface Reach {
  /** modes that can be entered, `true` for sure, `undefined` perhaps; others are refused */
  readonly reached: ReadonlyMap<string, true | undefined>;
  /** entries that were refused, from modes that can be reached */
  readonly refused: readonly Entry[];
  /** entries that were allowed, in the order found */
  readonly taken: readonly Entry[];
}

/** Modes that can be reached from where the car begins, with some settings held. */
export function reach(car: Car, ask: Network, held: Held = {}): Reach {
  const reached = new Map<string, true | undefined>(startModes(car).map((name) => [name, true]));
  const entries = new Map<string, Entry>();
  const queue = [...reached.keys()];
  for (let from = queue.shift(); from !== undefined; from = queue.shift()) {
    const sure = reached.get(from);
    for (const { name: to, from: sources } of car.build.modes.values()) {
      if (!sources.includes(from)) continue;
      const key = `${from} ${to}`;
      const entry = entries.get(key) ?? entryOf(car, ask, from, to, held);
      entries.set(key, entry);
      if (entry.isAllowed === false) continue;
      const becomes = sure === true && entry.isAllowed === true ? true : undefined;
      if (reached.has(to) && (reached.get(to) === true || becomes === undefined)) continue;
      reached.set(to, becomes);
      queue.push(to);
    }
  }
  const all = [...entries.values()];
  return { reached, refused: all.filter(({ isAllowed, to }) => isAllowed === false && !reached.has(to)), taken: all.filter(({ isAllowed }) => isAllowed !== false) };
}

/** Modes that a part which can turn the wheels is asked for power in. */
export function driveModes(car: Car): readonly string[] {
  const movers = [...car.parts.values()].filter(({ roles }) => roles.traction).map(({ name }) => name);
  return [...car.modes.values()].filter(({ set }) => movers.some((part) => Object.values(set[part] ?? {}).some((value) => typeof value === 'number' && value !== 0))).map(({ name }) => name);
}

/** Contacts on the high-voltage side that a coil moves: elements of the network, with the part. */
export const coilContacts = byShape((car: Car): readonly { readonly part: string; readonly element: string }[] =>
  [...car.parts.values()].flatMap(({ name, names, kind, roles }) => (kind.family === 'high_voltage' ? (roles.switching ?? []).filter(({ by }) => by === 'coil').map(({ element }) => ({ part: name, element: names.of(element) })) : [])));

/** Parts whose high-voltage contact is closed in a state; undefined when it could not be solved. */
export function closedContacts(car: Car, ask: Network, state: State): readonly string[] | undefined {
  const solved = ask.solve(state);
  if (solved.outcome !== 'solved') return undefined;
  return [...new Set(coilContacts(car).filter(({ element }) => solved.stateOf(element) === 'closed').map(({ part }) => part))];
}
