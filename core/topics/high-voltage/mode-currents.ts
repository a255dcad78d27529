/**
 * What flows where in each mode: the continuous current of an element, and what the short-time modes ask of it.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import { remembered } from '../../car/remembered.ts';
import type { DutyStep } from '../../physics/duty-heating.ts';
import { rootMeanSquareCurrent } from '../../physics/duty-heating.ts';
import type { RestFailure, RestSolved } from '../../solve/rest-result.ts';
import type { Check } from '../../findings/finding.ts';

export interface ModeAnswer {
  readonly mode: string;
  /** how long it may last [s]; undefined: as long as you like */
  readonly lasts: number | undefined;
  /** until it may be repeated [s] */
  readonly every: number | undefined;
  readonly solved: RestSolved | undefined;
  readonly failure: RestFailure | undefined;
}

export interface SteadyCurrent { /** [A], >= 0 */ readonly current: number; readonly mode: string }

export interface ShortCurrent {
  readonly mode: string;
  /** [A], >= 0 */
  readonly current: number;
  /** [s] */
  readonly lasts: number;
  /** [s]; undefined when the file does not say how soon it may be repeated */
  readonly every: number | undefined;
  /** one period: the short-time current, then the continuous one; undefined when `every` is not known */
  readonly duty: readonly DutyStep[] | undefined;
  /** over that period [A] */
  readonly rms: number | undefined;
}

/** Every mode of the car, solved once. */
export function modeAnswers(car: Car, ask: Network): readonly ModeAnswer[] {
  return [...car.modes.values()].map(({ name, lasts, every }) => {
    const result = ask.solve({ mode: name });
    return { mode: name, lasts, every, solved: result.outcome === 'solved' ? result : undefined, failure: result.outcome === 'solved' ? undefined : result };
  });
}

/** Less is rounding and what leaks through insulation: nothing flows [A]. */
const NOTHING = 1e-6;

function currentIn(solved: RestSolved, element: string): number {
  const current = Math.abs(solved.currentOf(element));
  return current < NOTHING ? 0 : current;
}

const lastingIn = remembered((_: readonly ModeAnswer[]) => new Map<string, SteadyCurrent | undefined>());
const shortIn = remembered((_: readonly ModeAnswer[]) => new Map<string, readonly ShortCurrent[]>());

/** Largest current of an element over the modes that may last for good; undefined when no such mode could be solved. Remembered, because each subject asks it again. */
export function continuousCurrent(answers: readonly ModeAnswer[], element: string): SteadyCurrent | undefined {
  const known = lastingIn(answers);
  if (!known.has(element)) known.set(element, largestLasting(answers, element));
  return known.get(element);
}

function largestLasting(answers: readonly ModeAnswer[], element: string): SteadyCurrent | undefined {
  let largest: SteadyCurrent | undefined;
  for (const { mode, lasts, solved } of answers) {
    if (lasts !== undefined || !solved) continue;
    const current = currentIn(solved, element);
    if (!largest || current > largest.current) largest = { current, mode };
  }
  return largest;
}

/**
 * What each short-time mode asks of an element, one entry a mode in the order of the file.
 * Between two pulses the heaviest continuous mode goes on.
 */
export function shortCurrents(answers: readonly ModeAnswer[], element: string): readonly ShortCurrent[] {
  const known = shortIn(answers);
  let short = known.get(element);
  if (!short) known.set(element, (short = pulsesOf(answers, element)));
  return short;
}

function pulsesOf(answers: readonly ModeAnswer[], element: string): readonly ShortCurrent[] {
  const between = continuousCurrent(answers, element)?.current ?? 0;
  const short: ShortCurrent[] = [];
  for (const { mode, lasts, every, solved } of answers) {
    if (lasts === undefined || !solved) continue;
    const current = currentIn(solved, element);
    const duty = every === undefined ? undefined : every <= lasts ? [{ current, time: lasts }] : [{ current, time: lasts }, { current: between, time: every - lasts }];
    short.push({ mode, current, lasts, every, duty, rms: duty && rootMeanSquareCurrent(duty) });
  }
  return short;
}

/** Largest current of an element over all modes, whatever they last. */
export function largestCurrent(answers: readonly ModeAnswer[], element: string): SteadyCurrent | undefined {
  let largest: SteadyCurrent | undefined;
  for (const { mode, solved } of answers) {
    const current = solved ? currentIn(solved, element) : undefined;
    if (current !== undefined && (!largest || current > largest.current)) largest = { current, mode };
  }
  return largest;
}

/** One check a mode that it could be computed, and one for each short-time mode that says how soon it may come again. */
export function checkModes(answers: readonly ModeAnswer[]): readonly Check[] {
  return answers.flatMap(({ mode, lasts, every, failure }): Check[] => [
    { code: 'high-voltage.mode-computed', about: [mode], value: failure ? 0 : 1, limit: 1, sense: 'is_true', details: { reason: failure ? whyNot(failure) : 'solved' } },
    ...(lasts !== undefined && every === undefined ? [{ code: 'high-voltage.mode-repetition-known', about: [mode], sense: 'at_least', needs: [`modes.${mode}.every`] } satisfies Check] : []),
  ]);
}

/** A solve that failed, in words, with its worst offender. */
export function whyNot(failure: RestFailure): string {
  switch (failure.outcome) {
    case 'not_converged': return `the operating point is not found near ${failure.element ?? failure.node}: something there asks for more power than the wiring can carry`;
    case 'chatter': return `${failure.relays.join(', ')} would buzz: closing takes away the voltage of its own coil`;
    case 'contradiction': return `${failure.elements.join(', ')} contradict each other: an ideal source or short has nothing to limit it`;
  }
}
