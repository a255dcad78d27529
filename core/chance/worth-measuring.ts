/**
 * The one measurement that would settle most of the build: for each value, the doubt it explains over all unsettled findings,
 * a `stop` weighing more than a `fix`.
 */
import type { Quantity } from '../quantity/quantity.ts';
import type { Finding, SettledBy } from '../findings/finding.ts';
import { codeTable } from '../findings/code-table.ts';

export interface WorthMeasuring {
  readonly path: string;
  readonly quantity: Quantity;
  /** sum over findings of weight × doubt × share [1] */
  readonly worth: number;
  /** the narrowest half-width that one of its findings asks for [SI]; undefined when it only helps together with others */
  readonly precision: number | undefined;
  /** findings that it bears on, worst first */
  readonly settles: readonly { readonly code: string; readonly about: readonly string[]; readonly share: number }[];
}

/** Common practice, no source: how much a doubt about each level matters. */
const weights = { stop: 4, fix: 2, watch: 1 } as const;

/** Best first. Empty when nothing is in doubt or nothing was sampled. */
export function worthMeasuring(findings: readonly Finding[], quantities: ReadonlyMap<string, Quantity>): WorthMeasuring[] {
  const byPath = new Map<string, { worth: number; precision: number | undefined; settles: { code: string; about: readonly string[]; share: number }[] }>();
  for (const finding of findings) {
    if (finding.chance === undefined) continue;
    const row = codeTable.get(finding.code);
    const weight = row ? weights[row.whenBroken] : 1;
    const doubt = 4 * finding.chance * (1 - finding.chance);
    for (const settled of finding.settledBy) add(byPath, settled, weight * doubt * settled.share, finding);
  }
  const ranked: WorthMeasuring[] = [];
  for (const [path, entry] of byPath) {
    const quantity = quantities.get(path);
    if (quantity) ranked.push({ path, quantity, ...entry, settles: entry.settles.sort((a, b) => b.share - a.share) });
  }
  return ranked.sort((a, b) => b.worth - a.worth || (a.path < b.path ? -1 : 1));
}

function add(byPath: Map<string, { worth: number; precision: number | undefined; settles: { code: string; about: readonly string[]; share: number }[] }>, settled: SettledBy, worth: number, finding: Finding): void {
  const entry = byPath.get(settled.path) ?? { worth: 0, precision: undefined, settles: [] };
  entry.worth += worth;
  if (settled.precision !== undefined) entry.precision = Math.min(entry.precision ?? Infinity, settled.precision);
  entry.settles.push({ code: finding.code, about: finding.about, share: settled.share });
  byPath.set(settled.path, entry);
}
