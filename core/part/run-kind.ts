/**
 * What a run kind is (cable, wire, busbar): its fields and the conductor it amounts to.
 * A run's element is always `run` between its two ends: resistance from conductor and length, plus a joint at each end.
 */
import type { Fields, RealisedFields } from './field.ts';
import type { Observable } from './failure.ts';

export interface Conductor {
  readonly material: 'copper' | 'aluminium';
  /** metal cross-section [m2] */
  readonly area: number;
  /** resistance at 20 °C per metre [ohm/m] */
  readonly resistancePerLength: number;
  readonly shape: { readonly form: 'round'; readonly conductorDiameter: number; readonly outsideDiameter: number } | { readonly form: 'flat'; readonly width: number; readonly thickness: number };
  /** highest conductor temperature in service [K] */
  readonly temperatureRating: number;
  /** highest conductor temperature after a short circuit [K] */
  readonly shortCircuitTemperature: number;
  /** [K.m/W], insulation; undefined for bare metal */
  readonly insulationThermalResistivity: number | undefined;
  readonly voltageRating: number | undefined;
  readonly minimumBendRadius: number | undefined;
  readonly colour: string | undefined;
  readonly isScreened: boolean;
}

export interface RunKind<F extends Fields = Fields> {
  readonly kind: string;
  readonly title: string;
  readonly meaning: string;
  /** fields of the stock; a run may repeat one to override it */
  readonly fields: F;
  readonly conductor: (fields: RealisedFields<F>) => Conductor;
  readonly observables: readonly Observable[];
}

export function defineRunKind<const F extends Fields>(kind: RunKind<F>): RunKind {
  return kind as unknown as RunKind;
}

export type RunKinds = ReadonlyMap<string, RunKind>;
