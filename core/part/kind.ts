/**
 * What a part kind is. One file a kind in `core/kinds`; shared code reads these declarations and never asks for a kind's name.
 */
import type { Fields, RealisedFields } from './field.ts';
import type { Failure, Observable } from './failure.ts';
import type { Roles } from './role.ts';
import type { Wiring } from './wiring.ts';

export interface Port {
  readonly name: string;
  readonly carries: 'high_voltage' | 'low_voltage' | 'signal';
  readonly meaning: string;
  /** how many runs may end here; a stud takes two lugs, a connector pin one wire */
  readonly holds: number;
  /** polarity, when the port has one */
  readonly pole?: 'positive' | 'negative';
  /** offset from the part's centre [m], when it matters */
}

/** A part whose quantities a draw has turned into SI numbers. */
export interface PartNow<F extends Fields, S extends Fields> {
  readonly name: string;
  readonly fields: RealisedFields<F>;
  /** what the mode (and overrides) ask of it; an unset setting is undefined = at rest */
  readonly settings: Partial<{ readonly [K in keyof RealisedFields<S>]: RealisedFields<S>[K] }>;
  /** the cell this part is made of, when it names one */
  readonly cell: CellNow | undefined;
  readonly conditions: Conditions;
}

/** A cell of the `cells` section at the conditions asked about. */
export interface CellNow {
  readonly name: string; readonly chemistry: string;
  /** [C] (coulomb) */
  readonly capacity: number;
  /** open-circuit voltage at the conditions' state of charge [V] */
  readonly voltage: number;
  /** 10 s resistance of one cell at the conditions' temperature [ohm] */
  readonly resistance: number;
  readonly minimumVoltage: number; readonly nominalVoltage: number; readonly maximumVoltage: number;
}

/** What the whole analysis assumes around the car; from the `conditions` section or a state. */
export interface Conditions {
  /** air outside the car [K] */
  readonly ambient: number;
  readonly cellTemperature: number;
  /** [1], 0..1 */
  readonly stateOfCharge: number;
}

export interface Kind<F extends Fields = Fields, S extends Fields = Fields> {
  readonly kind: string;
  readonly title: string;
  readonly family: 'high_voltage' | 'low_voltage' | 'mechanical';
  readonly meaning: string;
  /** a part of this kind feeds the low-voltage side, also while the file lacks values of it and its roles are not known */
  readonly feedsLowVoltage?: true;
  /** a tool beside the vehicle: it has no mass and no place in it */
  readonly standsBeside?: true;
  readonly fields: F;
  /** what a mode may set on it: `set: { K1: { ... } }`; every setting is optional and unset means at rest */
  readonly settings: S;
  /** settings that hands, feet, doors, plugs and crashes work, as against those that a controller drives */
  readonly worked?: readonly string[];
  /** what a setting is while nothing gives it, where that is known: `{ closed: true }` of an emergency stop */
  readonly atRest?: (fields: Partial<RealisedFields<F>>) => Readonly<Record<string, unknown>>;
  /** words that a text setting may take, where the fields name them (positions of a switch, outputs of a controller) */
  readonly settingWords?: (fields: Partial<RealisedFields<F>>) => Readonly<Record<string, readonly string[]>>;
  /** ports may depend on fields (a junction's studs); fields may be missing while the builder types */
  readonly ports: (fields: Partial<RealisedFields<F>>) => readonly Port[];
  /** called only when every required field is there */
  readonly wire: (part: PartNow<F, S>, wiring: Wiring) => void;
  readonly roles: (part: PartNow<F, S>) => Roles;
  readonly failures: readonly Failure<PartNow<F, S>>[];
  /** further failures, one for each pin, wire or output that the fields name; see `failuresOf` */
  readonly failuresByFields?: (part: PartNow<F, S>) => readonly Failure<PartNow<F, S>>[];
  readonly observables: readonly Observable[];
}

/** Keeps the field types of a kind for its own functions, and hides them from shared code. */
export function defineKind<const F extends Fields, const S extends Fields>(kind: Kind<F, S>): Kind {
  return kind as unknown as Kind;
}

/** Every way this part can fail: those of its kind, and those its fields bring with them. */
export function failuresOf(kind: Kind, part: PartNow<Fields, Fields>): readonly Failure<PartNow<Fields, Fields>>[] {
  return kind.failuresByFields ? [...kind.failures, ...kind.failuresByFields(part)] : kind.failures;
}

export type Kinds = ReadonlyMap<string, Kind>;
