/**
 * What a battery drives into a short: open voltage and inner resistance, from two solves of the one network.
 */
import type { Network } from '../../car/ask.ts';
import type { ModePoints, SourceEnds } from './mode-points.ts';
import { voltageAcross } from './mode-points.ts';

/** Laid across the posts for the second solve: near the inner resistance of a starter battery, where both numbers come out sharp [ohm]. */
const BRIDGE = 5e-3;

export interface ShortSource { /** [V] */ readonly voltage: number; /** [ohm] */ readonly resistance: number }

/**
 * @returns undefined for a source that limits its own current, and when a solve failed or shows no voltage
 */
export function shortOf(ask: Network, source: SourceEnds, { rest }: ModePoints): ShortSource | undefined {
  if (source.currentLimit !== undefined || !rest) return undefined;
  const voltage = voltageAcross(rest.solved, source.positive, source.negative);
  const bridged = ask.solve({ withoutLoads: true, bridges: [{ a: source.positive, b: source.negative, resistance: BRIDGE }] });
  if (voltage === undefined || bridged.outcome !== 'solved') return undefined;
  const across = voltageAcross(bridged, source.positive, source.negative);
  if (across === undefined || !(across > 0 && across < voltage)) return undefined;
  return { voltage, resistance: ((voltage - across) * BRIDGE) / across };
}
