/** What asking a car for a mode can do to people. */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { driveRules } from '../topics/modes/drive-rules.ts';
import { closedContacts, coilContacts, driveModes } from '../topics/modes/mode-graph.ts';
import { NOTHING_WRONG } from './hypothesis.ts';
import type { OfferedStates } from './offered-states.ts';
import type { Predictions } from './predict.ts';
import type { Hazards } from './standing.ts';

/** @param asked  predictions of the mode that is asked for */
export function hazardsOf(car: Car, ask: Network, states: OfferedStates, asked: Predictions, packVoltage: number): Hazards {
  const { mode } = states.asked;
  const energises = packVoltage > 0 && (coilContacts(car).length === 0 || [...asked.way.steps.map(({ state }) => state), asked.way.end].some((state) => (closedContacts(car, ask, state) ?? ['?']).length > 0));
  return { packVoltage, energises, mayMove: mode !== undefined && (driveModes(car).includes(mode) || isAwake(car, asked)), disconnects: states.disconnects, stops: energises ? driveRules(car, ask, 'all').results.stops.map(({ part }) => part) : [] };
}

/** What turns the wheels is fed and listens in this mode, or nothing says that it does not. */
function isAwake(car: Car, { watched, of }: Predictions): boolean {
  const { sight } = of(NOTHING_WRONG);
  return [...car.parts.values()].filter(({ roles }) => roles.traction).some(({ name }) => {
    const own = watched.things.flatMap((thing, index) => (thing.of === name ? [sight?.does[index]] : []));
    return own.length === 0 || own.some((does) => does !== 0);
  });
}
