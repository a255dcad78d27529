/** What the modes ask of an element for a short time, and what a run loses: from the answers that the analysis has already. */
import type { Analysis } from '../../core/analyse.ts';
import { AT_REST } from '../../core/topics/low-voltage/mode-points.ts';
import { voltageBetween } from '../diagram/state-now.ts';

export interface ModeExtremes {
  /** largest current over the modes that may not last [A] */
  readonly shortTime: (element: string) => { readonly current: number; readonly mode: string } | undefined;
  /** voltage between two points in a mode [V], >= 0; undefined when nothing ties them together or the mode has no answer */
  readonly drop: (mode: string, from: string, to: string) => number | undefined;
}

export function modeExtremes({ car, ask }: Pick<Analysis, 'car' | 'ask'>): ModeExtremes {
  const short = [...car.modes.values()].flatMap(({ name, lasts }) => {
    const solved = lasts === undefined ? undefined : ask.solve({ mode: name });
    return solved?.outcome === 'solved' ? [{ mode: name, solved }] : [];
  });
  return {
    shortTime: (element) => {
      let most: { current: number; mode: string } | undefined;
      for (const { mode, solved } of short) {
        const current = Math.abs(solved.currentOf(element));
        if (most === undefined || current > most.current) most = { current, mode };
      }
      // less is rounding
      return most && most.current < 1e-6 ? { ...most, current: 0 } : most;
    },
    drop: (mode, from, to) => {
      const solved = ask.solve(mode === AT_REST ? {} : { mode });
      const across = solved.outcome === 'solved' ? voltageBetween(solved, from, to) : undefined;
      return across && Math.abs(across);
    },
  };
}
