/**
 * One step of the first power-up: in which state of the car, what to do, what to read between which points with what, what the reading
 * should be, and what a wrong one most likely means.
 */
import type { State } from '../car/state.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import type { Change } from '../solve/change.ts';
import type { OpenStop } from '../findings/open-stops.ts';
import type { Instrument } from './instruments.ts';

/** In the order in which they are done. */
export const phases = {
  prepare: 'Before anything is joined',
  insulation: 'Insulation of every high-voltage part and cable, before joining',
  low_voltage: '12 V side alone',
  coils: 'Contactor coils and what opens them, pack still open',
  limited_source: 'High voltage from a current-limited source first',
  join: 'Joining the pack',
  isolation: 'Isolation with the pack whole',
  precharge: 'Precharge, watched',
  ready: 'Contactors and DC-DC',
  charge: 'Charging modes',
  drive: 'Driven wheels on stands, low torque',
  shut_down: 'Shut-down and discharge',
  proof: 'Proofs that it refuses',
} as const;
export type Phase = keyof typeof phases;

/** What the meter is put to. Points are nodes of the network. */
export type Measure =
  /** `a` minus `b` */
  | { readonly is: 'voltage'; readonly a: string; readonly b: string }
  /** ohmmeter on a dead circuit */
  | { readonly is: 'resistance'; readonly a: string; readonly b: string }
  /** insulation tester from each of some poles to the chassis; the lowest counts */
  | { readonly is: 'insulation'; readonly poles: readonly string[]; readonly b: string }
  /** clamp meter around a run, or the ammeter of a bench source: positive from start to end */
  | { readonly is: 'current'; readonly element: string; readonly isReversed: boolean }
  /** from the readings of two other steps: the first less the second, each `a` minus `b` */
  | { readonly is: 'difference'; readonly first: readonly [string, string]; readonly second: readonly [string, string] }
  /** from the readings of other steps: pole to chassis with and without a known resistor */
  | { readonly is: 'isolation'; readonly positive: string; readonly negative: string; readonly added: number }
  /** capacitors with a stopwatch: through a resistor from one share of the voltage to another, or from a source that holds its current; `through` names it */
  | { readonly is: 'time'; readonly of: 'fill' | 'charge' | 'empty'; readonly links: readonly string[]; readonly through: string | undefined; readonly voltageAt: readonly [string, string] };

/** Stands at both ends of the interval that holds 95 % of the readings, meter included [SI]. */
export interface Band { readonly nominal: number; readonly low: number; readonly high: number }

export interface Limit { readonly sense: 'at_least' | 'at_most' | 'between'; readonly value: number; readonly to?: number; readonly source: string }

/** How much harm is near while the step is done. */
export type Hazard = 'none' | 'class_a' | 'class_b' | 'moving';

/** A cause of a wrong reading that no part declares as a failure of its own. */
export interface Suspect { readonly part: string; readonly failure: string; readonly meaning: string; /** beside the likelihoods that kinds declare; common practice, no source */ readonly likelihood: number; readonly changes: readonly Change[] }

export interface PowerUpStep {
  /** the same from edit to edit as long as the parts it is about keep their names */
  readonly id: string;
  readonly phase: Phase;
  readonly title: string;
  /** what to do, in sentences */
  readonly action: string;
  /** parts, runs and modes it is about; the first gives the place in the file */
  readonly about: readonly string[];
  readonly hazard: Hazard;
  /** it may not be passed until its reading is in and right */
  readonly isHoldPoint: boolean;
  readonly state: State | undefined;
  readonly measure: Measure | undefined;
  readonly quantity: QuantityName | undefined;
  readonly instrument: Instrument | undefined;
  /** what is right: what must be seen or heard, where no meter says it; or how to read a number */
  readonly expect: string;
  /** what is wrong, what it means and what to do then; absent: nothing to say */
  readonly instead?: string;
  /** the state in words: mode, where the disconnects are, what is left off; absent: it says nothing of the car */
  readonly stands?: string;
  /** in its state every contactor is open, and it feeds nothing: only what is joined is live */
  readonly isCalm?: true;
  /** it makes the car dead, or shows that it is: no finding holds it */
  readonly isWayBack?: true;
  /** findings at `stop` that hold it: then it says nothing else, and is not done */
  readonly heldBy?: readonly OpenStop[];
  /** what the meter would show if what the step proves did not work [SI]: no right reading */
  readonly noEffect?: number;
  readonly predicted: Band | undefined;
  /** the file's own values say that the limit will not be kept */
  readonly willFail: boolean;
  readonly limit: Limit | undefined;
  /** what the reading must not pass for the work to go on says the limit; this says why there is no prediction */
  readonly notPredicted: string | undefined;
  /** paths of missing values that the prediction, or the step, rests on */
  readonly unknown: readonly string[];
  /** who stands where */
  readonly people: string;
  readonly cautions: readonly string[];
  /** parts that lose their voltage in this step, where it proves that something opens */
  readonly lost: readonly string[];
  /** always looked at, and always named when they would read wrong */
  readonly suspects?: readonly Suspect[];
}

/** A step as a phase makes it: prediction, people and what is unknown are added for all phases alike. */
export type StepDraft = Omit<PowerUpStep, 'predicted' | 'willFail' | 'people' | 'unknown' | 'quantity' | 'lost' | 'suspects' | 'cautions' | 'expect' | 'instead' | 'stands' | 'isCalm' | 'isWayBack' | 'heldBy' | 'noEffect' | 'limit' | 'notPredicted' | 'measure' | 'state' | 'instrument'> & {
  readonly state?: State;
  readonly measure?: Measure;
  readonly instrument?: Instrument;
  readonly expect?: string;
  readonly instead?: string;
  readonly isWayBack?: true;
  readonly noEffect?: number | undefined;
  readonly limit?: Limit | undefined;
  readonly cautions?: readonly string[];
  readonly lost?: readonly string[];
  readonly suspects?: readonly Suspect[];
  readonly unknown?: readonly string[];
  /** a state with the same spread whose draws are made already */
  readonly bandState?: State;
};

export function quantityOf(measure: Measure): QuantityName {
  switch (measure.is) {
    case 'voltage':
    case 'difference': return 'voltage';
    case 'current': return 'current';
    case 'time': return 'time';
    case 'resistance':
    case 'insulation':
    case 'isolation': return 'resistance';
  }
}
