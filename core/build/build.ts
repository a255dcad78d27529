/**
 * The build file as a model: every number still carries its tolerance, basis and place.
 *
 * Invariants: names are unique within a section; `fields` holds only values that passed their descriptor (a bad or missing
 * one is absent and has a problem); handbook fields that the file leaves out are filled in with basis `handbook`;
 * the order of parts and runs is the order of the file.
 */
import type { Condition } from '../condition/condition.ts';
import type { Quantity } from '../quantity/quantity.ts';
import type { Place } from './place.ts';
import type { Problem } from './problem.ts';

/** What a field holds before a draw: quantities with their spread, everything else as it is. Positions and sizes are three quantities. */
export type FieldValue = Quantity | string | boolean | number | readonly FieldValue[] | { readonly [key: string]: FieldValue };
export interface FieldValues { readonly [name: string]: FieldValue }

export interface BuildPart { readonly name: string; readonly kind: string; readonly fields: FieldValues }

export interface RunEnd { readonly part: string; readonly port: string }
export interface BuildRun {
  readonly name: string;
  readonly from: RunEnd; readonly to: RunEnd;
  /** cable, wire, busbar */
  readonly kind: string;
  readonly stock: string | undefined;
  /** stock fields overlaid with the run's own, and the fields common to all runs */
  readonly fields: FieldValues;
}

export interface BuildMode {
  readonly name: string;
  readonly meaning: string | undefined;
  readonly from: readonly string[];
  /** part -> setting -> value */
  readonly set: { readonly [part: string]: FieldValues };
  /** how long it may last at a stretch; absent: continuous */
  readonly lasts: Quantity | undefined;
  /** period after which it may be repeated */
  readonly every: Quantity | undefined;
  /** state of charge above which the controller no longer does it; absent: it does it up to full */
  readonly highestCharge: Quantity | undefined;
  /** what must be true to enter it; those that could be read */
  readonly needs: readonly Condition[];
  /** what must be true while it lasts, besides what `set` says */
  readonly asserts: readonly Condition[];
  /** what a person must see to before it is entered */
  readonly needsInWords: readonly string[];
}

export interface BuildCell { readonly name: string; readonly fields: FieldValues }
export interface BuildMass { readonly name: string; readonly fields: FieldValues }

export interface Build {
  readonly name: string;
  readonly scenario: string | undefined;
  readonly units: 'metric' | 'imperial';
  readonly vehicle: FieldValues;
  readonly conditions: FieldValues;
  readonly removed: ReadonlyMap<string, BuildMass>;
  readonly cells: ReadonlyMap<string, BuildCell>;
  readonly stock: ReadonlyMap<string, { readonly name: string; readonly kind: string; readonly fields: FieldValues }>;
  readonly parts: ReadonlyMap<string, BuildPart>;
  readonly runs: ReadonlyMap<string, BuildRun>;
  readonly modes: ReadonlyMap<string, BuildMode>;
  /** path -> place of its value in the text */
  readonly places: ReadonlyMap<string, Place>;
  readonly problems: readonly Problem[];
  /** every uncertain quantity of the file and the handbook rows it uses, once each, by path */
  readonly quantities: ReadonlyMap<string, Quantity>;
}
