/**
 * The mains side of the car: runs that metal joins to the alternating pins of an inlet or a charger, and the voltage on them.
 *
 * Not through the inlet or the charger themselves: inside they tie neutral to earth and mains to battery in ways of their own.
 */
import type { Car } from './car.ts';
import { metalOf, ownerOf } from './metal-graph.ts';
import { remembered } from './remembered.ts';
import { rolesIn } from './roles-in.ts';

export interface MainsSide {
  /** points at mains voltage (`Part.port`, or inside a part) */
  readonly nodes: ReadonlySet<string>;
  /** rms voltage between two conductors that lie side by side, by run [V]: line to neutral of one phase, line to line of more */
  readonly runs: ReadonlyMap<string, number>;
  /** highest rms voltage of the side [V]; 0 when the car has none */
  readonly voltage: number;
}

/** Station behind an inlet that no mode plugs in, or a charger without an inlet [V]; line to neutral (IEC 60038). */
const USUAL_VOLTAGE = 230;

/** Remembered for the life of the car. */
export const mainsSide: (car: Car) => MainsSide = remembered((car: Car) => findSide(car));

/** Runs on the mains side and the rms voltage that their insulation has to stand [V]. */
export function mainsRuns(car: Car): ReadonlyMap<string, number> {
  return mainsSide(car).runs;
}

function findSide(car: Car): MainsSide {
  const parts = [...car.parts.values()].filter(({ roles }) => roles.mains !== undefined);
  if (parts.length === 0) return { nodes: new Set(), runs: new Map(), voltage: 0 };
  const owners = new Set(parts.map(({ name }) => name));
  const { linksAt } = metalOf(car);
  const nodes = new Set(parts.flatMap(({ names, roles }) => [...roles.mains!.lines, roles.mains!.neutral].map((pin) => names.of(pin))));
  // a set may grow while it is walked
  for (const node of nodes) for (const { id, a, b } of linksAt(node)) if (!owners.has(ownerOf(id))) nodes.add(a === node ? b : a);
  const voltage = highestVoltage(car);
  return { nodes, voltage, runs: new Map([...car.runs.values()].filter(({ from, to }) => nodes.has(from) || nodes.has(to)).map(({ name }) => [name, voltage])) };
}

function highestVoltage(car: Car): number {
  let highest: number | undefined;
  let phases = 1;
  for (const part of car.parts.values()) {
    if (part.roles.mains) phases = Math.max(phases, part.roles.mains.lines.length);
    if (!part.roles.mains?.inlet) continue;
    for (const mode of car.modes.keys()) {
      const inlet = rolesIn(car, part, mode).mains?.inlet;
      if (inlet?.isPlugged) highest = Math.max(highest ?? 0, inlet.voltage);
    }
  }
  return (highest ?? USUAL_VOLTAGE) * (phases > 1 ? Math.sqrt(3) : 1);
}
