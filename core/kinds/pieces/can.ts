/**
 * The two CAN wires of a part and, where it has one, the terminating resistor.
 * Source: ISO 11898-2 (120 Ω at each end of the bus).
 */
import type { Port } from '../../part/kind.ts';
import type { Wiring } from '../../part/wiring.ts';
import { flag } from '../../part/field.ts';

export const canFields = {
  can: flag('it has a CAN connection'),
  can_termination: flag('a 120 Ω terminating resistor sits inside'),
} as const;

interface CanValues { readonly can?: boolean | undefined; readonly can_termination?: boolean | undefined }

export const canPorts = (fields: CanValues): readonly Port[] =>
  fields.can === true || fields.can_termination === true
    ? [
        { name: 'can_h', carries: 'signal', meaning: 'CAN high', holds: 2 },
        { name: 'can_l', carries: 'signal', meaning: 'CAN low', holds: 2 },
      ]
    : [];

/** Element `termination`, where there is one. */
export function wireCan(fields: CanValues, wiring: Wiring): void {
  if (fields.can_termination === true) wiring.resistor('termination', wiring.port('can_h'), wiring.port('can_l'), 120);
}
