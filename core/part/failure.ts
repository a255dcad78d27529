/**
 * How a part can fail, as changes to its own elements, so that a failed part is the same network with a few entries changed.
 */
export type ElementChange =
  /** the element conducts nothing at all */
  | { readonly element: string; readonly becomes: 'open' }
  /** a dead short (or a welded contact): `resistance` [ohm], usually the closed resistance */
  | { readonly element: string; readonly becomes: 'shorted'; readonly resistance: number }
  /** works, but through `resistance` [ohm] more: corroded, loose, half-crimped */
  | { readonly element: string; readonly becomes: 'resistive'; readonly resistance: number }
  /** a switch, relay contact or output that no longer follows its command */
  | { readonly element: string; readonly becomes: 'stuck_open' | 'stuck_closed' }
  /** a new path between two points of the part (or `chassis`): a leak, a chafed wire */
  | { readonly add: string; readonly a: string; readonly b: string; readonly resistance: number };

export interface Failure<P> {
  readonly code: string;
  readonly meaning: string;
  /** relative to the other failures of this part; common practice, no source */
  readonly likelihood: number;
  readonly changes: (part: P) => readonly ElementChange[];
}

export interface Observable {
  readonly name: string;
  readonly sense: 'see' | 'hear' | 'feel' | 'smell' | 'read';
  readonly meaning: string;
}
