/**
 * The field language: what a part, run or section of the build file may say, written once.
 * From these descriptors come the reader, its messages, the TypeScript types, the JSON Schema and docs/build-file.md.
 *
 * Need, said once:
 * - `required`  only the builder can know it; missing is a problem of the file and, where a check needs it, a finding;
 * - `handbook`  the catalogue has a row with a range; used when the file is silent, and shown as `handbook`;
 * - `optional`  the thing may not exist (no bleed resistor, no second coil); silent means "there is none".
 */
import type { QuantityName } from '../quantity/quantity-table.ts';

export type Need = 'required' | 'optional' | 'handbook';

export interface QuantityField<N extends Need = Need> {
  readonly type: 'quantity'; readonly need: N; readonly quantity: QuantityName; readonly meaning: string;
  /** as a builder would write it, with unit; used in messages and in the reference page */
  readonly example: string;
  /** key of the catalogue row when need is `handbook` */
  readonly handbook?: string;
  /** physically possible range [SI]; outside it is a problem of the file */
  readonly minimum?: number; readonly maximum?: number;
  /** a rating or the name of a size: what a maker promises, not a measured value; without a written tolerance it has no spread */
  readonly isLimit?: boolean;
  /** true when the minimum itself is not allowed (a resistance that must be > 0) */
  readonly aboveMinimum?: boolean;
}
export interface ChoiceField<C extends string = string, N extends Need = Need> {
  readonly type: 'choice'; readonly need: N; readonly choices: readonly C[]; readonly meaning: string;
  /** what each choice means, when the word alone does not say it */
  readonly explain?: Readonly<Partial<Record<C, string>>>;
  readonly fallback?: C;
}
export interface FlagField<N extends Need = Need> { readonly type: 'flag'; readonly need: N; readonly meaning: string }
export interface CountField<N extends Need = Need> { readonly type: 'count'; readonly need: N; readonly meaning: string; readonly minimum: number; readonly maximum: number; readonly example: string }
export interface TextField<N extends Need = Need> { readonly type: 'text'; readonly need: N; readonly meaning: string; readonly example: string }
/** a name defined elsewhere in the file, or `Part.port` when `of` is `ports` */
export interface NameField<N extends Need = Need> { readonly type: 'name'; readonly need: N; readonly of: 'cells' | 'stock' | 'parts' | 'ports' | 'runs' | 'modes'; readonly meaning: string; readonly example: string }
/** `[x, y, z mm]`, x rearward, y right, z up, origin at the front axle line, mid-track, on the ground (ISO 4130) */
export interface PositionField<N extends Need = Need> { readonly type: 'position'; readonly need: N; readonly meaning: string }
/** `385 x 150 x 110 mm`: along x, y and z */
export interface SizeField<N extends Need = Need> { readonly type: 'size'; readonly need: N; readonly meaning: string }
export interface ListField<F extends Field = Field, N extends Need = Need> { readonly type: 'list'; readonly need: N; readonly of: F; readonly meaning: string }
/** `name: value` pairs whose names the builder chooses (outputs of a controller, pins of a connector) */
export interface MapField<F extends Field = Field, N extends Need = Need> { readonly type: 'map'; readonly need: N; readonly of: F; readonly meaning: string }
export interface GroupField<G extends Fields = Fields, N extends Need = Need> { readonly type: 'group'; readonly need: N; readonly fields: G; readonly meaning: string }

export type Field = QuantityField | ChoiceField | FlagField | CountField | TextField | NameField | PositionField | SizeField
  | { readonly type: 'list'; readonly need: Need; readonly of: Field; readonly meaning: string }
  | { readonly type: 'map'; readonly need: Need; readonly of: Field; readonly meaning: string }
  | { readonly type: 'group'; readonly need: Need; readonly fields: Fields; readonly meaning: string };
export interface Fields { readonly [name: string]: Field }

/** A point [m] in vehicle axes. */
export type Position = readonly [number, number, number];

/** What a field becomes once a draw has turned quantities into plain SI numbers. */
export type Realised<F> =
  F extends { type: 'quantity' } ? number
  : F extends { type: 'choice'; choices: readonly (infer C)[] } ? C
  : F extends { type: 'flag' } ? boolean
  : F extends { type: 'count' } ? number
  : F extends { type: 'text' } | { type: 'name' } ? string
  : F extends { type: 'position' } | { type: 'size' } ? Position
  : F extends { type: 'list'; of: infer O } ? readonly Realised<O>[]
  : F extends { type: 'map'; of: infer O } ? Readonly<Record<string, Realised<O>>>
  : F extends { type: 'group'; fields: infer G } ? RealisedFields<G>
  : never;

type MayBeAbsent<F> = F extends { need: 'optional' } ? true : false;

/** Required and handbook fields are there; optional ones may be undefined. */
export type RealisedFields<G> = { readonly [K in keyof G]: MayBeAbsent<G[K]> extends true ? Realised<G[K]> | undefined : Realised<G[K]> };

// Constructors. `need` is spelt in the function's options so that the literal type is kept.

interface QuantityOptions { example: string; isLimit?: boolean; minimum?: number; maximum?: number; aboveMinimum?: boolean }

export const required = (quantity: QuantityName, meaning: string, options: QuantityOptions): QuantityField<'required'> => ({ type: 'quantity', need: 'required', quantity, meaning, ...options });
export const optional = (quantity: QuantityName, meaning: string, options: QuantityOptions): QuantityField<'optional'> => ({ type: 'quantity', need: 'optional', quantity, meaning, ...options });
/** Filled from catalogue row `row` when the file is silent. */
export const fromHandbook = (quantity: QuantityName, row: string, meaning: string, options: QuantityOptions): QuantityField<'handbook'> => ({ type: 'quantity', need: 'handbook', quantity, handbook: row, meaning, ...options });

export const choice = <const C extends string, N extends Need = 'required'>(choices: readonly C[], meaning: string, options: { need?: N; explain?: Partial<Record<C, string>>; fallback?: C } = {}): ChoiceField<C, N> =>
  ({ type: 'choice', need: (options.need ?? 'required') as N, choices, meaning, ...(options.explain ? { explain: options.explain } : {}), ...(options.fallback ? { fallback: options.fallback } : {}) });
/** yes or no; silent means no. */
export const flag = (meaning: string): FlagField<'optional'> => ({ type: 'flag', need: 'optional', meaning });
export const count = <N extends Need = 'required'>(meaning: string, options: { need?: N; minimum: number; maximum: number; example: string }): CountField<N> =>
  ({ type: 'count', meaning, minimum: options.minimum, maximum: options.maximum, example: options.example, need: (options.need ?? 'required') as N });
export const text = <N extends Need = 'optional'>(meaning: string, options: { need?: N; example: string }): TextField<N> =>
  ({ type: 'text', meaning, example: options.example, need: (options.need ?? 'optional') as N });
export const nameOf = <N extends Need = 'required'>(of: NameField['of'], meaning: string, options: { need?: N; example: string }): NameField<N> =>
  ({ type: 'name', of, meaning, example: options.example, need: (options.need ?? 'required') as N });
export const position = <N extends Need = 'optional'>(meaning: string, need?: N): PositionField<N> => ({ type: 'position', meaning, need: (need ?? 'optional') as N });
export const size = <N extends Need = 'optional'>(meaning: string, need?: N): SizeField<N> => ({ type: 'size', meaning, need: (need ?? 'optional') as N });
export const list = <F extends Field, N extends Need = 'optional'>(of: F, meaning: string, need?: N): ListField<F, N> => ({ type: 'list', of, meaning, need: (need ?? 'optional') as N });
export const map = <F extends Field, N extends Need = 'optional'>(of: F, meaning: string, need?: N): MapField<F, N> => ({ type: 'map', of, meaning, need: (need ?? 'optional') as N });
export const group = <const G extends Fields, N extends Need = 'optional'>(fields: G, meaning: string, need?: N): GroupField<G, N> => ({ type: 'group', fields, meaning, need: (need ?? 'optional') as N });
