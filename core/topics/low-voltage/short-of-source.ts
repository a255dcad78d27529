/**
 * What a battery drives into a short: open voltage and inner resistance, from two solves of the one network without DC-DCs and loads.
 */
import type { Network } from '../../car/ask.ts';
import type { SourceEnds } from './mode-points.ts';
import { voltageAcross } from './mode-points.ts';

/** Laid across the posts for the second solve: near the inner resistance of a starter battery, where both numbers come out sharp [ohm]. */
const BRIDGE = 5e-3;

export interface ShortSource { /** [V] */ readonly voltage: number; /** [ohm] */ readonly resistance: number }

/**
 * By the positive end of each battery. What limits its own current (a DC-DC) is left out.
 * A battery is missing when a solve failed, or when it shows no voltage.
 */
export function shortsOf(ask: Network, sources: readonly SourceEnds[]): ReadonlyMap<string, ShortSource> {
  const shorts = new Map<string, ShortSource>();
  for (const { positive, negative, currentLimit } of sources) {
    if (currentLimit !== undefined) continue;
    const open = ask.solve({ withoutLoads: true });
    const bridged = ask.solve({ withoutLoads: true, bridges: [{ a: positive, b: negative, resistance: BRIDGE }] });
    if (open.outcome !== 'solved' || bridged.outcome !== 'solved') continue;
    const voltage = voltageAcross(open, positive, negative);
    const across = voltageAcross(bridged, positive, negative);
    if (voltage === undefined || across === undefined || !(across > 0 && across < voltage)) continue;
    shorts.set(positive, { voltage, resistance: ((voltage - across) * BRIDGE) / across });
  }
  return shorts;
}
