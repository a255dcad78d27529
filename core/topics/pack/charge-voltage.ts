/** What every charger is set to, against the voltage of the full battery that it is joined to. */
import type { Car } from '../../car/car.ts';
import { rolesIn } from '../../car/roles-in.ts';
import type { Pack } from '../../car/strings.ts';
import type { Check } from '../../findings/finding.ts';

/**
 * One check a charger and a mode in which it delivers; one that asks for a mode when there is none.
 * @param maximumVoltage  of the pack, every cell at its highest [V]
 */
export function chargeVoltageChecks(car: Car, pack: Pack, maximumVoltage: number): readonly Check[] {
  return [...car.parts.values()].flatMap((part): readonly Check[] => {
    const atRest = part.roles.feedsPack;
    if (!atRest || !isAcross(pack, part.names.of(atRest.positive), part.names.of(atRest.negative))) return [];
    const common = { code: 'pack.charge-voltage', about: [part.name], sense: 'at_most', quantity: 'voltage' } as const;
    const checks = [...car.modes.values()].flatMap(({ name: mode, set }): readonly Check[] => {
      const feeds = rolesIn(car, part, mode).feedsPack;
      if (!feeds?.isOn) return [];
      const isSet = set[part.name]?.['voltage'] !== undefined;
      return [{
        ...common, variant: mode, path: isSet ? `modes.${mode}.set.${part.name}.voltage` : `modes.${mode}.set.${part.name}`, value: feeds.voltage, limit: maximumVoltage,
        details: { set_by: isSet ? 'as the mode sets it' : 'its highest, since the mode sets no `voltage`' },
      }];
    });
    return checks.length > 0 ? checks : [{ ...common, needs: ['modes'] }];
  });
}

/** Its poles lie on the two ends of the pack, contacts closed. */
function isAcross(pack: Pack, positive: string, negative: string): boolean {
  return pack.holds(positive) === 'positive' && pack.holds(negative) === 'negative';
}
