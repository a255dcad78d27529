/**
 * The DC-DC against everything that runs at the same time.
 */
import type { Check } from '../../findings/finding.ts';
import { overModes } from './check-over-modes.ts';
import type { ModePoints, SourceEnds } from './mode-points.ts';

export interface SupplyMode {
  readonly mode: string;
  /** what all DC-DCs give together [A] */
  readonly supplied: number;
  /** what all batteries give together [A]; negative when they are charged */
  readonly fromBattery: number;
  readonly bus: number;
  /** some DC-DC runs */
  readonly isRunning: boolean;
  readonly lasts: number | undefined;
}

export interface SupplyResults { readonly modes: readonly SupplyMode[]; /** of all DC-DCs together [A] */ readonly limit: number }

/** @param unfinished  paths of values that parts lack which may be a battery or a DC-DC */
export function studySupply(modes: ModePoints, sources: readonly SourceEnds[], hasConsumers: boolean, unfinished: readonly string[] = []): { results: SupplyResults; checks: readonly Check[] } {
  const supplies = sources.filter(({ currentLimit }) => currentLimit !== undefined);
  const batteries = sources.filter(({ currentLimit }) => currentLimit === undefined);
  const results: SupplyResults = {
    limit: supplies.reduce((sum, { currentLimit }) => sum + (currentLimit ?? 0), 0),
    modes: modes.points.map(({ mode, solved, bus, lasts }): SupplyMode => ({
      mode, bus, lasts,
      supplied: supplies.reduce((sum, { element }) => sum + solved.currentOf(element), 0),
      // a source's current is positive into its positive end
      fromBattery: batteries.reduce((sum, { element }) => sum - solved.currentOf(element), 0),
      isRunning: supplies.some(({ element }) => ['regulating', 'limiting'].includes(solved.stateOf(element))),
    })),
  };
  if (!hasConsumers) return { results, checks: [] };
  const names = supplies.map(({ part }) => part);
  const present = { code: 'low-voltage.supply-present', about: names.length > 0 ? names : batteries.length > 0 ? batteries.map(({ part }) => part) : ['parts'], sense: 'is_true' } satisfies Check;
  const checks: Check[] = [names.length === 0 && unfinished.length > 0 ? { ...present, needs: unfinished } : { ...present, value: Math.min(1, names.length), limit: 1 }];
  if (names.length === 0) return { results, checks };
  const running = results.modes.filter(({ isRunning }) => isRunning);
  checks.push(overModes({ code: 'low-voltage.supply-runs', about: names, value: Math.min(1, running.length), limit: 1, sense: 'is_true' }, modes));
  const demandOf = ({ supplied, fromBattery }: SupplyMode): number => supplied + Math.max(0, fromBattery);
  let worst: SupplyMode | undefined;
  for (const point of running) if (point.lasts === undefined && (!worst || demandOf(point) > demandOf(worst))) worst = point;
  const capacity = { code: 'low-voltage.supply-capacity', about: names, sense: 'at_most', quantity: 'current' } satisfies Check;
  // that it runs in no mode is said above; then there is no sum to judge, but the check keeps its place from draw to draw
  checks.push(worst
    ? overModes({ ...capacity, value: demandOf(worst), limit: results.limit, details: { mode: worst.mode, bus: { value: worst.bus, quantity: 'voltage' } } }, modes)
    : { ...capacity, needs: ['modes'] });
  return { results, checks };
}
