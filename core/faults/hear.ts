/** What somebody says in a fault-finding conversation, a symptom or something seen, as observations of this car. */
import { nearestName } from '../build/nearest-name.ts';
import type { Car } from '../car/car.ts';
import type { FaultFinder } from './fault-finder.ts';
import { observationWords } from './fault-words.ts';
import type { Observation } from './observation.ts';
import { readObservation } from './read-observation.ts';
import { isUsual, modeOf } from './symptom-modes.ts';
import { observationsOf, symptoms } from './symptoms.ts';
import type { Symptom } from './symptoms.ts';

export interface Said {
  readonly is: 'symptom' | 'seen';
  /** `no_click`, `pump_always_on:P_drive`; or as `readObservation` takes it: `F1.a-chassis=12.1 V@pack_open` */
  readonly text: string;
}

export interface Taken {
  readonly said: Said;
  /** the same for the builder */
  readonly words: string;
  /** at least one */
  readonly observations: readonly Observation[];
}

export type Heard = { readonly ok: true; readonly taken: Taken } | { readonly ok: false; /** a sentence */ readonly problem: string };

/** Quick: solves the state that is spoken of with nothing wrong, no hypothesis. Shape: never throws on a text. */
export function hear(said: Said, car: Car, finder: FaultFinder): Heard {
  return said.is === 'symptom' ? symptom(said, car, finder) : seen(said, car, finder);
}

function symptom(said: Said, car: Car, { ask, forecasts, states }: FaultFinder): Heard {
  const [name = '', of] = said.text.split(':');
  if (!Object.hasOwn(symptoms, name)) {
    const near = nearestName(name, Object.keys(symptoms));
    return { ok: false, problem: `There is no symptom ${name}${near === undefined ? '' : `; did you mean ${near}`}? There are: ${Object.entries(symptoms).map(([key, meaning]) => `${key} (${meaning})`).join('; ')}.` };
  }
  if (of !== undefined && !car.parts.has(of)) {
    const near = nearestName(of, [...car.parts.keys()]);
    return { ok: false, problem: `${said.text}: there is no part ${of}${near === undefined ? '.' : `; did you mean ${near}?`}` };
  }
  const { observations, why } = observationsOf(car, name as Symptom, forecasts.predictionsIn(states.asked), of);
  if (observations && !isUsual(observations, forecasts)) return { ok: true, taken: { said, words: `${symptoms[name as Symptom]}${whose(of, observations)}`, observations } };
  const better = modeOf(car, ask, name as Symptom, of).mode;
  const reason = observations ? `in mode ${states.asked.mode ?? '(none)'} this is so with nothing wrong (${observations.map((one) => observationWords(one)).join('; ')}).` : why;
  return { ok: false, problem: `${name}: ${reason}${better === undefined ? '' : ` Say it of mode ${better}.`}` };
}

/** The part that a symptom is taken to be about. */
function whose(of: string | undefined, [first, ...more]: readonly Observation[]): string {
  const name = of ?? (more.length === 0 && first?.look.is === 'thing' ? first.look.of : undefined);
  return name === undefined ? '' : ` (${name})`;
}

function seen(said: Said, car: Car, { forecasts, states }: FaultFinder): Heard {
  const read = readObservation(said.text, car, states, forecasts.predictionsIn);
  if (!read.ok) return read;
  const { observation } = read;
  // asked of no hypothesis: only whether the car has an answer at all
  if (!forecasts.forecast(observation.state, observation.look, [])) return { ok: false, problem: `${said.text.split('=')[0]!}: nothing leads from one of these points to the other, so no fault can be told by it.` };
  return { ok: true, taken: { said, words: observationWords(observation), observations: [observation] } };
}
