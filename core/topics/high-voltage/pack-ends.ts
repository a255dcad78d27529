/**
 * Where the battery begins and ends: cells in series joined by metal, with every fuse whole and every contact closed.
 */
import type { Car, CarPart } from '../../car/car.ts';
import { metalOf, unionFind } from '../../car/metal-graph.ts';
import { remembered } from '../../car/remembered.ts';
import { stringsOf } from '../../car/strings.ts';

export interface PackEnds {
  /** terminals of the end modules (`Part.port`) */
  readonly positive: string;
  readonly negative: string;
  /** names of the parts with cells in it, in the order of the file */
  readonly modules: readonly string[];
  /** highest voltage between the ends: every cell at its highest voltage in service, every module the right way round [V] */
  readonly maximumVoltage: number;
  /** false when it has more than two ends: modules not yet joined, or a string that is interrupted */
  readonly isOneString: boolean;
}

export interface Packs {
  /** highest voltage first */
  readonly packs: readonly PackEnds[];
  /** paths of values without which some cells could not be counted; what rests on the pack's voltage is then unknown */
  readonly missing: readonly string[];
}

/**
 * The packs of a car: groups of cells that metal joins when every contact is closed. Remembered for the life of the car.
 *
 * @returns none when the car has no cells
 * Range:   contacts that would put one pack in series and in parallel with itself (switch-over packs) are all taken as closed,
 *          so such a pack counts as parallel
 */
export const packsOf: (car: Car) => Packs = remembered((car: Car) => findPacks(car));

function findPacks(car: Car): Packs {
  const parts = [...car.parts.values()];
  const missing = [...new Set(parts.filter(namesCells).flatMap((part) => part.missing))];
  const modules = parts.filter((part) => part.roles.cells !== undefined);
  if (modules.length === 0) return { packs: [], missing };
  const net = metalOf(car).netOf;
  const reversed = reversedModules(car);
  const edges = modules.map((part) => {
    const cells = part.roles.cells!;
    const terminals = [part.names.of(cells.negative), part.names.of(cells.positive)] as const;
    const [negative, positive] = reversed.has(part.name) ? [terminals[1], terminals[0]] : terminals;
    return { part, positive, negative, from: net(negative), to: net(positive), voltage: cells.series * (part.cell?.maximumVoltage ?? 0) };
  });
  const group = unionFind();
  for (const edge of edges) group.join(edge.from, edge.to);
  const groups = new Map<string, typeof edges>();
  for (const edge of edges) groups.set(group.find(edge.from), [...(groups.get(group.find(edge.from)) ?? []), edge]);
  const packs = [...groups.values()].map((members): PackEnds => {
    const height = heights(members);
    const isTop = (edge: (typeof edges)[number]): boolean => !members.some((other) => other.from === edge.to);
    const isBottom = (edge: (typeof edges)[number]): boolean => !members.some((other) => other.to === edge.from);
    const tops = members.filter(isTop);
    const bottoms = members.filter(isBottom);
    const top = tops.reduce((best, edge) => (height(edge.to) > height(best.to) ? edge : best), tops[0] ?? members[0]!);
    const bottom = bottoms.reduce((best, edge) => (height(edge.from) < height(best.from) ? edge : best), bottoms[0] ?? members[0]!);
    return {
      positive: top.positive, negative: bottom.negative, modules: members.map(({ part }) => part.name),
      maximumVoltage: height(top.to) - height(bottom.from),
      isOneString: new Set(tops.map(({ to }) => to)).size === 1 && new Set(bottoms.map(({ from }) => from)).size === 1,
    };
  });
  return { packs: packs.sort((a, b) => b.maximumVoltage - a.maximumVoltage), missing };
}

/**
 * Modules the wrong way round in their string. They are counted the right way round: class and ratings are judged for the pack that
 * it will be when the mistake is put right, which is the higher voltage. That they are reversed is a finding of the pack's own subject.
 */
function reversedModules(car: Car): ReadonlySet<string> {
  return new Set(stringsOf(car).packs.flatMap(({ strings }) => strings.flatMap(({ modules }) => modules.filter(({ isReversed }) => isReversed).map(({ part }) => part.name))));
}

/** A part that is made of cells, whether or not its data is complete. */
function namesCells(part: CarPart): boolean {
  return Object.values(part.kind.fields).some((field) => field.type === 'name' && field.of === 'cells');
}

/** Potential of each net above the lowest, along the way with most cells. A loop of cells (a shorted pack) stops after as many rounds as there are modules. */
function heights(edges: readonly { readonly from: string; readonly to: string; readonly voltage: number }[]): (net: string) => number {
  const height = new Map<string, number>();
  const at = (net: string): number => height.get(net) ?? 0;
  for (let round = 0, changed = true; changed && round < edges.length; round++) {
    changed = false;
    for (const { from, to, voltage } of edges) {
      if (at(from) + voltage > at(to) && from !== to) {
        height.set(to, at(from) + voltage);
        changed = true;
      }
    }
  }
  return at;
}
