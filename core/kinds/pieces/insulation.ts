/**
 * What lies between the high-voltage poles of a part and the chassis: insulation, and filter (Y) capacitors where it has them.
 */
import type { RealisedFields } from '../../part/field.ts';
import type { InsulationRole } from '../../part/role.ts';
import type { Wiring } from '../../part/wiring.ts';
import { fromHandbook, optional } from '../../part/field.ts';

/** @param row catalogue row of the usual insulation resistance of such a part */
export const insulationFields = (row: string) => ({
  insulation_resistance: fromHandbook('resistance', row, 'from each high-voltage pole to the case, poles measured one by one', { example: '50 MΩ measured', minimum: 0, maximum: 1e13, aboveMinimum: true }),
}) as const;

export const filterFields = {
  y_capacitance: optional('capacitance', 'filter capacitor from each high-voltage pole to the case, 0 F when it has none; silent: not known', { example: '0.22 µF label', minimum: 0, maximum: 1e-3 }),
} as const;

type InsulationValues = RealisedFields<ReturnType<typeof insulationFields>> & { readonly y_capacitance?: number | undefined };

/** Elements `leak_<port>` and, where a filter is declared, `filter_<port>`, from each pole to the chassis. */
export function wireInsulation(fields: InsulationValues, wiring: Wiring, ports: readonly string[] = ['pos', 'neg']): void {
  for (const port of ports) {
    wiring.resistor(`leak_${port}`, wiring.port(port), wiring.chassis, fields.insulation_resistance);
    if (fields.y_capacitance !== undefined && fields.y_capacitance > 0) wiring.capacitor(`filter_${port}`, wiring.port(port), wiring.chassis, fields.y_capacitance);
  }
}

/** @param acSide true when an AC circuit (motor windings) hangs on these poles without separation */
export function insulationRoles(fields: InsulationValues, acSide: boolean, ports: readonly string[] = ['pos', 'neg']): readonly InsulationRole[] {
  return ports.map((port) => ({ port, resistance: fields.insulation_resistance, capacitance: fields.y_capacitance, acSide }));
}
