/** Neighbours of a solved system against the full solve of the changed network: generated 12 V networks with every node tied, several changes at once. */
import { describe, expect, it } from 'vitest';
import type { Element, Network } from './element.ts';
import { NearSystem } from './near-system.ts';
import { seededRandom } from './random.ts';
import { settleFromNothing, settleRounds } from './settle.ts';
import { budgetOf, solveAtRest, startingCoils } from './solve-at-rest.ts';

/** A source, a tree of wires, and loads of every law at its ends. */
function generated(seed: number): Network {
  const random = seededRandom(seed);
  const nodes = ['n0'];
  const elements: Element[] = [{ type: 'source', id: 'battery', a: 'n0', b: 'chassis', voltage: 12.6, resistance: 0.02 }];
  for (let n = 1; n < 14; n++) {
    nodes.push(`n${n}`);
    elements.push({ type: 'resistor', id: `wire${n}`, a: nodes[Math.floor(random() * n)]!, b: `n${n}`, resistance: 0.005 + 0.05 * random() });
    const sort = Math.floor(4 * random());
    if (sort === 0) elements.push({ type: 'power', id: `load${n}`, a: `n${n}`, b: 'chassis', power: 5 + 40 * random(), knee: 6 });
    else if (sort === 1) elements.push({ type: 'draw', id: `load${n}`, a: `n${n}`, b: 'chassis', current: 3 * random(), knee: 8 });
    else if (sort === 2) elements.push({ type: 'resistor', id: `load${n}`, a: `n${n}`, b: 'chassis', resistance: 4 + 20 * random() });
    else elements.push({ type: 'diode', id: `load${n}`, a: `n${n}`, b: 'chassis', drop: 2, resistance: 30 });
  }
  return { nodes: [...nodes, 'chassis'], elements: [...elements, ...nodes.map((node): Element => ({ type: 'resistor', id: `tie ${node}`, a: node, b: 'chassis', resistance: 1e7 }))] };
}

function solved(network: Network): NearSystem {
  const system = new NearSystem(network);
  if (settleFromNothing(system, startingCoils(system, undefined), budgetOf(system, {})).outcome !== 'settled' || !system.stand([])) throw new Error('no base');
  return system;
}

describe('a neighbour of a solved system', () => {
  it('is what the full solve of the changed network says, for wires that part or get worse and new paths, up to three at once', () => {
    let count = 0;
    for (let seed = 1; seed <= 25; seed++) {
      const network = generated(seed);
      const system = solved(network);
      const { compiled, numbers } = system;
      const random = seededRandom(1000 + seed);
      for (let n = 0; n < 12; n++) {
        const elements = [...network.elements];
        const kept = numbers.resistance.slice();
        for (let changes = 1 + Math.floor(3 * random()); changes > 0; changes--) {
          const wire = 1 + Math.floor(13 * random()), at = elements.findIndex(({ id }) => id === `wire${wire}`);
          const k = compiled.elementBranch[compiled.elementIndexOf.get(`wire${wire}`)!]!;
          const sort = Math.floor(3 * random());
          const element = elements[at]!;
          if (system.touched[k] === 1 || element.type !== 'resistor') continue;
          if (sort === 0) { system.touched[k] = 1; system.opened[k] = 1; elements[at] = { ...element, resistance: 1e12 }; }
          else if (sort === 1) { system.touched[k] = 1; numbers.resistance[k]! += 0.3; elements[at] = { ...element, resistance: element.resistance + 0.3 }; }
          else { const node = `n${wire}`; system.further.push({ a: compiled.nodeIndexOf.get(node)!, b: -1, resistance: 2, current: 0 }); elements.push({ type: 'resistor', id: `path ${n} ${changes}`, a: node, b: 'chassis', resistance: 2 }); }
        }
        const { outcome } = settleRounds(system, new Uint8Array(0), budgetOf(system, {}));
        const full = solveAtRest({ nodes: network.nodes, elements });
        if (outcome === 'settled' && full.outcome === 'solved') {
          system.complete();
          count++;
          for (const node of network.nodes) expect(Math.abs(system.voltageAt(compiled.nodeIndexOf.get(node) ?? -1) - full.voltageOf(node)), `seed ${seed} change ${n} ${node}`).toBeLessThan(2e-4);
        }
        numbers.resistance.set(kept);
        system.stepBack();
      }
    }
    expect(count).toBeGreaterThan(250);
  });
  it('has no load at a voltage at which its feed cannot give it its power', () => {
    const network: Network = { nodes: ['s', 'a', 'chassis'], elements: [
      { type: 'source', id: 'battery', a: 's', b: 'chassis', voltage: 12, resistance: 0.01 }, { type: 'resistor', id: 'wire', a: 's', b: 'a', resistance: 0.01 }, { type: 'power', id: 'load', a: 'a', b: 'chassis', power: 60, knee: 4 },
      { type: 'resistor', id: 'tie s', a: 's', b: 'chassis', resistance: 1e7 }, { type: 'resistor', id: 'tie a', a: 'a', b: 'chassis', resistance: 1e7 },
    ] };
    const system = solved(network);
    const k = system.compiled.elementBranch[system.compiled.elementIndexOf.get('wire')!]!;
    system.touched[k] = 1;
    system.numbers.resistance[k] = 1;
    // 12² / (4 · 1.01) is 36 W at the most: below its knee the load is 16/60 ohm
    expect(settleRounds(system, new Uint8Array(0), budgetOf(system, {})).outcome).toBe('settled');
    expect(system.voltageAt(system.compiled.nodeIndexOf.get('a')!)).toBeCloseTo((12 * (16 / 60)) / (16 / 60 + 1.01), 5);
  });
  it('cannot be had where a node is tied by nothing', () => {
    const system = new NearSystem({ nodes: ['s', 'loose', 'chassis'], elements: [{ type: 'source', id: 'battery', a: 's', b: 'chassis', voltage: 12, resistance: 1 }] });
    settleFromNothing(system, new Uint8Array(0), budgetOf(system, {}));
    expect(system.stand([])).toBe(false);
  });
});
