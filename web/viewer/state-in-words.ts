/** A state in a few words, for a button. */
import type { StateWords } from '../../core/car/read-state.ts';

export function stateInWords({ mode, set = [], without = [], failed = [], charge, cells }: StateWords): string {
  const more = [
    ...set,
    ...(without.length > 2 ? [`${without.length} runs not made`] : without.map((run) => `without ${run}`)),
    ...failed,
    ...(charge === undefined ? [] : [`${charge} charge`]),
    ...(cells === undefined ? [] : [`cells ${cells}`]),
  ];
  return [mode ?? 'at rest', ...(more.length > 3 ? [...more.slice(0, 2), `${more.length - 2} more`] : more)].join(', ');
}
