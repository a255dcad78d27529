/**
 * More values of a bad joint than the list has, solved only when nothing of the list explains what was seen, and only where all that was
 * seen lies between a sound and a parted joint.
 */
import { endOf } from './engine/forecast.ts';
import type { Observed } from './engine/forecast.ts';
import { jointsIn } from './between-values.ts';
import type { Hypothesis } from './hypothesis.ts';

/** [ohm] */
const FURTHER = [1.6, 16, 150, 500, 2e3, 10e3];
/** Joints looked at, the likeliest. */
const MOST = 60;
/** Beyond the ends so many standard deviations count as between them. */
const BEYOND = 3;
/** All further values of a cause together, beside those of the list. */
const WEIGHT = 0.5;

/** @param observed  forecasts over `hypotheses`, the singles; the first is the car with nothing wrong */
export function furtherJoints(hypotheses: readonly Hypothesis[], observed: readonly Observed[]): readonly Hypothesis[] {
  if (!observed.some(({ forecast }) => forecast.is === 'value')) return [];
  const fitting = jointsIn(hypotheses).filter(({ stops }) => observed.every(({ forecast, outcome }) => {
    if (forecast.is === 'yes_no') return stops.some((h) => !(Math.abs(forecast.chances[h]! - Number(outcome)) > 0.5));
    const ends = stops.flatMap((h) => [forecast.means[h]!, endOf(forecast, h)]).filter((mean) => !Number.isNaN(mean));
    const [low, high] = [Math.min(...ends), Math.max(...ends)];
    return typeof outcome === 'number' && ends.length > 0 && outcome > low - BEYOND * forecast.spread(low) && outcome < high + BEYOND * forecast.spread(high);
  }));
  const weightOf = (members: readonly number[]): number => members.reduce((sum, h) => sum + hypotheses[h]!.weight, 0);
  return fitting.sort((a, b) => weightOf(b.members) - weightOf(a.members)).slice(0, MOST).flatMap(({ members }) => {
    const [like] = members.map((h) => hypotheses[h]!);
    const change = like!.changes[0]!;
    return change.is !== 'resistive' ? [] : FURTHER.map((more): Hypothesis => ({ ...like!, id: `${like!.id} ${more}`, changes: [{ ...change, more }], weight: (WEIGHT * weightOf(members)) / FURTHER.length }));
  });
}
