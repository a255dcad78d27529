/** The pack's voltage against the voltage class and against what each part on it can take. */
import type { Car } from '../../car/car.ts';
import type { Pack } from '../../car/strings.ts';
import type { Check } from '../../findings/finding.ts';
import type { Figures } from './pack-figures.ts';
import { CLASS_A_HIGHEST, CLASS_B_HIGHEST } from '../../physics/voltage-class.ts';

export type VoltageClass = 'A' | 'B' | 'above B';

export function voltageClass(maximumVoltage: number): VoltageClass {
  return maximumVoltage <= CLASS_A_HIGHEST ? 'A' : maximumVoltage <= CLASS_B_HIGHEST ? 'B' : 'above B';
}

/** @param figures  of the pack */
export function voltageWindowChecks(car: Car, pack: Pack, figures: Figures): readonly Check[] {
  const first = pack.strings[0]!.name;
  const isB = voltageClass(figures.maximumVoltage) !== 'A';
  const checks: Check[] = [{
    code: 'pack.voltage-class', about: [first], value: figures.maximumVoltage, limit: CLASS_B_HIGHEST, sense: 'at_most', quantity: 'voltage',
    details: { class: isB ? 'class B, above 60 V: touching both ends can kill' : 'class A, up to 60 V: it burns and welds, but counts as no shock hazard by itself' },
  }];
  for (const { name, names, roles } of car.parts.values()) {
    const link = roles.dcLink;
    if (!link) continue;
    const [positive, negative] = [pack.holds(names.of(link.positive)), pack.holds(names.of(link.negative))];
    if (positive === undefined || negative === undefined || positive === 'between' || negative === 'between' || positive === negative) continue;
    checks.push({
      code: 'pack.equipment-maximum-voltage', about: [name], path: `parts.${name}.maximum_voltage`, sense: 'at_most', quantity: 'voltage',
      ...(link.maximumVoltage === undefined ? { needs: [`parts.${name}.maximum_voltage`] } : { value: figures.maximumVoltage, limit: link.maximumVoltage }),
    });
    checks.push({
      code: 'pack.equipment-minimum-voltage', about: [name], path: `parts.${name}.minimum_voltage`, sense: 'at_least', quantity: 'voltage',
      ...(link.minimumVoltage === undefined ? { needs: [`parts.${name}.minimum_voltage`] } : { value: figures.minimumVoltage, limit: link.minimumVoltage }),
    });
  }
  return checks;
}
