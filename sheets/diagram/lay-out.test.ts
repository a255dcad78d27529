import { describe, expect, it } from 'vitest';
import type { Graph } from './graph.ts';
import { layOut } from './lay-out.ts';

const node = (id: string, west: number, east: number, height = 20) => ({
  id, width: 20, height, ports: [...Array.from({ length: west }, (_, n) => ({ id: `${id} w${n}`, side: 'west' as const, y: 5 + 5 * n })), ...Array.from({ length: east }, (_, n) => ({ id: `${id} e${n}`, side: 'east' as const, y: 5 + 5 * n }))],
});
const graph: Graph = {
  nodes: [node('a', 0, 2), node('b', 1, 1), node('c', 2, 0)],
  edges: [
    { id: 'ab', from: 'a e0', to: 'b w0', label: { width: 12, height: 9 } }, { id: 'bc', from: 'b e0', to: 'c w0', label: { width: 12, height: 9 } }, { id: 'ac', from: 'a e1', to: 'c w1', label: { width: 12, height: 9 } },
  ],
};

describe('layout', () => {
  it('joins the ports that it was told, with level and upright lines and the label on the line', async () => {
    const placed = await layOut(graph);
    const portAt = (port: string) => { const owner = graph.nodes.find(({ ports }) => ports.some(({ id }) => id === port))!; const own = owner.ports.find(({ id }) => id === port)!; const at = placed.nodes[owner.id]!; return { x: at.x + (own.side === 'west' ? 0 : owner.width), y: at.y + own.y }; };
    for (const edge of graph.edges) {
      const { points, label } = placed.edges.find(({ id }) => id === edge.id)!;
      for (const [end, port] of [[points[0], edge.from], [points.at(-1), edge.to]] as const) { expect(end!.x).toBeCloseTo(portAt(port).x, 6); expect(end!.y).toBeCloseTo(portAt(port).y, 6); }
      points.slice(1).forEach((to, index) => expect(Math.min(Math.abs(to.x - points[index]!.x), Math.abs(to.y - points[index]!.y))).toBeLessThan(1e-6));
      expect(points.slice(1).some((to, index) => Math.abs(to.y - points[index]!.y) < 1e-6 && Math.abs(label.y - to.y) < 1e-6), edge.id).toBe(true);
    }
    expect(placed.nodes['a']!.x).toBeLessThan(placed.nodes['b']!.x);
    expect(placed.nodes['b']!.x).toBeLessThan(placed.nodes['c']!.x);
  });

  it('gives what it has for the same structure, and lays out another one anew', async () => {
    expect(layOut(structuredClone(graph))).toBe(layOut(graph));
    const wider = { ...graph, nodes: graph.nodes.map((one) => ({ ...one, width: 32 })) };
    expect((await layOut(wider)).width).toBeGreaterThan((await layOut(graph)).width);
  });

  it('draws nothing for nothing', async () => {
    expect(await layOut({ nodes: [], edges: [] })).toEqual({ width: 0, height: 0, nodes: {}, edges: [] });
  });
});
