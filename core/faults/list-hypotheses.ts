/**
 * Everything that may be wrong with a car, one thing at a time, from the build itself.
 *
 * Weights are relative and common practice, without a source: likelihood among the failures of its kind × rate of such a thing × how
 * much hands have been there.
 */
import type { Car } from '../car/car.ts';
import { disturbedAt } from './disturbed.ts';
import type { Hypothesis } from './hypothesis.ts';
import { documentationHypotheses, silentHypotheses } from './other-hypotheses.ts';
import { partHypotheses } from './part-hypotheses.ts';
import { runHypotheses } from './run-hypotheses.ts';

/** Share of the whole that is given to the car as it should be, and to what nobody thought of; our choice. */
const NOTHING_WRONG = 0.01;
const NOT_LISTED = 0.02;

/**
 * @returns first the car with nothing wrong, last what is not in the list; ids are unique
 */
export function listHypotheses(car: Car): readonly Hypothesis[] {
  const at = disturbedAt(car);
  const faults = [...partHypotheses(car, at), ...runHypotheses(car, at), ...silentHypotheses(car, at), ...documentationHypotheses(car, at)];
  const sum = faults.reduce((total, { weight }) => total + weight, 0) || 1;
  const special = (sort: 'none' | 'unlisted', words: string, share: number, confirm: string, mend: string): Hypothesis =>
    ({ id: sort, sort, cause: sort, about: [], path: '', words, changes: [], silent: [], weight: share * sum, disturbed: [], confirm, mend });
  return [
    special('none', 'nothing that the file knows is wrong', NOTHING_WRONG, 'Ask for the mode again and watch what happens.', 'Nothing to mend; a plug that was pushed home while measuring may have been it.'),
    ...faults,
    special('unlisted', 'something that is not in the list', NOT_LISTED, 'Measure where the car differs from the file: the file may be wrong.', 'Correct the file where a reading contradicts it, then look again.'),
  ];
}
