/**
 * What a single failure does, in plain data.
 */

export type EffectSort =
  /** more than 60 V where there is none with nothing wrong [V] */
  | 'high_voltage_on'
  /** a drive mode is entered and the wheels are driven though the charging plug is in */
  | 'drives_plugged'
  /** the wheels are driven in a mode in which they should not be */
  | 'torque_appears'
  /** a run carries more than it can stand, and no fuse opens, or only later (`later`) [A] */
  | 'overheats'
  /** a unit feeds into high voltage that nothing takes: it must limit itself */
  | 'overvoltage'
  /** a fault of the mains side: the outlet's breaker or residual-current device has to open, which the file does not draw */
  | 'mains_trips'
  /** electronics switch off an output that is overloaded */
  | 'output_trips'
  /** a high-voltage contact is closed that nothing asked for */
  | 'contact_closes'
  /** high-voltage contacts that should be closed open */
  | 'contacts_drop'
  /** an interlock contact that opens would no longer be noticed */
  | 'loop_bypassed'
  /** the insulation monitor is dead or looks at nothing */
  | 'monitor_blind'
  /** a pole of the high voltage lies on the chassis or on the 12 V side */
  | 'leak'
  | 'torque_lost'
  /** a supply, the charger or the DC-DC, gives nothing */
  | 'gives_nothing'
  | 'fuse_opens'
  /** a unit is left without the supply that it needs */
  | 'supply_lost'
  /** a unit that should run does not */
  | 'stops'
  | 'runs_unasked'
  /** a joint that gets hot under load; how hot is not computed */
  | 'heats'
  /** the network has no answer */
  | 'not_solved';

export interface Effect {
  readonly sort: EffectSort;
  /** parts or runs that it happens to */
  readonly about: readonly string[];
  /** SI, of the quantity that the sort says */
  readonly amount?: number;
  /** fuses that carry more than they may and are slower than the harm */
  readonly later?: readonly string[];
}

export interface Notice {
  readonly by: 'lamp' | 'monitor' | 'refusal' | 'car_stops';
  /** parts, modes */
  readonly about: readonly string[];
}

/** What happens in one mode. */
export interface InMode {
  /** name of the mode */
  readonly mode: string;
  /** hands stand as in this mode while the controllers still hold `mode`: the key is turned off while driving */
  readonly handsAs: string | undefined;
  readonly effects: readonly Effect[];
  readonly notices: readonly Notice[];
  /** inputs of controllers that change; where no notice stands beside them, no condition of the file fails: points */
  readonly seenAt: readonly string[];
}

/** One more thing after this failure that makes it dangerous. */
export interface SecondFailure {
  readonly sort: 'contact' | 'cover' | 'leak' | 'program';
  /** failures, parts or poles that it takes */
  readonly by: readonly string[];
}

/** Worst first. */
export const severities = ['danger', 'hidden', 'guard', 'stops', 'less', 'nothing'] as const;
export type Severity = (typeof severities)[number];

export const severityWords: Readonly<Record<Severity, string>> = {
  danger: 'dangerous at once',
  hidden: 'unnoticed, and dangerous with one more failure',
  guard: 'noticed; dangerous with one more failure',
  stops: 'the car stops, or does not start',
  less: 'something does not work',
  nothing: 'nothing',
};

export interface SingleFailure {
  /** of the list of hypotheses: `K_pos.welded` */
  readonly id: string;
  readonly sort: string;
  readonly about: readonly string[];
  /** path in the build file */
  readonly path: string;
  /** a sentence without its full stop */
  readonly words: string;
  /** modes in which something happens or is noticed */
  readonly modes: readonly InMode[];
  readonly second: SecondFailure | undefined;
  readonly isNoticed: boolean;
  readonly severity: Severity;
}
