/**
 * What rushes through contacts and fuses when a main contactor closes onto a DC link that is not quite full.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import { extremeStates } from '../../car/extreme-states.ts';
import { highVoltageRuns } from '../../car/high-voltage-runs.ts';
import { remembered } from '../../car/remembered.ts';
import { inrush } from '../../physics/inrush.ts';
import { runInductance } from '../../physics/loop-inductance.ts';
import { CARRIES_SHARE } from './fault-currents.ts';
import type { Link } from './link-transitions.ts';

export interface LinkLoop {
  /** of pack, wiring and contacts with a full warm pack [ohm] */
  readonly resistance: number;
  /** of the runs of the loop [H]; runs of unknown length are missing, which errs to the high side of the current */
  readonly inductance: number;
  /** share of the link's current in a run or element [1], >= 0 */
  readonly shareOf: (id: string) => number;
}

export interface LinkInrush {
  /** [A] */ readonly peak: number;
  /** [s] after closing */ readonly peakTime: number;
  /** [A2.s] */ readonly heating: number;
  /** [J] */ readonly energy: number;
}

/** Same resistance as the bolted shorts of `fault-currents.ts`, so that the network answers from memory [ohm]. */
const BOLTED = 1e-4;

/**
 * The loop from the pack through a link, from the current of a bolted short at the link.
 *
 * @param voltage  every cell of the pack at its highest in service [V]; the short is solved at full charge, a little lower
 * @returns undefined when that mode lets next to no current reach the link, or it could not be solved
 */
export function linkLoop(car: Car, ask: Network, mode: string, link: Link, voltage: number): LinkLoop | undefined {
  const solved = ask.solve({ mode, withoutLoads: true, bridges: [{ a: link.positive, b: link.negative, resistance: BOLTED }], ...extremeStates.high });
  if (solved.outcome !== 'solved') return undefined;
  const current = Math.abs(solved.currentOf('bridge 1'));
  if (!(current > 1)) return undefined;
  const shareOf = (id: string): number => Math.abs(solved.currentOf(id)) / current;
  let inductance = 0;
  for (const run of highVoltageRuns(car)) {
    if (run.length === undefined) continue;
    const share = shareOf(run.name);
    if (share >= CARRIES_SHARE) inductance += runInductance(run.length, 'low') * share * share;
  }
  return { resistance: Math.max((voltage * fullShare(car)) / current - BOLTED, 1e-6), inductance, shareOf };
}

/** @param difference  pack less link when the contact closes [V], either sign */
export function linkInrush(loop: LinkLoop, capacitance: number, difference: number): LinkInrush {
  const { peak, peakTime, heating, energy } = inrush({ difference, resistance: loop.resistance, inductance: loop.inductance, capacitance });
  return { peak, peakTime, heating, energy };
}

/** Open voltage of full cells as a share of their highest voltage in service [1]. */
const fullShare = remembered((car: Car): number => {
  let [full, highest] = [0, 0];
  for (const { roles: { cells }, cell } of car.parts.values()) {
    const now = cells && car.cells.get(cells.cell)?.at({ ...car.conditions, ...extremeStates.high });
    if (!cells || !now || !cell) continue;
    full += cells.series * now.voltage;
    highest += cells.series * cell.maximumVoltage;
  }
  return highest > 0 ? full / highest : 1;
});
