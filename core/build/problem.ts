/**
 * Something in the text of the build file that cannot be used as it stands. Problems are values: reading never throws,
 * returns all of them at once, and keeps everything else.
 */
import type { Place } from './place.ts';

export type ProblemCode =
  | 'bad_yaml' | 'too_large' | 'too_deep' | 'too_many_aliases' | 'duplicate_key'
  | 'unknown_key' | 'missing_value' | 'bad_value' | 'wrong_quantity' | 'out_of_range'
  | 'unknown_kind' | 'unknown_name' | 'unknown_port' | 'double_connection' | 'run_to_itself' | 'wrong_version';

export interface Problem {
  readonly code: ProblemCode;
  /** dotted path of the value: `parts.M1.mass` */
  readonly path: string;
  readonly place: Place;
  readonly found: string;
  readonly expected: string;
  /** nearest right spelling, when there is one close enough */
  readonly nearest: string | undefined;
  /** one sentence made of the above, without the place */
  readonly message: string;
  /** `stop`: the value was left out of the model; `note`: it was used all the same */
  readonly level: 'stop' | 'note';
}
