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
import { asksNetwork } from '../../condition/condition.ts';
import { driveModes, startModes, workedSettings } from '../../topics/modes/mode-graph.ts';
import { settingIn } from '../../topics/modes/situation.ts';
import { wayTo } from '../asked-state.ts';
import type { Hypothesis } from '../hypothesis.ts';
import { sightsIn } from '../predict-state.ts';
import type { Sight } from '../predict-state.ts';
import type { Effect, EffectSort, InMode, Notice, SecondFailure, Severity, SingleFailure } from './effect.ts';
import { severities } from './effect.ts';
import { effectsIn } from './effects-in.ts';
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

const CLASS_B = 60;

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
  const found = new Map<string, { modes: InMode[]; second: SecondFailure | undefined }>(hypotheses.map(({ id }) => [id, { modes: [], second: undefined }]));
  const notSolved: string[] = [];
  for (const looked of statesOf(car)) if (!lookIn(car, ask, places, listen, looked, hypotheses, found)) notSolved.push(looked.mode);
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
  const failures = hypotheses.map(({ id, sort, about, path, words }): SingleFailure => {
    const { modes, second: pair } = found.get(id)!;
    const effects = modes.flatMap((one) => one.effects);
    const second = pair ?? secondOf(effects);
    const isNoticed = modes.some(({ notices }) => notices.length > 0);
    return { id, sort, about, path, words, modes: merged(modes), second, isNoticed, severity: severityOf(effects, modes.flatMap(({ notices }) => notices), second, isNoticed) };
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

/** @returns false when the network has no answer for the mode */
function lookIn(car: Car, ask: Network, places: Places, listen: Listening, { mode, handsAs, state: bare }: Looked, hypotheses: readonly Hypothesis[], found: Map<string, { modes: InMode[]; second: SecondFailure | undefined }>): boolean {
  const state: State = places.probes.length > 0 ? { ...bare, bridges: places.probes } : bare;
  const sights = sightsIn(car, state, places.watched);
  const { base } = sights;
  if (!base) return false;
  const way = wayTo(car, ask, { mode, without: [] });
  const step = handsAs === undefined ? way.steps.at(-1) : undefined;
  const needs = step?.needs.filter(asksNetwork) ?? [];
  const entry = step && needs.length > 0 ? { step, sights: sightsIn(car, step.state, places.watched) } : undefined;
  const refuses = (hypothesis: Hypothesis, sight: Sight | undefined): boolean => {
    const isBroken = (conditions: typeof needs, at: State, whole: Sight | undefined, faulty: Sight | undefined): boolean => whole !== undefined && faulty !== undefined && conditions.some((condition) => listen.holds(condition, at, whole, []) !== false && listen.holds(condition, at, faulty, hypothesis.changes) === false);
    return (entry !== undefined && isBroken(needs, entry.step.state, entry.sights.base, entry.sights.of(hypothesis))) || (handsAs === undefined && isBroken(way.asserts.filter(asksNetwork), bare, base, sight));
  };
  const { buses, placeOf } = places;
  const isLive = ({ volts }: Sight): boolean => buses.some(({ a, b }) => Math.abs(volts[placeOf.get(a)!]! - volts[placeOf.get(b)!]!) > CLASS_B);
  const closing: Closing[] = [];
  for (const hypothesis of hypotheses) {
    const sight = sights.of(hypothesis);
    const { effects, notices, seenAt } = effectsIn(car, places, base, sight, hypothesis, sights.isHigh);
    const all: Notice[] = refuses(hypothesis, sight) ? [...notices, { by: 'refusal', about: [mode] }] : [...notices];
    if (effects.length + all.length + seenAt.length > 0) found.get(hypothesis.id)!.modes.push({ mode, handsAs, effects, notices: all, seenAt });
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

function secondOf(effects: readonly Effect[]): SecondFailure | undefined {
  const guard = effects.find((effect) => takesGuard(effect) && effect.sort !== 'contact_closes');
  return guard && { sort: 'leak', by: guard.about };
}

const DANGEROUS: ReadonlySet<EffectSort> = new Set(['high_voltage_on', 'drives_plugged', 'torque_appears', 'overheats']);
const STOPS: ReadonlySet<EffectSort> = new Set(['contacts_drop', 'torque_lost']);

function severityOf(effects: readonly Effect[], notices: readonly Notice[], second: SecondFailure | undefined, isNoticed: boolean): Severity {
  if (effects.some(({ sort }) => DANGEROUS.has(sort))) return 'danger';
  if (second) return isNoticed ? 'guard' : 'hidden';
  if (effects.some(({ sort }) => STOPS.has(sort)) || notices.some(({ by }) => by === 'refusal')) return 'stops';
  return effects.length > 0 || notices.length > 0 ? 'less' : 'nothing';
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
