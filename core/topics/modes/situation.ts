/**
 * What is the case in a state of the car, as conditions ask it: settings of the mode and of the state, voltages and currents of the
 * one network, the interlock loop.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import { remembered } from '../../car/remembered.ts';
import type { State } from '../../car/state.ts';
import type { Situation } from '../../condition/evaluate.ts';
import type { RestResult } from '../../solve/rest-result.ts';

/** A closed interlock contact has far less [ohm], the rest of a loop far more; common practice, no source. */
const LOOP_CLOSED = 10;

/** The situation of a car in a state; the network is asked only when a condition does, and once for each thing. */
export function situationIn(car: Car, ask: Network, state: State): Situation {
  const { of, byState } = situationsOf(ask, car);
  if (of !== car) return newSituation(car, ask, state);
  const key = JSON.stringify(state);
  let situation = byState.get(key);
  if (!situation) byState.set(key, (situation = newSituation(car, ask, state)));
  return situation;
}

const situationsOf = remembered(function situationsOf(_: Network, car: Car): { readonly of: Car; readonly byState: Map<string, Situation> } { return { of: car, byState: new Map() }; });

function newSituation(car: Car, ask: Network, state: State): Situation {
  let solved: RestResult | undefined;
  const solvedHere = (): RestResult => (solved ??= ask.solve(state));
  let loop: { readonly isClosed: boolean | undefined } | undefined;
  return {
    setting: (part, setting) => settingIn(car, state, part, setting),
    voltage: (a, b) => {
      const here = solvedHere();
      if (here.outcome !== 'solved' || !isWired(car, a) || !isWired(car, b)) return undefined;
      if (here.islandOf(a) === here.islandOf(b)) return here.voltageOf(a) - here.voltageOf(b);
      const read = ask.meter(state, a, b);
      return read.outcome === 'reads' ? read.voltage : undefined;
    },
    current: (run) => {
      const here = solvedHere();
      return here.outcome === 'solved' && car.runs.has(run) ? here.currentOf(run) : undefined;
    },
    variable: (name) => {
      if (name === 'state_of_charge') return state.stateOfCharge ?? car.conditions.stateOfCharge;
      return name === 'interlock_closed' ? (loop ??= { isClosed: isLoopClosed(car, ask, state) }).isClosed : undefined;
    },
  };
}

/** What a setting is in a state; undefined when neither the file nor the kind says. */
export function settingIn(car: Car, state: State, part: string, setting: string): boolean | number | string | readonly string[] | undefined {
  const known = car.parts.get(part);
  const given = state.set?.[part]?.[setting] ?? (state.mode === undefined ? undefined : car.modes.get(state.mode)?.set[part]?.[setting]) ?? known?.kind.atRest?.(known.fields as never)[setting];
  if (given !== undefined) return given as boolean | number | string | readonly string[];
  return known?.kind.settings[setting]?.type === 'list' ? [] : undefined;
}

/** A point of a part that lacks values is in no network. */
function isWired(car: Car, point: string): boolean {
  const part = car.parts.get(point.split('.')[0] ?? '');
  return part === undefined || part.missing.length === 0;
}

const loopContacts = remembered(function loopContacts(car: Car): readonly (readonly [string, string])[] {
  return [...car.parts.values()].flatMap(({ names, roles }) => (roles.interlock ?? []).map(([a, b]) => [names.of(a), names.of(b)] as const));
});

function isLoopClosed(car: Car, ask: Network, state: State): boolean | undefined {
  const contacts = loopContacts(car);
  if (contacts.length === 0) return undefined;
  for (const [a, b] of contacts) {
    const seen = ask.thevenin(state, a, b);
    if (seen.outcome === 'failed') return undefined;
    if (seen.outcome === 'unconnected' || seen.resistance > LOOP_CLOSED) return false;
  }
  return true;
}
