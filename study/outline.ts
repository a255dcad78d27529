/** What there is in the build, for lists, pickers and completion. */
import type { Analysis } from '../core/analyse.ts';
import { failuresOf } from '../core/part/kind.ts';
import { quantities } from '../core/quantity/quantity-table.ts';
import type { QuantityName } from '../core/quantity/quantity-table.ts';
import { levelsBySubject } from '../sheets/levels.ts';
import type { Level } from '../core/findings/finding.ts';

export interface Outline {
  readonly parts: readonly { readonly name: string; readonly kind: string; readonly title: string; readonly family: 'high_voltage' | 'low_voltage' | 'mechanical'; readonly level: Level | undefined; readonly ports: readonly { readonly name: string; readonly point: string; readonly carries: 'high_voltage' | 'low_voltage' | 'signal'; readonly free: number }[] }[];
  readonly runs: readonly { readonly name: string; readonly from: string; readonly to: string; readonly kind: string; readonly stock: string | undefined; readonly level: Level | undefined }[];
  readonly stock: readonly { readonly name: string; readonly kind: string }[];
  readonly cells: readonly string[];
  readonly removed: readonly string[];
  /** settings of each mode in words, for the state picker */
  readonly modes: readonly { readonly name: string; readonly meaning: string | undefined }[];
  /** every point that a probe can touch */
  readonly points: readonly string[];
  /** what a state may say of the parts: `INV.draw` (settings), `K1.welded` (failures) */
  readonly settings: readonly string[]; readonly failures: readonly string[];
  /** quantities of the file's numbers and of the findings, for the choice of units */
  readonly quantities: readonly QuantityName[];
}

export function outlineOf(analysis: Analysis): Outline {
  const { build, car, findings, ask } = analysis;
  const levels = levelsBySubject(findings);
  const taken = new Map<string, number>();
  for (const run of car.runs.values()) for (const end of [run.from, run.to]) taken.set(end, (taken.get(end) ?? 0) + 1);
  return {
    parts: [...car.parts.values()].map(({ name, kind, ports }) => ({
      name, kind: kind.kind, title: kind.title, family: kind.family, level: levels.get(name),
      ports: ports.map((port) => {
        const point = `${name}.${port.name}`;
        return { name: port.name, point, carries: port.carries, free: Math.max(0, port.holds - (taken.get(point) ?? 0)) };
      }),
    })),
    runs: [...build.runs.values()].map(({ name, from, to, kind, stock }) => ({ name, from: `${from.part}.${from.port}`, to: `${to.part}.${to.port}`, kind, stock, level: levels.get(name) })),
    stock: [...build.stock.values()].map(({ name, kind }) => ({ name, kind })),
    cells: [...build.cells.keys()],
    removed: [...build.removed.keys()],
    modes: [...build.modes.values()].map(({ name, meaning }) => ({ name, meaning })),
    points: [...ask.points],
    settings: [...car.parts.values()].flatMap(({ name, kind }) => Object.keys(kind.settings).map((setting) => `${name}.${setting}`)),
    failures: [...car.parts.values()].filter(({ missing }) => missing.length === 0).flatMap((part) => failuresOf(part.kind, part.now({})).map(({ code }) => `${part.name}.${code}`)),
    quantities: quantitiesIn(analysis),
  };
}

/** In the order of the table. */
function quantitiesIn({ build, checks }: Analysis): readonly QuantityName[] {
  const used = new Set<QuantityName>();
  for (const { quantity } of build.quantities.values()) used.add(quantity);
  for (const { quantity } of checks) if (quantity) used.add(quantity);
  return (Object.keys(quantities) as QuantityName[]).filter((name) => used.has(name));
}
