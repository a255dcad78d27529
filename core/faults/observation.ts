/**
 * What was seen, as plain data that can be kept beside the build: in which state, what, and the outcome.
 */
import { keyOfState } from './asked-state.ts';
import type { AskedState } from './asked-state.ts';
import type { ThingSort } from './things.ts';

/** What can be looked at, without its outcome. Points are nodes of the network. */
export type Look =
  /** `a` minus `b`, meter of 10 MΩ */
  | { readonly is: 'voltage'; readonly a: string; readonly b: string }
  /** ohmmeter, everything off */
  | { readonly is: 'resistance'; readonly a: string; readonly b: string }
  /** what a clamp around a run shows, whichever way it flows */
  | { readonly is: 'current'; readonly of: string }
  | { readonly is: 'thing'; readonly what: ThingSort; readonly of: string }
  /** the mode that was asked for is reached */
  | { readonly is: 'reached'; readonly mode: string }
  /** it is reached, and left again by itself */
  | { readonly is: 'falls_back' }
  /** a fuse has blown: this part, or any */
  | { readonly is: 'blown'; readonly of: string | undefined }
  /** insulation of the high voltage is too low, or what watches it says so */
  | { readonly is: 'isolation_warning' }
  /** with everything off, more is taken from the 12 V battery than the file says */
  | { readonly is: 'drains' };

export type Observation =
  | { readonly state: AskedState; readonly look: Extract<Look, { is: 'voltage' | 'resistance' | 'current' }>; /** [V], [A] or [ohm]; an open circuit is Infinity */ readonly value: number; /** half width that the builder gives the reading; absent: the meter's */ readonly band?: number }
  | { readonly state: AskedState; readonly look: Exclude<Look, { is: 'voltage' | 'resistance' | 'current' }>; readonly value: boolean };

/** The same look in the same state is the same test. */
export function lookKey(state: AskedState, look: Look): string {
  return `${keyOfState(state)}|${Object.values(look).join(' ')}`;
}
