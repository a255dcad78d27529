/** The state that the options of a call choose. */
import type { Car } from '../core/car/car.ts';
import { readState } from '../core/car/read-state.ts';
import type { StateWords } from '../core/car/read-state.ts';
import type { State } from '../core/car/state.ts';
import { WrongCall } from './wrong-call.ts';

export interface StateOptions { readonly state?: string; readonly set: readonly string[]; readonly without: readonly string[]; readonly failed: readonly string[]; readonly charge?: string; readonly cells?: string }

/** The state in the words of the options: what `readState` reads. */
export function stateWords(options: StateOptions): StateWords {
  return {
    set: options.set, without: options.without, failed: options.failed,
    ...(options.state === undefined ? {} : { mode: options.state }),
    ...(options.charge === undefined ? {} : { charge: options.charge }),
    ...(options.cells === undefined ? {} : { cells: options.cells }),
  };
}

export function stateFrom(options: StateOptions, car: Car): State {
  const read = readState(stateWords(options), car);
  if (!read.ok) throw new WrongCall(read.problems.join('\n'));
  return read.state;
}
