/**
 * In what state of the car something is observed: a mode that was asked for, with some runs left off.
 *
 * What was asked for is not what the car does: a need that a fault leaves unmet keeps it in the mode before.
 */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import type { State } from '../car/state.ts';
import type { Condition } from '../condition/condition.ts';
import { enteringState, entryOf, merged, startModes } from '../topics/modes/mode-graph.ts';
import type { Held } from '../topics/modes/mode-graph.ts';

export interface AskedState {
  /** undefined: nothing is asked of anything */
  readonly mode: string | undefined;
  /** runs that are taken off: the pack open, the 12 V battery off */
  readonly without: readonly string[];
  /** what hands hold otherwise than the mode has it: the service disconnect out */
  readonly set?: Held;
}

/** The same state has the same key. */
export const keyOfState = ({ mode, without, set }: AskedState): string => `${mode ?? ''}|${[...without].sort().join(' ')}|${set ? Object.keys(set).sort().join(' ') : ''}`;

/** The state of the car itself, whatever its conditions let it reach. */
export function stateOf({ mode, without, set }: AskedState): State {
  return { ...(mode === undefined ? {} : { mode }), ...(without.length > 0 ? { without } : {}), ...(set ? { set } : {}) };
}

/** One step on the way to a mode: the state just before the next mode begins, and what must be true in it. */
export interface WayStep { readonly from: string; readonly to: string; readonly state: State; readonly needs: readonly Condition[] }

export interface Way {
  readonly steps: readonly WayStep[];
  /** the mode itself */
  readonly end: State;
  readonly asserts: readonly Condition[];
}

/** The shortest way from where the car begins to a mode; a mode that no way leads to is asked for straight away. */
export function wayTo(car: Car, ask: Network, asked: AskedState): Way {
  const { mode, without, set } = asked;
  if (mode === undefined) return { steps: [], end: stateOf(asked), asserts: [] };
  const modes = shortest(car, mode);
  const steps = modes.slice(1).map((to, index): WayStep => {
    const from = modes[index]!;
    // how hands stand is looked up on the whole car: a need may ask for the key to be turned for a moment
    const entry = entryOf(car, ask, from, to);
    const state = entry.isAllowed === false ? enteringState(car, from, to) : entry.state;
    return { from, to, state: { ...state, ...(without.length > 0 ? { without } : {}), ...(set ? { set: merged(state.set, set) } : {}) }, needs: car.build.modes.get(to)?.needs ?? [] };
  });
  return { steps, end: stateOf(asked), asserts: car.build.modes.get(mode)?.asserts ?? [] };
}

/** Modes from a start to `mode`, both included. */
export function shortest(car: Car, mode: string): readonly string[] {
  const before = new Map<string, string | undefined>(startModes(car).map((start) => [start, undefined]));
  for (const from of before.keys()) {
    for (const { name, from: sources } of car.build.modes.values()) if (sources.includes(from) && !before.has(name)) before.set(name, from);
  }
  if (!before.has(mode)) return [mode];
  const way = [mode];
  for (let at = before.get(mode); at !== undefined; at = before.get(at)) way.unshift(at);
  return way;
}
