/**
 * In which mode a symptom is one: where the car would do what it does not, or not do what it does. No charging is a fault in the mode that charges; while
 * driving it is as it should be.
 */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';
import { driveModes, startModes } from '../topics/modes/mode-graph.ts';
import { shortest } from './asked-state.ts';
import { forecasts } from './forecasts.ts';
import type { Forecasts } from './forecasts.ts';
import { NOTHING_WRONG } from './hypothesis.ts';
import type { Observation } from './observation.ts';
import { observationsOf, symptoms } from './symptoms.ts';
import type { Symptom } from './symptoms.ts';

export interface OfferedSymptom {
  readonly name: Symptom;
  readonly meaning: string;
  /** the mode to ask for when nobody says one; undefined: none of this car shows it */
  readonly mode: string | undefined;
  /** why none does, as a sentence; '' where one does */
  readonly why: string;
}

/** Every symptom with the mode that it is best said of. */
export function offeredSymptoms(car: Car, ask: Network): readonly OfferedSymptom[] {
  return (Object.entries(symptoms) as [Symptom, string][]).map(([name, meaning]) => {
    const suits = car.modes.size === 0 ? { mode: undefined, why: 'The file has no modes.' } : modeOf(car, ask, name);
    return { name, meaning, ...suits };
  });
}

/** The mode that all of some symptoms are best said of, or else the first of them; undefined: none. @param said  `no_click`, `pump_always_on:P_drive` */
export function modeSuiting(car: Car, ask: Network, said: readonly string[]): string | undefined {
  const known = said.map((one) => one.split(':')).flatMap(([name = '', of]) => (Object.hasOwn(symptoms, name) ? [{ symptom: name as Symptom, of }] : []));
  const [first] = known;
  if (!first) return undefined;
  const suits = (mode: string): boolean => known.every(({ symptom, of }) => whyNot(car, ask, mode, symptom, of) === undefined);
  return (known.length > 1 ? inOrder(car, first.symptom).find(suits) : undefined) ?? modeOf(car, ask, first.symptom, first.of).mode;
}

/** The first mode in which the sound car does not show a symptom that it could show. */
export function modeOf(car: Car, ask: Network, symptom: Symptom, of?: string): { readonly mode: string | undefined; readonly why: string } {
  const modes = inOrder(car, symptom);
  const mode = modes.find((one) => whyNot(car, ask, one, symptom, of) === undefined);
  return { mode, why: mode === undefined && modes.length > 0 ? whyNot(car, ask, modes[0]!, symptom, of)! : '' };
}

/** Whether all of it is so with nothing wrong. */
export function isUsual(observations: readonly Observation[], { forecast }: Pick<Forecasts, 'forecast'>): boolean {
  return observations.every(({ state, look, value }) => { const says = forecast(state, look, [NOTHING_WRONG]); return says?.is === 'yes_no' && says.chances[0]! >= 0.5 === value; });
}

/** Why a symptom is none in a mode, as a sentence; undefined: it is one. */
export function whyNot(car: Car, ask: Network, mode: string | undefined, symptom: Symptom, of?: string): string | undefined {
  const known = soundIn(car);
  let made = known.get(mode ?? '');
  if (!made) known.set(mode ?? '', (made = forecasts(car, ask, { mode, without: [] })));
  const { observations, why } = observationsOf(car, symptom, made.predictionsIn({ mode, without: [] }), of);
  return observations === undefined ? why : isUsual(observations, made) ? `In mode ${mode ?? '(none)'} this is so with nothing wrong.` : undefined;
}

const soundIn = remembered(function soundModes(_: Car): Map<string, Forecasts> { return new Map(); });

/** Modes in the order in which they are tried. */
function inOrder(car: Car, symptom: Symptom): readonly string[] {
  const all = [...car.modes.keys()];
  const drives = driveModes(car);
  const [drive = all.at(-1)] = drives;
  // what happens to a parked car, and what runs that should not, shows best where least is asked for
  const first = symptom === 'battery_dies' || symptom === 'pump_always_on' ? startModes(car) : drive === undefined ? [] : [...drives, ...[...shortest(car, drive)].reverse()];
  return [...new Set([...first, ...all])];
}
