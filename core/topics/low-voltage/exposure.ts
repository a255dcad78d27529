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
import type { Gate, Layout } from './metal-layout.ts';

export interface Exposure {
  readonly source: SourceEnds;
  /** fuses side by side that have to open; empty: no fuse on the way */
  readonly fuses: readonly LowVoltageFuse[];
  /** sum of their ratings, or the source's own limit when that is smaller [A]; Infinity for a battery without a fuse on the way */
  readonly current: number;
}

/** For an edge of the feed side: what each source that reaches it exposes it to. */
export function exposures({ layout, edges, sources }: Metal): (edge: MetalEdge) => readonly Exposure[] {
  const { zoneOf } = layout;
  const bySource = sources.map(({ source, start, feed }) => ({ source, feed, widest: widestWays(zoneOf[start]!, layout, edges), byZone: new Map<number, Exposure>() }));
  return (edge) => {
    const found: Exposure[] = [];
    const [a, b] = edge.nodes;
    const zone = zoneOf[a]!;
    for (const { source, feed, widest, byZone } of bySource) {
      if (!feed.reaches(a) || !feed.reaches(b)) continue;
      let exposure = byZone.get(zone);
      if (!exposure) {
        const way = widest.get(zone);
        if (!way) continue;
        byZone.set(zone, (exposure = { source, fuses: (way.gate?.fuses ?? []).map((index) => edges[index]!.fuse!), current: Math.min(way.width, source.currentLimit ?? Infinity) }));
      }
      found.push(exposure);
    }
    return found;
  };
}

interface Way { readonly width: number; /** width of its narrowest gate, and that gate */ readonly gate: Gate | undefined }

/** Widest first: the way of the widest open zone can no longer be bettered. */
function widestWays(start: number, { gatesAt }: Layout, edges: readonly MetalEdge[]): ReadonlyMap<number, Way> {
  const ways = new Map<number, Way>([[start, { width: Infinity, gate: undefined }]]);
  const open = new Set([start]);
  while (open.size > 0) {
    let zone = -1;
    for (const candidate of open) if (zone < 0 || ways.get(candidate)!.width > ways.get(zone)!.width) zone = candidate;
    open.delete(zone);
    const way = ways.get(zone)!;
    for (const gate of gatesAt.get(zone) ?? []) {
      const to = gate.zones[0] === zone ? gate.zones[1] : gate.zones[0];
      const own = widthOf(gate, edges);
      const width = Math.min(way.width, own);
      if (width <= (ways.get(to)?.width ?? 0)) continue;
      ways.set(to, { width, gate: own <= way.width ? gate : way.gate });
      open.add(to);
    }
  }
  return ways;
}

/** Sum of the ratings [A]. */
const widthOf = ({ fuses }: Gate, edges: readonly MetalEdge[]): number => fuses.reduce((sum, index) => sum + edges[index]!.fuse!.role.rating, 0);
