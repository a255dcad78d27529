/** Questions whose answer follows from what was seen, or cannot be another one: they are not asked. */
import { keyOfState } from './asked-state.ts';
import type { AskedState, Way } from './asked-state.ts';
import type { Forecast } from './engine/forecast.ts';
import type { Look, Observation } from './observation.ts';

/** Who went no further than one mode did not get to the next; who got there passed the ones before. */
export function isForegone(state: AskedState, look: Look, { steps }: Way, observations: readonly Observation[]): boolean {
  if (look.is !== 'reached') return false;
  const place = (mode: string): number => steps.findIndex(({ to }) => to === mode);
  const at = place(look.mode), key = keyOfState(state);
  return observations.some(({ state: then, look: seen, value }) => keyOfState(then) === key
    && ((seen.is === 'reached' && place(seen.mode) >= 0 && (value === true ? place(seen.mode) > at : place(seen.mode) < at)) || (seen.is === 'falls_back' && value === true)));
}

/** Of what the list allows, less than this gives the other answer: the observer's own mistakes are as likely. */
const HARDLY = 0.03;

/** A yes or no that is all but certain by the likely hypotheses: asked at most to doubt the list, and a reading does that better. */
export function isAllButCertain(forecast: Forecast, chances: Float64Array): boolean {
  if (forecast.is !== 'yes_no') return false;
  let yes = 0, told = 0;
  for (let h = 0; h < chances.length; h++) {
    const chance = forecast.chances[h]!;
    if (Number.isNaN(chance)) continue;
    told += chances[h]!;
    yes += chances[h]! * chance;
  }
  return told > 0 && Math.min(yes, told - yes) < HARDLY * told;
}
