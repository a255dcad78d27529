/**
 * What a subject of the car is: results as plain data, and the checks made on them. Siblings never import each other;
 * they meet in the car and in the answers of the one network.
 */
import type { Car } from '../car/car.ts';
import type { Network as AskNetwork } from '../car/ask.ts';
import type { Check, TopicName } from '../findings/finding.ts';

export interface TopicOutcome<R> { readonly results: R; readonly checks: readonly Check[] }

export interface Topic<R = unknown> {
  readonly name: TopicName;
  /** whether it reads what things weigh, how big they are or where they stand, other than as the length of a run */
  readonly readsBulk: boolean;
  /** pure: the same car and answers give the same outcome */
  readonly study: (car: Car, ask: AskNetwork) => TopicOutcome<R>;
}
