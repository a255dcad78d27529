/**
 * What every single failure does in every mode, whether anything tells, and whether one more would be dangerous.
 *
 * Each mode is solved once; a failure is a low-rank neighbour of it where it can be (`predict-state.ts`). Nothing of time, heat building up,
 * firmware or the mechanics of a part is in it; `untold` says what the network cannot tell of this car.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import { remembered } from '../../car/remembered.ts';
import type { State } from '../../car/state.ts';
import { asksNetwork, pointsIn } from '../../condition/condition.ts';
import { driveModes, startModes, workedSettings } from '../../topics/modes/mode-graph.ts';
import { settingIn } from '../../topics/modes/situation.ts';
import { wayTo } from '../asked-state.ts';
import type { Hypothesis } from '../hypothesis.ts';
import { sightsIn } from '../predict-state.ts';
import type { Sight } from '../predict-state.ts';
import type { EffectSort, InMode, Notice, SecondFailure, Severity, SingleFailure } from './effect.ts';
import { severities } from './effect.ts';
import { effectsIn, HOLDS_ON } from './effects-in.ts';
import { failuresLookedAt } from './failures-looked-at.ts';
import { listening } from './listening.ts';
import type { Listening } from './listening.ts';
import { loopBypass } from './loop-bypass.ts';
import type { LoopBypass } from './loop-bypass.ts';
import { placesIn } from './places.ts';
import type { Places } from './places.ts';
import { pluggedDrives } from './plugged.ts';
import type { PluggedDrive } from './plugged.ts';
import { contactPairs, takesGuard } from './second-failure.ts';
import type { Closing } from './second-failure.ts';
import { CLASS_A_HIGHEST } from '../../physics/voltage-class.ts';

export interface FailureTable {
  /** worst first */
  readonly failures: readonly SingleFailure[];
  readonly modes: readonly string[];
  /** modes that the network has no answer for */
  readonly notSolved: readonly string[];
  readonly loop: Pick<LoopBypass, 'watched' | 'unwatched' | 'isCut'>;
  readonly plugged: readonly Pick<PluggedDrive, 'inlet' | 'mode' | 'drivesAnyway' | 'untold'>[];
  /** sentences: what the network cannot tell of this car */
  readonly untold: readonly string[];
}

/** Worked out once for a car. @returns the same failures in the same order from run to run */
export const singleFailures: (car: Car, ask: Network) => FailureTable = remembered((car: Car, ask: Network): FailureTable => {
  const hypotheses = failuresLookedAt(car);
  const places = placesIn(car, ask);
  const listen = listening(car, ask, places);
  const found: Found = new Map(hypotheses.map(({ id }) => [id, { modes: [], second: undefined, moves: new Set<string>() }]));
  const notSolved: string[] = [];
  for (const looked of statesOf(car)) if (!lookIn(car, places, listen, looked, hypotheses, found)) notSolved.push(looked.mode);
  for (const mode of car.modes.keys()) refusals(car, ask, places, listen, mode, hypotheses, found);
  const plugged = pluggedDrives(car, ask, places, listen);
  for (const hypothesis of hypotheses) {
    for (const { drivesAnyway, drivesWith, inlet, mode } of plugged) {
      if (drivesAnyway || !drivesWith(hypothesis)) continue;
      found.get(hypothesis.id)!.modes.push({ mode, handsAs: undefined, effects: [{ sort: 'drives_plugged', about: [inlet] }], notices: [], seenAt: [] });
    }
  }
  const loop = loopBypass(car, ask, places, listen, hypotheses.filter(({ id }) => found.get(id)!.modes.every(({ notices }) => notices.length === 0)));
  for (const [id, covers] of loop.bypassed) {
    const one = found.get(id)!;
    one.modes.push({ mode: driveModes(car)[0] ?? [...car.modes.keys()].at(-1)!, handsAs: undefined, effects: [{ sort: 'loop_bypassed', about: covers }], notices: [], seenAt: [] });
    one.second ??= { sort: 'cover', by: covers };
  }
  const told = new Set(hypotheses.flatMap(({ id, about, changes }) => (car.parts.get(about[0]!)?.roles.protection && changes.every(({ is }) => is === 'open') && found.get(id)!.modes.some(({ notices }) => notices.length > 0) ? about.slice(0, 1) : [])));
  const failures = hypotheses.map(({ id, sort, about, path, words }): SingleFailure => {
    const { modes, second: pair } = found.get(id)!;
    const effects = modes.flatMap((one) => one.effects);
    const second = pair ?? secondOf(modes);
    // a fuse that opened stays open, and what that does is a failure of its own
    const isNoticed = modes.some(({ notices }) => notices.length > 0) || effects.some((effect) => effect.sort === 'fuse_opens' && effect.about.some((fuse) => told.has(fuse)));
    const severity = severityOf(modes, second, isNoticed);
    return { id, sort, about, path, words, modes: merged(modes), second: severity === 'danger' ? pair : second, isNoticed, severity };
  });
  const order = (one: SingleFailure): number => severities.indexOf(one.severity);
  return {
    failures: failures.map((one, index) => ({ one, index })).sort((a, b) => order(a.one) - order(b.one) || a.index - b.index).map(({ one }) => one),
    modes: [...car.modes.keys()], notSolved, loop: { watched: loop.watched, unwatched: loop.unwatched, isCut: loop.isCut },
    plugged: plugged.map(({ inlet, mode, drivesAnyway, untold }) => ({ inlet, mode, drivesAnyway, untold })),
    untold: untoldOf(places, loop, plugged, notSolved),
  };
});

interface Looked { readonly mode: string; readonly handsAs: string | undefined; readonly state: State }

/** Every mode; and each drive mode with key and switches turned as in the parked car while the controllers hold on. */
function statesOf(car: Car): readonly Looked[] {
  const modes = [...car.modes.keys()].map((mode): Looked => ({ mode, handsAs: undefined, state: { mode } }));
  const [start] = startModes(car);
  const [drive] = driveModes(car);
  if (start === undefined || drive === undefined || start === drive) return modes;
  const set: Record<string, Record<string, unknown>> = {};
  for (const { part, setting } of workedSettings(car)) {
    const value = settingIn(car, { mode: start }, part, setting);
    // who drives off does not pull the disconnect
    if (value !== undefined && car.parts.get(part)?.roles.disconnect === undefined && value !== settingIn(car, { mode: drive }, part, setting)) (set[part] ??= {})[setting] = value;
  }
  return Object.keys(set).length === 0 ? modes : [...modes, { mode: drive, handsAs: start, state: { mode: drive, set } }];
}

type Found = Map<string, { readonly modes: InMode[]; second: SecondFailure | undefined; /** points of conditions that it moves in some mode */ readonly moves: Set<string> }>;

/** A condition's point that moves by less, decides nothing [V]; our choice. */
const MOVES = 0.5;

/** @returns false when the network has no answer for the mode */
function lookIn(car: Car, places: Places, listen: Listening, { mode, handsAs, state: bare }: Looked, hypotheses: readonly Hypothesis[], found: Found): boolean {
  const sights = sightsIn(car, places.probes.length > 0 ? { ...bare, bridges: places.probes } : bare, places.watched);
  const { base } = sights;
  if (!base) return false;
  const { buses, placeOf, asked } = places;
  const asserts = handsAs === undefined ? (car.build.modes.get(mode)?.asserts ?? []).filter(asksNetwork) : [];
  const isLive = ({ volts }: Sight): boolean => buses.some(({ a, b }) => Math.abs(volts[placeOf.get(a)!]! - volts[placeOf.get(b)!]!) > CLASS_A_HIGHEST);
  const isShort = car.modes.get(mode)?.lasts !== undefined;
  const closing: Closing[] = [];
  for (const hypothesis of hypotheses) {
    const one = found.get(hypothesis.id)!;
    if (isOnlyHeat(hypothesis)) { if (handsAs === undefined) one.modes.push({ mode, handsAs, effects: [{ sort: 'heats', about: hypothesis.about }], notices: [], seenAt: [] }); continue; }
    const sight = sights.of(hypothesis);
    const { effects: every, notices, seenAt } = effectsIn(car, places, base, sight, hypothesis, sights.isHigh, isShort);
    for (const point of asked) { const place = placeOf.get(point); if (place === undefined || !sight || Math.abs(sight.volts[place]! - base.volts[place]!) > MOVES) one.moves.add(point); }
    const effects = handsAs === undefined ? every : every.filter(({ sort }) => HOLDS_ON.has(sort));
    if (handsAs !== undefined && effects.length === 0) continue;
    const all: Notice[] = sight && asserts.some((condition) => listen.holds(condition, bare, base, []) !== false && listen.holds(condition, bare, sight, hypothesis.changes) === false) ? [...notices, { by: 'refusal', about: [mode] }] : [...notices];
    if (effects.length + all.length + seenAt.length > 0) one.modes.push({ mode, handsAs, effects, notices: all, seenAt });
    const closes = effects.find(({ sort }) => sort === 'contact_closes');
    if (closes && sight && !isLive(sight)) closing.push({ hypothesis, contacts: [...closes.about].sort().join(' and ') });
  }
  if (isLive(base) || closing.length === 0) return true;
  const pairs = contactPairs(closing, sights, isLive);
  for (const { hypothesis: { id }, contacts } of closing) {
    const by = pairs.get(contacts);
    const one = found.get(id)!;
    if (by && by.length > 0) one.second ??= { sort: 'contact', by };
  }
  return true;
}

/** Which failures keep the car out of a mode: its needs, at the moment before it begins. Only failures that move a point that a need asks for are solved. */
function refusals(car: Car, ask: Network, { watched, loop }: Places, listen: Listening, mode: string, hypotheses: readonly Hypothesis[], found: Found): void {
  const step = wayTo(car, ask, { mode, without: [] }).steps.at(-1);
  const needs = step?.needs.filter(asksNetwork) ?? [];
  if (!step || needs.length === 0) return;
  const { state } = step;
  const { base, of } = sightsIn(car, state, watched);
  if (!base) return;
  const points = needs.flatMap(pointsIn);
  const loopElements = new Set(loop.flatMap(({ elements }) => elements));
  for (const hypothesis of hypotheses) {
    const one = found.get(hypothesis.id)!;
    if (isOnlyHeat(hypothesis) || !(points.some((point) => one.moves.has(point)) || hypothesis.changes.some((change) => change.is !== 'joined' && loopElements.has(change.element)))) continue;
    const sight = of(hypothesis);
    if (!sight || !needs.some((need) => listen.holds(need, state, base, []) !== false && listen.holds(need, state, sight, hypothesis.changes) === false)) continue;
    one.modes.push({ mode, handsAs: undefined, effects: [], notices: [{ by: 'refusal', about: [mode] }], seenAt: [] });
  }
}

/** A joint that has become a little worse [ohm]: it gets hot under load, and nothing else moves. */
const LITTLE = 0.1;
const isOnlyHeat = ({ sort, changes }: Hypothesis): boolean => sort === 'part' && changes.length > 0 && changes.every((change) => change.is === 'resistive' && change.more < LITTLE);

function secondOf(modes: readonly InMode[]): SecondFailure | undefined {
  const guard = modes.flatMap(({ effects }) => effects).find((effect) => takesGuard(effect) && effect.sort !== 'contact_closes');
  if (guard) return { sort: 'leak', by: guard.about };
  // key and switches are off: what holds on is the controllers' word alone
  const held = modes.find(({ handsAs, effects }) => handsAs !== undefined && effects.some(({ sort }) => DANGEROUS.has(sort)));
  return held && { sort: 'program', by: [held.mode] };
}

const DANGEROUS: ReadonlySet<EffectSort> = new Set(['high_voltage_on', 'drives_plugged', 'torque_appears', 'overheats']);
const STOPS: ReadonlySet<EffectSort> = new Set(['contacts_drop', 'torque_lost']);

function severityOf(modes: readonly InMode[], second: SecondFailure | undefined, isNoticed: boolean): Severity {
  const any = (sorts: ReadonlySet<EffectSort>, at: readonly InMode[]): boolean => at.some(({ effects }) => effects.some(({ sort }) => sorts.has(sort)));
  // with key and switches off, controllers would still have to hold on
  if (any(DANGEROUS, modes.filter(({ handsAs }) => handsAs === undefined))) return 'danger';
  if (second) return isNoticed ? 'guard' : 'hidden';
  if (any(STOPS, modes) || modes.some(({ notices }) => notices.some(({ by }) => by === 'refusal'))) return 'stops';
  return modes.some(({ effects, notices }) => effects.length + notices.length > 0) ? 'less' : 'nothing';
}

/** One entry a mode. */
function merged(modes: readonly InMode[]): readonly InMode[] {
  const by = new Map<string, InMode>();
  for (const one of modes) {
    const key = `${one.mode} ${one.handsAs ?? ''}`;
    const known = by.get(key);
    by.set(key, known ? { ...known, effects: [...known.effects, ...one.effects], notices: [...known.notices, ...one.notices], seenAt: [...new Set([...known.seenAt, ...one.seenAt])] } : one);
  }
  return [...by.values()];
}

function untoldOf({ monitors, loop }: Places, { unwatched, isCut }: LoopBypass, plugged: readonly PluggedDrive[], notSolved: readonly string[]): readonly string[] {
  const said: string[] = ['Not in it: times, heat that builds up, firmware, messages beyond who hears whom, pipes, brakes and steering. Two or more failures only as pairs that together close high-voltage contacts.'];
  if (notSolved.length > 0) said.push(`The network has no operating point in ${[...new Set(notSolved)].join(', ')}: nothing is said of it.`);
  const byName = [...new Set(plugged.flatMap(({ untold }) => untold))];
  if (byName.length > 0) said.push(`That the plug is in, the file says by name (${byName.map((text) => `“${text}”`).join(', ')}), not by a wire: whether one failure hides it from the controller cannot be told. Draw the wire and write the voltage at its input as the condition.`);
  if (unwatched.length > 0) said.push(`Interlock contacts at ${unwatched.join(', ')}: no wire that the file draws shows that they open, so whether a failure hides it cannot be told.`);
  if (loop.length === 0) said.push('The file draws no interlock loop.');
  if (isCut) said.push('The interlock loop is long: not every failure was tried with every contact.');
  if (monitors.length === 0) said.push('There is no insulation monitor in the file: no leak tells the driver.');
  return said;
}
