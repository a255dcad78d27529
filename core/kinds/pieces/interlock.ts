/**
 * The interlock loop through a part's high-voltage plug or lid: a thin contact that opens before the plug does.
 */
import type { Port } from '../../part/kind.ts';
import type { RealisedFields } from '../../part/field.ts';
import type { ElementChange } from '../../part/failure.ts';
import type { Wiring } from '../../part/wiring.ts';
import { flag, fromHandbook } from '../../part/field.ts';

export const interlockFields = {
  interlock: flag('the interlock loop passes through its plug or lid'),
  interlock_resistance: fromHandbook('resistance', 'interlock.contact_resistance', 'of the interlock contact when closed; used only with an interlock', { example: '50 mΩ', minimum: 0, maximum: 1e4 }),
} as const;

type InterlockValues = RealisedFields<typeof interlockFields>;

export const interlockPorts = (fields: { readonly interlock?: boolean | undefined }): readonly Port[] =>
  fields.interlock === true
    ? [
        { name: 'hvil_in', carries: 'signal', meaning: 'interlock loop, in', holds: 1 },
        { name: 'hvil_out', carries: 'signal', meaning: 'interlock loop, out', holds: 1 },
      ]
    : [];

/** Element `interlock`. @param isClosed false when the plug is pulled or the lid is off */
export function wireInterlock(fields: InterlockValues, isClosed: boolean, wiring: Wiring): void {
  if (fields.interlock !== true) return;
  wiring.switch('interlock', wiring.port('hvil_in'), wiring.port('hvil_out'), isClosed, fields.interlock_resistance);
}

export const interlockRole = (fields: { readonly interlock?: boolean | undefined }): { interlock?: readonly (readonly [string, string])[] } =>
  fields.interlock === true ? { interlock: [['hvil_in', 'hvil_out']] } : {};

/** The interlock contact of a plug that is not seated; nothing when the part has no interlock. */
export const interlockOpens = (fields: { readonly interlock?: boolean | undefined }): readonly ElementChange[] =>
  fields.interlock === true ? [{ element: 'interlock', becomes: 'stuck_open' }] : [];
