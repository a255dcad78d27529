/**
 * Layered layout with ports and orthogonal lines, by elkjs. Pure seen from outside: the same graph gives the same drawing. What was laid out
 * is remembered by its structure, so that an edit of a number, which changes no size, costs nothing.
 */
import type { Graph, Placed, PlacedEdge, PlacedPoint } from './graph.ts';
import { loadElk } from './load-elk.ts';

/** Layouts kept; a build has some tens of blocks, and an undo should find the ones before. */
const KEPT = 300;
const kept = new Map<string, Promise<Placed>>();

export type Layouter = (graph: Graph) => Promise<Placed>;
let layouter: Layouter = layOutHere;

/** Has somebody else lay out what is not remembered: a page has a worker for it, so that findings do not wait seconds for a large diagram. */
export function layOutBy(other: Layouter): void { layouter = other; }

const options = {
  'elk.algorithm': 'layered', 'elk.direction': 'RIGHT', 'elk.edgeRouting': 'ORTHOGONAL', 'elk.randomSeed': '1',
  'elk.padding': '[top=0,left=0,bottom=0,right=0]',
  'elk.layered.nodePlacement.strategy': 'NETWORK_SIMPLEX', 'elk.layered.thoroughness': '7',
  'elk.layered.considerModelOrder.strategy': 'PREFER_EDGES',
  'elk.spacing.nodeNode': '2.6', 'elk.spacing.edgeNode': '2', 'elk.spacing.edgeEdge': '2.4', 'elk.spacing.edgeLabel': '0.6', 'elk.spacing.labelLabel': '1', 'elk.spacing.componentComponent': '6', 'elk.spacing.portPort': '3',
  'elk.layered.spacing.nodeNodeBetweenLayers': '2.2', 'elk.layered.spacing.edgeNodeBetweenLayers': '2', 'elk.layered.spacing.edgeEdgeBetweenLayers': '2.4',
} as const;

const onTheLine = { 'elk.edgeLabels.inline': 'true', 'elk.edgeLabels.placement': 'CENTER' } as const;

/** @returns places of every node, line and label; the same promise for the same structure */
export function layOut(graph: Graph): Promise<Placed> {
  const key = JSON.stringify(graph);
  let placed = kept.get(key);
  // the one asked for last is the last to be dropped
  if (placed) kept.delete(key);
  else {
    placed = layouter(graph);
    placed.catch(() => kept.delete(key));
  }
  kept.set(key, placed);
  if (kept.size > KEPT) kept.delete(kept.keys().next().value as string);
  return placed;
}

/** Lays out in this thread, remembering nothing. */
export async function layOutHere(graph: Graph): Promise<Placed> {
  if (graph.nodes.length === 0) return { width: 0, height: 0, nodes: {}, edges: [] };
  const engine = await loadElk();
  const done = await engine.layout({
    id: 'sheet', layoutOptions: options,
    children: graph.nodes.map(({ id, width, height, ports }) => ({
      id, width, height, layoutOptions: { 'elk.portConstraints': 'FIXED_POS' },
      ports: ports.map(({ id: port, side, y }) => ({ id: port, x: side === 'west' ? 0 : width, y, width: 0, height: 0, layoutOptions: { 'elk.port.side': side === 'west' ? 'WEST' : 'EAST' } })),
    })),
    edges: graph.edges.map(({ id, from, to, label }) => ({ id, sources: [from], targets: [to], labels: [{ id: `${id} label`, text: ' ', width: label.width, height: label.height, layoutOptions: onTheLine }] })),
  });
  return {
    width: done.width ?? 0, height: done.height ?? 0,
    nodes: Object.fromEntries((done.children ?? []).map(({ id, x, y }) => [id, { x: x ?? 0, y: y ?? 0 }])),
    edges: (done.edges ?? []).map(({ id, sections, junctionPoints, labels }): PlacedEdge => {
      const points = (sections ?? []).flatMap(({ startPoint, bendPoints, endPoint }) => [startPoint, ...(bendPoints ?? []), endPoint]).map(({ x, y }) => ({ x, y }));
      const label = labels?.[0];
      return { id, points, junctions: (junctionPoints ?? []).map(({ x, y }) => ({ x, y })), label: onLine(points, label?.x === undefined ? undefined : label.x + (label.width ?? 0) / 2, label?.y === undefined ? undefined : label.y + (label.height ?? 0) / 2) };
    }),
  };
}

/** The engine says about where a label is; it is to stand on the level piece of its line that is nearest. */
function onLine(points: readonly PlacedPoint[], x: number | undefined, y: number | undefined): PlacedPoint {
  const middle = points[Math.floor(points.length / 2)] ?? { x: 0, y: 0 };
  if (x === undefined || y === undefined) return middle;
  let nearest: number | undefined;
  points.forEach((to, index) => {
    const from = points[index - 1];
    if (from && Math.abs(from.y - to.y) < 0.01 && Math.min(from.x, to.x) <= x && x <= Math.max(from.x, to.x) && (nearest === undefined || Math.abs(to.y - y) < Math.abs(nearest - y))) nearest = to.y;
  });
  return { x, y: nearest ?? y };
}
