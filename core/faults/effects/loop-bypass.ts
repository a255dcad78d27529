/**
 * Failures after which an interlock contact may open and nothing notices: each contact of the loop opened in a car with each failure that
 * touches the loop, on the way to driving and while driving.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import type { State } from '../../car/state.ts';
import { asksNetwork } from '../../condition/condition.ts';
import type { Condition } from '../../condition/condition.ts';
import { driveModes } from '../../topics/modes/mode-graph.ts';
import { wayTo } from '../asked-state.ts';
import type { FaultChange } from '../fault-change.ts';
import type { Hypothesis } from '../hypothesis.ts';
import { sightsIn } from '../predict-state.ts';
import type { StateSights } from '../predict-state.ts';
import type { Listening } from './listening.ts';
import type { Places } from './places.ts';
import { mayBypass, openedBeside } from './second-failure.ts';

/** Pairs of contact and failure that are solved. */
const MOST_PAIRS = 1500;

export interface LoopBypass {
  /** by failure: interlock contacts whose opening is no longer noticed, by part */
  readonly bypassed: ReadonlyMap<string, readonly string[]>;
  /** contacts whose opening shows on no wire that the file draws, with nothing wrong at all: parts */
  readonly unwatched: readonly string[];
  /** contacts whose opening is noticed with nothing wrong: parts */
  readonly watched: readonly string[];
  /** not every pair was looked at */
  readonly isCut: boolean;
}

interface Look { readonly state: State; readonly sights: StateSights; readonly conditions: readonly Condition[]; readonly isEnd: boolean }

/** @param hypotheses  those that nothing tells of by themselves */
export function loopBypass(car: Car, ask: Network, places: Places, { holds }: Listening, hypotheses: readonly Hypothesis[]): LoopBypass {
  const mode = driveModes(car)[0] ?? [...car.modes.keys()].at(-1);
  if (places.loop.length === 0 || mode === undefined) return { bypassed: new Map(), unwatched: [], watched: [], isCut: false };
  const way = wayTo(car, ask, { mode, without: [] });
  const look = (state: State, conditions: readonly Condition[], isEnd: boolean): Look[] => (conditions.length === 0 && !isEnd ? [] : [{ state, sights: sightsIn(car, state, places.watched), conditions, isEnd }]);
  const looks = [...way.steps.flatMap(({ state, needs }) => look(state, needs.filter(asksNetwork), false)), ...look(way.end, way.asserts, true)];
  const closing = places.watched.things.flatMap(({ what, of }, index) => (what === 'closes' && places.contacts.some(({ part }) => part === of) ? [index] : []));
  /** Contactors that drop, or a condition that is not true any more; `interlock_closed` names no wire and is not asked. */
  const isNoticed = (hypothesis: Hypothesis, changes: readonly FaultChange[]): boolean => looks.some(({ state, sights, conditions, isEnd }) => {
    const { base } = sights;
    const sight = sights.of({ ...hypothesis, changes });
    if (!base || !sight) return false;
    if (isEnd && closing.some((index) => base.does[index] === 1 && sight.does[index] === 0)) return true;
    return conditions.some((condition) => holds(condition, state, base, []) !== false && holds(condition, state, sight, []) === false);
  });
  const watched = places.loop.filter((contact) => contact.elements.length > 0 && isNoticed(NOTHING, contact.elements.map((element): FaultChange => ({ is: 'open', element }))));
  const unwatched = places.loop.filter((contact) => !watched.includes(contact)).map(({ part }) => part);
  const bypassed = new Map<string, readonly string[]>();
  let asked = 0, isCut = false;
  for (const hypothesis of mayBypass(car, places, hypotheses)) {
    if (asked + watched.length > MOST_PAIRS) { isCut = true; break; }
    const free = watched.filter((contact) => {
      const changes = openedBeside(contact, hypothesis);
      asked++;
      return changes === undefined || !isNoticed(hypothesis, changes);
    });
    if (free.length > 0) bypassed.set(hypothesis.id, [...new Set(free.map(({ part }) => part))]);
  }
  return { bypassed, unwatched: [...new Set(unwatched)], watched: [...new Set(watched.map(({ part }) => part))], isCut };
}

const NOTHING: Hypothesis = { id: 'none', sort: 'none', cause: 'none', about: [], path: '', words: '', changes: [], silent: [], weight: 1, disturbed: [], confirm: '', mend: '' };
