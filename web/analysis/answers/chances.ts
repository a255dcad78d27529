/** Margins of the draws made so far -> findings with their chances, and what is most worth measuring. */
import { handbookUsers } from '../../../core/build/handbook-users.ts';
import { doubtsOf } from '../../../core/chance/doubts.ts';
import { drawTable } from '../../../core/chance/draw-table.ts';
import type { Margins } from '../../../core/chance/sample-margins.ts';
import { worthMeasuring } from '../../../core/chance/worth-measuring.ts';
import { checkKey, judge, marginOf } from '../../../core/findings/judge.ts';
import { nextThing } from '../../../core/findings/next-thing.ts';
import { printQuantity } from '../../../core/quantity/print-quantity.ts';
import type { Analysis } from '../../../core/analyse.ts';
import { countLevels } from '../../../sheets/levels.ts';
import { findingRow } from '../../../study/finding-row.ts';
import type { Chances } from '../protocol.ts';

const MOST_NAMED = 5;

/**
 * @param margins  of the first `made` draws of a table of `draws`
 */
export function chancesOf({ build, checks }: Analysis, margins: Margins, sample: { readonly made: number; readonly draws: number; readonly seed: number }): Chances {
  const { made, draws, seed } = sample;
  const table = { ...drawTable([...build.quantities.values()], draws, seed, 0, made), count: made };
  const nominalMargins = new Map<string, number>();
  for (const check of checks) {
    const margin = marginOf(check);
    if (margin !== undefined) nominalMargins.set(checkKey(check), margin);
  }
  const doubts = doubtsOf(margins, nominalMargins, table, build.quantities);
  const findings = judge(checks, { places: build.places, units: build.units, doubts });
  const worth = worthMeasuring(findings, build.quantities);
  const total = worth.reduce((sum, each) => sum + each.worth, 0);
  const next = nextThing(findings, worth, (path) => inFile(build, path));
  return {
    draws: made, counts: countLevels(findings),
    open: findings.filter(({ level }) => level !== 'holds').map(findingRow),
    next: { do: next.do, path: next.path === undefined ? undefined : inFile(build, next.path), about: next.about },
    worthMeasuring: worth.slice(0, MOST_NAMED).map(({ path, quantity, worth: share }) => ({ path: inFile(build, path), share: total > 0 ? share / total : 0, says: `${inFile(build, path)}, now ${printQuantity(quantity)}` })),
  };
}

/** Where the builder would write a value that the handbook gives now. */
function inFile(build: Analysis['build'], path: string): string {
  return path.startsWith('handbook:') ? handbookUsers(build, path)[0] ?? path : path;
}
