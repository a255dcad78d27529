/** Every part kind, by name. */
import type { Kinds } from '../part/kind.ts';
import { highVoltageKinds } from './high-voltage.ts';
import { lowVoltageKinds, mechanicalKinds } from './low-voltage.ts';

export const kinds: Kinds = new Map([...highVoltageKinds, ...lowVoltageKinds, ...mechanicalKinds].map((kind) => [kind.kind, kind]));
