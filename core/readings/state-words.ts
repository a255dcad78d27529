/** The state of a step in a few words, for the log. */
import type { State } from '../car/state.ts';

export function stateWordsOf({ mode, set = {}, without = [], failures = [] }: State): string {
  const settings = Object.entries(set).flatMap(([part, own]) => Object.entries(own).map(([setting, value]) => `${part}.${setting}=${typeof value === 'number' ? Number(value.toPrecision(4)) : String(value)}`));
  return [mode ?? 'nothing switched on', ...settings, ...(without.length > 3 ? [`${without.length} runs not joined`] : without.map((run) => `without ${run}`)), ...failures.map(({ part, failure }) => `${part}.${failure}`)].join(', ');
}
