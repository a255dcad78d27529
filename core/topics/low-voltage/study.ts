/**
 * Low voltage: what feeds it, what takes from it, the wires and fuses between, and what is left after standing.
 */
import type { Topic } from '../topic.ts';
import { modePoints, sourceEnds } from './mode-points.ts';

export interface LowVoltageResults {
  /** modes that could not be computed, with the reason */
  readonly failed: readonly { readonly mode: string; readonly why: string }[];
}

export const lowVoltage: Topic<LowVoltageResults> = {
  name: 'low-voltage',
  study: (car, ask) => {
    const sources = sourceEnds(car);
    const modes = modePoints(car, ask, sources);
    return { results: { failed: modes.failed }, checks: [] };
  },
};
