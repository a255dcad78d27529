/**
 * What a solve is asked about: which mode, what is set differently, which runs are made, which failures are there.
 */
export interface State {
  /** name of a mode; undefined: nothing is asked of anything (all settings at rest) */
  readonly mode?: string;
  /** settings on top of the mode's: part -> setting -> plain SI value */
  readonly set?: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
  /** runs that are not (yet) made */
  readonly without?: readonly string[];
  readonly failures?: readonly { readonly part: string; readonly failure: string }[];
  /** things laid across two points: a bolted short, a dropped spanner, a meter [ohm] */
  readonly bridges?: readonly { readonly a: string; readonly b: string; readonly resistance: number }[];
  /** leaves out what only takes or regulates (power and current loads, supplies, converters): for fault currents */
  readonly withoutLoads?: boolean;
  /** cell state of charge [1], instead of the conditions' */
  readonly stateOfCharge?: number;
  /** cell temperature [K], instead of the conditions' */
  readonly cellTemperature?: number;
  /** conductor temperature for all runs [K]; absent: 20 °C */
  readonly conductorTemperature?: number;
}
