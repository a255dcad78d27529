/** A check whose value is the worst over all modes says nothing good when a mode could not be computed. */
import type { Check } from '../../findings/finding.ts';
import type { ModePoints } from './mode-points.ts';
import { AT_REST } from './mode-points.ts';

/** The check as it is when it is broken, or when every mode was computed; otherwise unknown, naming the modes. */
export function overModes(check: Check, { failed }: Pick<ModePoints, 'failed'>): Check {
  if (failed.length === 0 || isBroken(check)) return check;
  const { value: _, ...rest } = check;
  return { ...rest, needs: [...(check.needs ?? []), ...failed.map(({ mode }) => (mode === AT_REST ? 'modes' : `modes.${mode}`))] };
}

function isBroken({ value, limit, sense, needs }: Check): boolean {
  if (value === undefined || limit === undefined || (needs?.length ?? 0) > 0) return false;
  return sense === 'at_most' ? value > limit : value < limit;
}

/** Value and limit where they are known, and what is missing. */
export function known(value: number | undefined, limit: number | undefined, needs: readonly string[] = []): Pick<Check, 'value' | 'limit' | 'needs'> {
  return { value, limit, needs: needs.length > 0 ? needs : undefined };
}
