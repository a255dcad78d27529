/**
 * How strings make a pack: what lies between the same two nets is parallel, what follows each other is in series, again and
 * again until one source is left between two ends, or nothing more can be put together.
 */
import type { MetalGraph } from './metal-graph.ts';
import { betweenOf, joined } from './metal-graph.ts';
import { byNet, highestAndLowest } from './net-table.ts';
import type { Assembly, Pack, PackString } from './strings.ts';

export interface StringEdge { readonly string: PackString; /** nets of its negative and its positive end */ readonly from: string; readonly to: string }

interface Reduced { readonly assembly: Assembly; readonly from: string; readonly to: string; readonly negative: string; readonly positive: string }

/** Parallel strings become one, then series ones, until one is left between the ends. */
export function assemble(strings: readonly StringEdge[], potential: ReadonlyMap<string, number>, metal: MetalGraph, equipment: ReadonlyMap<string, string>): Omit<Pack, 'strings'> {
  let edges: Reduced[] = strings.filter(({ from, to }) => from !== to).map(({ string, from, to }) => ({ assembly: { form: 'string', string }, from, to, negative: string.negative, positive: string.positive }));
  const [top, bottom] = highestAndLowest(potential, edges.flatMap(({ from, to }) => [from, to]));
  for (let before = edges.length + 1; edges.length < before;) {
    before = edges.length;
    edges = mergeSeries(mergeParallel(edges, metal, equipment), new Set([top, bottom]), metal);
  }
  const only = edges.length === 1 && strings.every(({ from, to }) => from !== to) ? edges[0] : undefined;
  const nets = new Set(strings.flatMap(({ from, to, string }) => [from, to, ...string.modules.flatMap(({ positive, negative }) => [metal.netOf(positive), metal.netOf(negative)])]));
  return {
    assembly: only?.assembly, positive: only?.positive, negative: only?.negative,
    holds: (node) => {
      const net = metal.netOf(node);
      if (!nets.has(net)) return undefined;
      return net === (only?.to ?? top) ? 'positive' : net === (only?.from ?? bottom) ? 'negative' : 'between';
    },
  };
}

function mergeParallel(edges: readonly Reduced[], metal: MetalGraph, equipment: ReadonlyMap<string, string>): Reduced[] {
  const byEnds = new Map<string, Reduced[]>();
  for (const edge of edges) {
    const key = [edge.from, edge.to].sort().join(' ');
    const list = byEnds.get(key);
    if (list) list.push(edge);
    else byEnds.set(key, [edge]);
  }
  return [...byEnds.values()].map((members) => {
    const first = members[0]!;
    if (members.length === 1) return first;
    const placed = members.map((edge) => {
      const isOpposed = edge.from !== first.from;
      return { edge, isOpposed, low: isOpposed ? edge.positive : edge.negative, high: isOpposed ? edge.negative : edge.positive };
    });
    const others = edges.filter((edge) => !members.includes(edge));
    const outward = (net: string): string | undefined => others.flatMap((edge) => (edge.from === net ? [edge.negative] : edge.to === net ? [edge.positive] : []))[0] ?? equipment.get(net);
    const low = meetingPoint(placed.map((member) => member.low), outward(first.from), metal);
    const high = meetingPoint(placed.map((member) => member.high), outward(first.to), metal);
    return {
      from: first.from, to: first.to, negative: low, positive: high,
      assembly: {
        form: 'parallel', positive: high, negative: low,
        members: placed.map(({ edge, isOpposed, low: start, high: end }) => ({ assembly: edge.assembly, isOpposed, lead: joined(betweenOf(metal, low, start), betweenOf(metal, end, high)) })),
      },
    };
  });
}

/** First point that the ways of all strings towards `outward` have in common. */
function meetingPoint(terminals: readonly string[], outward: string | undefined, metal: MetalGraph): string {
  const target = outward ?? terminals[0]!;
  const ways = terminals.map((node) => metal.path(node, target)?.nodes ?? [node]);
  return ways[0]!.find((node) => ways.every((way) => way.includes(node))) ?? target;
}

function mergeSeries(edges: readonly Reduced[], ends: ReadonlySet<string | undefined>, metal: MetalGraph): Reduced[] {
  let list = [...edges];
  for (;;) {
    const at = byNet(list, ({ from, to }) => [from, to]);
    const middle = [...at].find(([net, touching]) => touching.length === 2 && !ends.has(net) && touching[0] !== touching[1]);
    if (!middle) return list;
    const [net, [first, second]] = [middle[0], middle[1] as readonly [Reduced, Reduced]];
    // the one that rises into the net comes first; when both do, or none, the second is against the first
    const [lower, upper] = first.to === net ? [first, second] : second.to === net ? [second, first] : [first, second];
    const lowerTurned = lower.to !== net;
    const upperTurned = upper.from !== net;
    const member = (edge: Reduced, isOpposed: boolean): { assembly: Assembly; isOpposed: boolean }[] => (edge.assembly.form === 'series' && !isOpposed ? [...edge.assembly.members] : [{ assembly: edge.assembly, isOpposed }]);
    const between = joined(...[lower, upper].flatMap(({ assembly }) => (assembly.form === 'series' ? [assembly.joints] : [])), betweenOf(metal, lowerTurned ? lower.negative : lower.positive, upperTurned ? upper.positive : upper.negative));
    const merged: Reduced = {
      from: lowerTurned ? lower.to : lower.from, to: upperTurned ? upper.from : upper.to,
      negative: lowerTurned ? lower.positive : lower.negative, positive: upperTurned ? upper.negative : upper.positive,
      assembly: { form: 'series', members: [...member(lower, lowerTurned), ...member(upper, upperTurned)], joints: between },
    };
    list = [...list.filter((edge) => edge !== first && edge !== second), merged];
    if (merged.from === merged.to) return list;
  }
}
