/**
 * What controllers find when they look at a faulty car: conditions of the file, with the voltages and currents that the network has.
 *
 * `interlock_closed` names no wire by which a controller would know, so a failure cannot deceive it here; only an opened contact ends it.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import type { State } from '../../car/state.ts';
import type { Condition } from '../../condition/condition.ts';
import { isTrue } from '../../condition/evaluate.ts';
import { settingIn, situationIn } from '../../topics/modes/situation.ts';
import type { FaultChange } from '../fault-change.ts';
import type { Sight } from '../predict-state.ts';
import type { Places } from './places.ts';

export interface Listening {
  /** @returns undefined: the condition cannot be judged */
  readonly holds: (condition: Condition, state: State, sight: Sight, changes: readonly FaultChange[]) => boolean | undefined;
}

export function listening(car: Car, ask: Network, { watched, placeOf, loop }: Places): Listening {
  const runs = new Map(watched.runs.map((run, index) => [run, index]));
  const loopElements = new Set(loop.flatMap(({ elements }) => elements));
  const variables = new Map<string, boolean | number | undefined>();
  const whole = (state: State, name: string): boolean | number | undefined => {
    const key = `${name} ${JSON.stringify(state)}`;
    if (!variables.has(key)) variables.set(key, situationIn(car, ask, state).variable(name));
    return variables.get(key);
  };
  return {
    holds: ({ expression }, state, { volts, amps }, changes) => isTrue(expression, {
      setting: (part, setting) => settingIn(car, state, part, setting),
      voltage: (a, b) => { const [one, other] = [placeOf.get(a), placeOf.get(b)]; return one === undefined || other === undefined ? undefined : volts[one]! - volts[other]!; },
      current: (run) => { const place = runs.get(run); return place === undefined ? undefined : amps[place]; },
      variable: (name) => {
        const value = whole(state, name);
        return name !== 'interlock_closed' || value !== true ? value : !changes.some((change) => (change.is === 'open' || change.is === 'stuck_open') && loopElements.has(change.element));
      },
    }),
  };
}
