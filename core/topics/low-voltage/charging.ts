/**
 * What the low-voltage battery is charged with, against what its chemistry takes.
 */
import type { Car } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import { known, overModes } from './check-over-modes.ts';
import type { ModePoints } from './mode-points.ts';
import { voltageAcross } from './mode-points.ts';

/** A battery that takes less than this share of its capacity an hour is not being charged [1/s]; our choice. */
const NOTHING_FLOWS = 1e-4 / 3600;

/** Two checks a battery that some mode charges: not too much in any mode, and enough in one that may last. */
export function checkCharging(car: Car, modes: ModePoints): readonly Check[] {
  return [...car.parts.values()].flatMap(({ name, roles: { lowVoltageBattery: battery } }): readonly Check[] => {
    if (!battery?.charge) return [];
    const { least, most, chemistry } = battery.charge;
    let highest: { mode: string; voltage: number } | undefined;
    let lasting: { mode: string; voltage: number } | undefined;
    for (const { mode, solved, lasts } of modes.points) {
      // a source's current is positive into its positive end
      const voltage = solved.currentOf(`${name}.${battery.element}`) > NOTHING_FLOWS * battery.capacity ? voltageAcross(solved, `${name}.${battery.positive}`, `${name}.${battery.negative}`) : undefined;
      if (voltage === undefined) continue;
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
