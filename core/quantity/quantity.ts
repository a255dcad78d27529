/**
 * A number with its unit, its uncertainty and where it came from.
 *
 * Invariants:
 * - every number is finite and in the coherent SI unit of its quantity (temperatures in kelvin);
 * - `low <= nominal <= high`;
 * - `path` names the place in the build file (`parts.M1.mass`) and is the identity of the uncertain
 *   variable: two readers of one path always see the same draw, so one cell feeds many modules.
 */
import type { Basis } from './basis.ts';
import type { QuantityName } from './quantity-table.ts';

/** How the stated limits are meant; decides the distribution that `spread.ts` draws from. */
export type SpreadShape =
  /** limits are a 95 % interval of a normal distribution (coverage factor 2, JCGM 100 clause 4.3.4) */
  | 'normal'
  /** anything between the limits is as likely (JCGM 100 clause 4.3.7): written as a range `a..b` */
  | 'uniform'
  /** no uncertainty: a count or an exact definition */
  | 'exact';

export interface Quantity {
  readonly quantity: QuantityName;
  /** best value [SI] */
  readonly nominal: number;
  /** lower stated limit [SI] */
  readonly low: number;
  /** upper stated limit [SI] */
  readonly high: number;
  readonly shape: SpreadShape;
  readonly basis: Basis;
  /** false when the tolerance is the default one of the basis, true when the builder wrote it */
  readonly toleranceIsStated: boolean;
  /** unit as the builder wrote it, for printing back; a key of the unit table */
  readonly unit: string;
  /** place in the build file, or `handbook:<row>`; set by the reader that knows the place */
  readonly path: string;
}
