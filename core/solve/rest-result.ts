/**
 * What a solve at rest returns. A failure is a result with its worst offender, never an exception and never NaN.
 */

/** Nodes joined to each other by something that conducts, but not to the reference. Voltages inside are relative to `pinned`. */
export interface Island { readonly nodes: readonly string[]; readonly pinned: string }

export interface RestSolved {
  readonly outcome: 'solved';
  /** [V] against the reference; inside a floating island against its pinned node */
  readonly voltageOf: (node: string) => number;
  /** [A] through an element from a to b (a converter: its output current; `id:in` its input current) */
  readonly currentOf: (elementId: string) => number;
  /**
   * Position of each switch, relay, diode, supply, converter: closed / conducting / regulating …
   * A power or current load: `regulating` when it gets what it asks for, `limiting` when its voltage is below its knee.
   */
  readonly stateOf: (elementId: string) => ElementState;
  /** islands that nothing ties to the reference; empty when all is tied */
  readonly floating: readonly Island[];
  /** index of the island of a node: -1 when tied to the reference, else the index into `floating` */
  readonly islandOf: (node: string) => number;
  /** largest sum of currents into a node [A], and that node */
  readonly balance: { readonly residual: number; readonly node: string };
  readonly iterations: number;
  /**
   * Converters that are `off` although their input is there: running, they would pull it below their minimum.
   * The real thing starts, drops out and starts again (it hiccups).
   */
  readonly hiccups: readonly string[];
}

export type ElementState = 'closed' | 'open' | 'conducting' | 'blocking' | 'regulating' | 'limiting' | 'off' | 'none';

export type RestFailure =
  /** Newton's method did not settle: usually a load that asks for more power than the wiring can carry there */
  | { readonly outcome: 'not_converged'; readonly iterations: number; readonly residual: number; readonly node: string; readonly element: string | undefined }
  /** a relay closes and, by closing, takes away its own coil voltage (it would buzz) */
  | { readonly outcome: 'chatter'; readonly relays: readonly string[]; readonly iterations: number }
  /** ideal sources or shorts that contradict each other: no current could satisfy them */
  | { readonly outcome: 'contradiction'; readonly elements: readonly string[] };

export type RestResult = RestSolved | RestFailure;
