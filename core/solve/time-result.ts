/** What a solve in time is asked for and what it returns. Times in seconds from the start. */

/** A switch moved at a time. */
export interface ScheduledEvent { readonly at: number; readonly element: string; readonly closed: boolean }

export interface TimeRequest {
  /** [s] > 0 */
  readonly duration: number;
  readonly events?: readonly ScheduledEvent[];
  /** times to report [s], ascending; absent: `every`, else each step taken */
  readonly samples?: readonly number[];
  /** a sample each so many seconds, from 0 to the end */
  readonly every?: number;
  /** largest error of one step, relative to the size of the stored voltage or current; default 1e-6 */
  readonly tolerance?: number;
  readonly probes: { readonly nodes: readonly string[]; readonly elements: readonly string[] };
  /** stop when v(a) - v(b) passes `reaches` [V] that way */
  readonly until?: { readonly a: string; readonly b: string; readonly reaches: number; readonly direction: 'rising' | 'falling' };
  /**
   * `initial` (default): capacitors and inductors that state `initial` start there, the others at the network's rest;
   * `rest`: all start at rest, whatever they state.
   */
  readonly from?: 'initial' | 'rest';
  /** steps tried in all; default 200000 */
  readonly maxSteps?: number;
}

export interface HappenedEvent {
  readonly time: number;
  readonly element: string;
  /** contacts: closed / open; diodes, supplies, loads, converters: the position they went to */
  readonly to: 'closed' | 'open' | 'conducting' | 'blocking' | 'regulating' | 'limiting' | 'off' | 'none';
  readonly cause: 'scheduled' | 'relay' | 'law';
}

export interface TimeSolved {
  readonly outcome: 'solved';
  readonly times: Float64Array;
  /** [V] at each time, by probed node; in a loose island against its pinned node */
  readonly voltages: Readonly<Record<string, Float64Array>>;
  /** [A] a to b (a converter: delivered; `id:in`: its input), by probed element */
  readonly currents: Readonly<Record<string, Float64Array>>;
  readonly events: readonly HappenedEvent[];
  /** over the whole run, by probed element: charge [C], energy taken in [J], and the integral of the current squared [A2.s] */
  readonly integrals: Readonly<Record<string, { readonly charge: number; readonly energy: number; readonly square: number }>>;
  /** when `until` was met [s] */
  readonly reachedAt: number | undefined;
  readonly endedAt: number;
  readonly balance: {
    /** worst capacitor: integral of its current against C times its change of voltage, as a share of C times its largest voltage */
    readonly charge: number; readonly capacitor: string | undefined;
    /** integral of power into stores against the change of stored energy, as a share of the largest energy stored or passed */
    readonly energy: number;
    /** worst sum of currents into a node at any step [A] */
    readonly current: number;
  };
  readonly steps: number;
}

export type TimeFailure =
  | { readonly outcome: 'not_converged'; readonly time: number; readonly node: string; readonly element: string | undefined; readonly steps: number }
  | { readonly outcome: 'chatter'; readonly time: number; readonly relays: readonly string[]; readonly steps: number }
  | { readonly outcome: 'contradiction'; readonly time: number; readonly elements: readonly string[]; readonly steps: number };

export type TimeResult = TimeSolved | TimeFailure;
