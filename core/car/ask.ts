/**
 * The questions a topic may put to the one network of the car. Answers are remembered for the life of one draw.
 */
import type { Change } from '../solve/change.ts';
import type { RestResult } from '../solve/rest-result.ts';
import type { State } from './state.ts';

export interface Thevenin { readonly outcome: 'solved'; /** open voltage a minus b [V] */ readonly voltage: number; /** [ohm] */ readonly resistance: number }
export type TheveninResult = Thevenin | { readonly outcome: 'unconnected' } | { readonly outcome: 'failed'; readonly why: string };

export interface Network {
  /** operating point of the whole car in a state */
  readonly solve: (state: State) => RestResult;
  /** the network seen from two points in a state, linearised at its operating point; `withoutLoads` leaves power and current loads out (for fault currents) */
  readonly thevenin: (state: State, a: string, b: string) => TheveninResult;
  /** what a meter of `meterResistance` [ohm] shows between two points */
  readonly meter: (state: State, a: string, b: string, meterResistance?: number) => { readonly outcome: 'reads'; readonly voltage: number; readonly isFloating: boolean } | { readonly outcome: 'failed'; readonly why: string };
  /** current of a bolted short between two points [A] */
  readonly faultCurrent: (state: State, a: string, b: string) => TheveninResult & { readonly current?: number };
  /**
   * operating point with changes made to the network while it stands as solved in a state: relays that hold themselves go on holding.
   * `isLight`: only what takes little time; undefined when more has to move
   */
  readonly changed: (state: State, changes: readonly Change[], isLight?: boolean) => RestResult | undefined;
  /** every point a probe can touch: ports, probe-able inside points, `chassis` */
  readonly points: readonly string[];
}
