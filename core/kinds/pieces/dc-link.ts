/**
 * The capacitor between a part's high-voltage poles, the resistor that empties it slowly, and the highest and lowest
 * voltage the part works at.
 */
import type { RealisedFields } from '../../part/field.ts';
import type { DcLinkRole } from '../../part/role.ts';
import type { Wiring } from '../../part/wiring.ts';
import { fromHandbook, optional, required } from '../../part/field.ts';

const voltageFields = {
  bleeder: optional('resistance', 'resistor that stays across the capacitor and empties it slowly; silent: there is none', { example: '47 kΩ measured', minimum: 0, maximum: 1e9, aboveMinimum: true }),
  maximum_voltage: required('voltage', 'highest voltage between its poles', { isLimit: true, example: '450 V label', minimum: 0, maximum: 2000, aboveMinimum: true }),
  minimum_voltage: optional('voltage', 'lowest voltage between its poles at which it works', { isLimit: true, example: '220 V label', minimum: 0, maximum: 2000, aboveMinimum: true }),
} as const;

/** For parts whose capacitor is so large that only its own value will do. */
export const ownLinkFields = {
  link_capacitance: required('capacitance', 'capacitor between its high-voltage poles', { example: '0.8 mF label', minimum: 0, maximum: 1, aboveMinimum: true }),
  ...voltageFields,
} as const;

/** For parts with a small input capacitor. @param row catalogue row of its usual value */
export const smallLinkFields = (row: string) => ({
  link_capacitance: fromHandbook('capacitance', row, 'capacitor between its high-voltage poles', { example: '10 µF measured', minimum: 0, maximum: 1, aboveMinimum: true }),
  ...voltageFields,
}) as const;

type LinkValues = RealisedFields<typeof ownLinkFields>;

/** Elements `link` and, where there is one, `bleeder`. */
export function wireLink(fields: LinkValues, wiring: Wiring): void {
  wiring.capacitor('link', wiring.port('pos'), wiring.port('neg'), fields.link_capacitance);
  if (fields.bleeder !== undefined) wiring.resistor('bleeder', wiring.port('pos'), wiring.port('neg'), fields.bleeder);
}

export const linkRole = (fields: LinkValues, activeDischarge?: number): DcLinkRole => ({
  element: 'link', positive: 'pos', negative: 'neg', capacitance: fields.link_capacitance,
  bleeder: fields.bleeder, activeDischarge, maximumVoltage: fields.maximum_voltage, minimumVoltage: fields.minimum_voltage,
});

/**
 * Voltage below which a power stage is taken as a resistor: its lowest working voltage, else half its highest
 * (common practice, no source; only matters when the voltage has already collapsed) [V].
 */
export const stageKnee = (fields: Pick<LinkValues, 'minimum_voltage' | 'maximum_voltage'>): number => fields.minimum_voltage ?? fields.maximum_voltage / 2;
