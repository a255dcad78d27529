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
  const zoneOf = zonesWithoutFuses(metal);
  const gates = gatesBetween(metal.feedEdges, zoneOf);
  const bySource = metal.sources.map(({ source, start, feed }) => ({ source, feed, widest: widestWays(zoneOf(start), gates) }));
  return (edge) => bySource.flatMap(({ source, feed, widest }): Exposure[] => {
    const [a, b] = edge.nodes;
    if (!feed.reaches(a) || !feed.reaches(b)) return [];
    const way = widest.get(zoneOf(a));
    if (!way) return [];
    return [{ source, fuses: way.gate?.fuses ?? [], current: Math.min(way.width, source.currentLimit ?? Infinity) }];
  });
}

interface Gate { readonly zones: readonly [number, number]; readonly fuses: LowVoltageFuse[]; width: number }

/** Zone of a point: the number of one of its points. */
function zonesWithoutFuses({ feedEdges, nodeCount }: Metal): (node: number) => number {
  const parent = Int32Array.from({ length: nodeCount }, (_, node) => node);
  const zoneOf = (node: number): number => {
    let root = node;
    while (parent[root] !== root) root = parent[root]!;
    parent[node] = root;
    return root;
  };
  for (const { nodes: [a, b], fuse } of feedEdges) if (!fuse) parent[zoneOf(a)] = zoneOf(b);
  return zoneOf;
}

function gatesBetween(edges: readonly MetalEdge[], zoneOf: (node: number) => number): readonly Gate[] {
  const gates = new Map<string, Gate>();
  for (const { nodes: [a, b], fuse } of edges) {
    if (!fuse) continue;
    const [low, high] = [Math.min(zoneOf(a), zoneOf(b)), Math.max(zoneOf(a), zoneOf(b))];
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
function widestWays(start: number, gates: readonly Gate[]): ReadonlyMap<number, Way> {
  const at = new Map<number, Gate[]>();
  for (const gate of gates) {
    for (const zone of gate.zones) {
      const list = at.get(zone);
      if (list) list.push(gate);
      else at.set(zone, [gate]);
    }
  }
  const ways = new Map<number, Way>([[start, { width: Infinity, gate: undefined }]]);
  const open = new Set([start]);
  while (open.size > 0) {
    let zone = -1;
    for (const candidate of open) if (zone < 0 || ways.get(candidate)!.width > ways.get(zone)!.width) zone = candidate;
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
