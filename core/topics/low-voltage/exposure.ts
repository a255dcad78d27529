/**
 * What each fed run is exposed to: the largest current that a source could drive through it for good before something opens.
 *
 * Joining all fed points that no fuse separates gives zones; fuses lead from zone to zone. The widest way from a source to a
 * zone, where a way is as wide as its smallest fuse, says which fuse has to protect the runs of that zone. Fuses side by side
 * between the same two zones add up. A DC-DC limits its own current; a battery does not.
 *
 * Source: widest-path problem, closed form; adding of parallel fuses is the cautious reading of [iec-60364-4-43] clause 433.4 (from memory)
 */
import type { SourceEnds } from './mode-points.ts';
import type { LowVoltageFuse, Metal, MetalEdge } from './metal.ts';

export interface Exposure {
  readonly source: SourceEnds;
  /** fuses side by side that have to open; empty: no fuse on the way */
  readonly fuses: readonly LowVoltageFuse[];
  /** sum of their ratings, or the source's own limit when that is smaller [A]; Infinity for a battery without a fuse on the way */
  readonly current: number;
}

/** For an edge of the feed side: what each source that reaches it exposes it to. */
export function exposures(metal: Metal): (edge: MetalEdge) => readonly Exposure[] {
  const zoneOf = zonesWithoutFuses(metal.feedEdges);
  const gates = gatesBetween(metal.feedEdges, zoneOf);
  const bySource = metal.sources.map(({ source, feed }) => ({ source, feed, widest: widestWays(zoneOf(source.positive), gates) }));
  return (edge) => bySource.flatMap(({ source, feed, widest }): Exposure[] => {
    if (feed.resistance(edge.a) === undefined || feed.resistance(edge.b) === undefined) return [];
    const way = widest.get(zoneOf(edge.a));
    if (!way) return [];
    return [{ source, fuses: way.gate?.fuses ?? [], current: Math.min(way.width, source.currentLimit ?? Infinity) }];
  });
}

interface Gate { readonly zones: readonly [string, string]; readonly fuses: LowVoltageFuse[]; width: number }

/** Zone of a node: the name of one of its points. */
function zonesWithoutFuses(edges: readonly MetalEdge[]): (node: string) => string {
  const parent = new Map<string, string>();
  const zoneOf = (node: string): string => {
    let root = node;
    for (let up = parent.get(root); up !== undefined; up = parent.get(root)) root = up;
    if (root !== node) parent.set(node, root);
    return root;
  };
  for (const { a, b, fuse } of edges) {
    if (fuse) continue;
    const [zoneA, zoneB] = [zoneOf(a), zoneOf(b)];
    if (zoneA !== zoneB) parent.set(zoneA, zoneB);
  }
  return zoneOf;
}

function gatesBetween(edges: readonly MetalEdge[], zoneOf: (node: string) => string): readonly Gate[] {
  const gates = new Map<string, Gate>();
  for (const { a, b, fuse } of edges) {
    if (!fuse) continue;
    const [low, high] = [zoneOf(a), zoneOf(b)].sort() as [string, string];
    if (low === high) continue;
    const key = `${low} ${high}`;
    const gate = gates.get(key) ?? { zones: [low, high], fuses: [], width: 0 };
    gate.fuses.push(fuse);
    gate.width += fuse.role.rating;
    gates.set(key, gate);
  }
  return [...gates.values()];
}

interface Way { readonly width: number; readonly gate: Gate | undefined }

/** Widest first: the way of the widest open zone can no longer be bettered. */
function widestWays(start: string, gates: readonly Gate[]): ReadonlyMap<string, Way> {
  const at = new Map<string, Gate[]>();
  for (const gate of gates) for (const zone of gate.zones) at.set(zone, [...(at.get(zone) ?? []), gate]);
  const ways = new Map<string, Way>([[start, { width: Infinity, gate: undefined }]]);
  const open = new Set([start]);
  while (open.size > 0) {
    let zone = '';
    for (const candidate of open) if (zone === '' || ways.get(candidate)!.width > ways.get(zone)!.width) zone = candidate;
    open.delete(zone);
    const way = ways.get(zone)!;
    for (const gate of at.get(zone) ?? []) {
      const to = gate.zones[0] === zone ? gate.zones[1] : gate.zones[0];
      const width = Math.min(way.width, gate.width);
      if (width <= (ways.get(to)?.width ?? 0)) continue;
      ways.set(to, { width, gate: gate.width <= way.width ? gate : way.gate });
      open.add(to);
    }
  }
  return ways;
}
