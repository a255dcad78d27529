/**
 * Leads that no short across a part or the pack flows through: to a precharge resistor, a measuring wire, a tap with nothing
 * behind it. A short at their far end against the other pole heats them all the same.
 */
import type { Car, CarRun } from '../../car/car.ts';
import type { FaultPoint } from './fault-points.ts';
import { CARRIES_SHARE } from './fuse-in-fault.ts';
import type { MetalPaths } from './metal-paths.ts';
import type { Groups } from './point-groups.ts';
import type { PackEnds } from './pack-ends.ts';

type Fault = FaultPoint & { /** [A] */ readonly current: number; readonly currentOf: (id: string) => number };

/** A lead, the end at which the short lies, and what it meets there. */
export interface DeadEnd { readonly run: string; readonly end: string; readonly against: string }

/**
 * @param faults  those computed already: where both poles come together
 */
export function deadEnds(car: Car, paths: MetalPaths, packs: readonly PackEnds[], faults: readonly Fault[]): readonly DeadEnd[] {
  const { leads, nets } = leadsOf(car, paths);
  return leads.flatMap(({ run, end }): DeadEnd[] => {
    if (faults.some(({ currentOf, current }) => Math.abs(currentOf(run)) >= CARRIES_SHARE * current)) return [];
    const against = otherPole(end, nets, packs, faults);
    return against === undefined ? [] : [{ run, end, against }];
  });
}

/** The end where fewer runs meet. */
const farEnd = ({ from, to }: CarRun, runsAt: ReadonlyMap<string, number>): string => ((runsAt.get(from) ?? 0) < (runsAt.get(to) ?? 0) ? from : to);

/** The other pole where the highest fault at equipment on this net was found, else an end of the pack that is not this net. */
function otherPole(end: string, nets: Groups, packs: readonly PackEnds[], faults: readonly Fault[]): string | undefined {
  let highest: { readonly current: number; readonly pole: string } | undefined;
  for (const { positive, negative, where, current } of faults) {
    const pole = where !== 'equipment' ? undefined : nets.same(positive, end) ? negative : nets.same(negative, end) ? positive : undefined;
    if (pole !== undefined && (!highest || current > highest.current)) highest = { current, pole };
  }
  return highest?.pole ?? packs.flatMap(({ positive, negative }) => [negative, positive]).find((pole) => !nets.same(pole, end));
}

interface Leads { readonly leads: readonly { readonly run: string; readonly end: string }[]; /** what metal joins with every contact closed and every fuse whole */ readonly nets: Groups }

const remembered = new WeakMap<object, Leads>();

/** Cables and wires on the pack; the same in all draws with the same metal. */
function leadsOf(car: Car, paths: MetalPaths): Leads {
  let known = remembered.get(paths.layout);
  if (known) return known;
  const onPack = new Set(paths.branches.map(({ id }) => id));
  const runsAt = new Map<string, number>();
  for (const { from, to } of car.runs.values()) for (const node of [from, to]) runsAt.set(node, (runsAt.get(node) ?? 0) + 1);
  const leads = [...car.runs.values()].filter((run) => onPack.has(run.name) && run.carries === 'high_voltage' && run.conductor?.shape.form === 'round');
  known = { leads: leads.map((run) => ({ run: run.name, end: farEnd(run, runsAt) })), nets: paths.groups(({ type }) => type !== 'cells') };
  remembered.set(paths.layout, known);
  return known;
}
