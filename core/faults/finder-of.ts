/** One finder a car and mode: what it has solved serves the conversation, the sheet and every further question. */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';
import { driveModes } from '../topics/modes/mode-graph.ts';
import { faultFinder } from './fault-finder.ts';
import type { FaultFinder } from './fault-finder.ts';
import { modeSuiting } from './symptom-modes.ts';

const findersOf = remembered(function faultFinders(_: Car): Map<string, FaultFinder> { return new Map(); });

/** @param mode  what was asked for when it did not do it */
export function finderOf(car: Car, ask: Network, mode: string | undefined): FaultFinder {
  const finders = findersOf(car);
  const key = mode ?? '';
  const finder = finders.get(key) ?? faultFinder(car, ask, mode);
  finders.set(key, finder);
  return finder;
}

/** The mode itself where the car has it; else the one that the symptoms are said of; else the first that drives, or the last one. @param said  symptoms, as `hear` takes them */
export function askedMode(car: Car, wanted: string | undefined, ask?: Network, said: readonly string[] = []): string | undefined {
  if (wanted !== undefined && car.modes.has(wanted)) return wanted;
  return (ask && modeSuiting(car, ask, said)) ?? driveModes(car)[0] ?? [...car.modes.keys()].at(-1);
}
