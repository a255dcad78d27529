import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BridgeFinder, Joined } from './islands.ts';

const node = fc.integer({ min: -1, max: 7 });
const graph = fc.array(fc.tuple(node, node, fc.boolean()), { maxLength: 16 });

describe('nodes that hang together', () => {
  it('are all apart at first, and the reference is a node of its own', () => {
    const joined = new Joined(2);
    expect([joined.together(0, 1), joined.together(0, -1), joined.tiedToReference(1), joined.together(1, 1)]).toEqual([false, false, false, true]);
  });
  it('are joined once; a join that closes a loop says so', () => {
    const joined = new Joined(3);
    expect([joined.join(0, 1), joined.join(1, -1), joined.join(-1, 0)]).toEqual([true, true, false]);
    expect([joined.tiedToReference(0), joined.tiedToReference(2)]).toEqual([true, false]);
  });
});

describe('bridges', () => {
  it('of a graph without edges are none', () => { expect([...new BridgeFinder(3, { a: [], b: [], count: 0 }).find(new Uint8Array(0))]).toEqual([]); });
  it('are edges whose ends hang together with them and not without them', () => {
    fc.assert(fc.property(graph, (edges) => {
      const finder = new BridgeFinder(8, { a: edges.map(([a]) => a), b: edges.map(([, b]) => b), count: edges.length });
      const found = finder.find(Uint8Array.from(edges, ([, , isPresent]) => (isPresent ? 1 : 0)));
      edges.forEach(([a, b, isPresent], k) => {
        const without = new Joined(8);
        edges.forEach(([c, d, other], n) => { if (other && n !== k) without.join(c, d); });
        expect(found[k] === 1).toBe(isPresent && !without.together(a, b));
      });
    }), { seed: 15, numRuns: 500 });
  });
});
