/** Whether a state can be used as it is written. */
import { readState } from '../../../core/car/read-state.ts';
import type { KeptAnalysis } from '../../../study/kept-analysis.ts';
import type { Questions } from '../protocol.ts';

export function answerState({ text, state }: Questions['state']['asks'], kept: KeptAnalysis): Questions['state']['answer'] {
  const read = readState(state, kept.of(text).car);
  return { problems: read.ok ? [] : read.problems };
}
