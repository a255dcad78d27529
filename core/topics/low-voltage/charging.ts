/**
 * What the low-voltage battery is charged with, against what its chemistry takes.
 * A DC-DC at its current limit is taken at the voltage that it will hold when the battery has filled.
 */
import type { Car, CarPart } from '../../car/car.ts';
import { rolesIn } from '../../car/roles-in.ts';
import type { Check } from '../../findings/finding.ts';
import type { RestSolved } from '../../solve/rest-result.ts';
import { known, overModes } from './check-over-modes.ts';
import type { ModePoints } from './mode-points.ts';
import { voltageAcross } from './mode-points.ts';

/** Two checks a battery of a car with a DC-DC: not too much in any mode, and enough in one that may last. A battery at rest stays below both limits. */
export function checkCharging(car: Car, modes: ModePoints): readonly Check[] {
  const supplies = [...car.parts.values()].filter(({ roles }) => roles.lowVoltageSupply);
  if (supplies.length === 0) return [];
  return [...car.parts.values()].flatMap(({ name, names, roles: { lowVoltageBattery: battery } }): readonly Check[] => {
    if (!battery?.charge) return [];
    const { least, most, chemistry } = battery.charge;
    let highest: { mode: string; voltage: number } | undefined;
    let lasting: { mode: string; voltage: number } | undefined;
    for (const { mode, solved, lasts } of modes.points) {
      const posts = voltageAcross(solved, names.of(battery.positive), names.of(battery.negative));
      if (posts === undefined) continue;
      const voltage = Math.max(posts, ...supplies.map((supply) => goal(car, supply, mode, solved, names.of(battery.positive))));
      if (!highest || voltage > highest.voltage) highest = { mode, voltage };
      if (lasts === undefined && (!lasting || voltage > lasting.voltage)) lasting = { mode, voltage };
    }
    if (!highest) return [];
    const common = { about: [name], quantity: 'voltage' } as const;
    return [
      overModes({ code: 'low-voltage.battery-charge-voltage', ...common, sense: 'at_most', value: highest.voltage, limit: most, details: { mode: highest.mode, chemistry } }, modes),
      overModes({ code: 'low-voltage.battery-charge-enough', ...common, sense: 'at_least', ...known(lasting?.voltage, least, lasting ? [] : ['modes']), details: { mode: lasting?.mode ?? '-', chemistry } }, modes),
    ];
  });
}

/** What a DC-DC that is at its current limit now will bring the battery to in the end [V]; -Infinity when it is not at its limit or not joined. */
function goal(car: Car, supply: CarPart, mode: string, solved: RestSolved, positive: string): number {
  const role = rolesIn(car, supply, mode).lowVoltageSupply;
  if (!role || solved.stateOf(supply.names.of(role.element)) !== 'limiting') return -Infinity;
  const between = voltageAcross(solved, supply.names.of(role.positive), positive);
  return between !== undefined && Math.abs(between) < JOINED ? role.voltage : -Infinity;
}

/** Less is lost between a DC-DC and the battery that it charges [V]; our choice. */
const JOINED = 1;
