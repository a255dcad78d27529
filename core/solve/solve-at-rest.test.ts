import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { generateCarNetwork } from '../../bench/generate-car-network.ts';
import type { Element, Network } from './element.ts';
import { seededRandom } from './random.ts';
import type { RestResult, RestSolved } from './rest-result.ts';
import { prepareRest, solveAtRest } from './solve-at-rest.ts';

const solved = (result: RestResult): RestSolved => { if (result.outcome !== 'solved') throw new Error(JSON.stringify(result)); return result; };
const largestCurrent = (network: Network, result: RestSolved): number => Math.max(...network.elements.map(({ id }) => Math.abs(result.currentOf(id))));

/** a pack of `count` modules of `emf` joined by 20 micro-ohm bars, with leaks of 10..500 Mohm from every fifth bar to the chassis */
function leakingPack(count: number, emf: number, load?: number): { network: Network; leaks: { node: string; resistance: number; above: (current: number) => number }[] } {
  const elements: Element[] = [], nodes = ['chassis'];
  const leaks: { node: string; resistance: number; above: (current: number) => number }[] = [];
  const random = seededRandom(5);
  for (let m = 0; m < count; m++) {
    nodes.push(`n${m}`, `p${m}`);
    elements.push({ type: 'source', id: `M${m}`, a: `p${m}`, b: `n${m}`, voltage: emf, resistance: 1e-3 });
    if (m > 0) elements.push({ type: 'resistor', id: `bar${m}`, a: `p${m - 1}`, b: `n${m}`, resistance: 20e-6 });
    if (m % 5 !== 0) continue;
    const resistance = 1e7 * 50 ** random();
    elements.push({ type: 'resistor', id: `leak${m}`, a: `n${m}`, b: 'chassis', resistance });
    leaks.push({ node: `n${m}`, resistance, above: (current) => m * (emf - current * (1e-3 + 20e-6)) });
  }
  if (load !== undefined) elements.push({ type: 'current', id: 'load', a: `p${count - 1}`, b: 'n0', current: load });
  return { network: { nodes, elements }, leaks };
}

describe('a network at rest', () => {
  it('keeps 20 micro-ohm busbars and 500 Mohm leaks apart: the voltage of a loose 300 V pack against the chassis', () => {
    const { network, leaks } = leakingPack(51, 6);
    const result = solved(solveAtRest(network));
    // the leaks alone decide: sum of g (v0 + e) = 0
    const g = leaks.map(({ resistance }) => 1 / resistance);
    const v0 = -leaks.reduce((sum, leak, n) => sum + g[n]! * leak.above(0), 0) / g.reduce((a, b) => a + b, 0);
    expect(Math.abs(result.voltageOf('n0') / v0 - 1)).toBeLessThan(1e-6);
    expect(Math.abs(v0)).toBeGreaterThan(50);
    expect(result.floating).toEqual([]);
  });
  it('and still with 200 A running through it', () => {
    const { network, leaks } = leakingPack(51, 6, 200);
    const result = solved(solveAtRest(network));
    const g = leaks.map(({ resistance }) => 1 / resistance);
    const v0 = -leaks.reduce((sum, leak, n) => sum + g[n]! * leak.above(200), 0) / g.reduce((a, b) => a + b, 0);
    expect(Math.abs(result.voltageOf('n0') / v0 - 1)).toBeLessThan(1e-6);
  });
  it('measures the resistance of one leak through the others to a millionth', () => {
    const { network } = leakingPack(51, 6);
    const meter: Element = { type: 'resistor', id: 'meter', a: 'p50', b: 'chassis', resistance: 1e7 };
    const result = solved(solveAtRest({ nodes: network.nodes, elements: [...network.elements, meter] }));
    const into = network.elements.filter(({ id }) => id.startsWith('leak')).reduce((sum, { id }) => sum + result.currentOf(id), 0);
    expect(Math.abs(into / -result.currentOf('meter') - 1)).toBeLessThan(1e-6);
  });
  it('does not converge silently: with no steps allowed it names node and load', () => {
    const network: Network = { nodes: ['p', 'chassis'], elements: [{ type: 'source', id: 'E', a: 'p', b: 'chassis', voltage: 400, resistance: 0.1 }, { type: 'power', id: 'P', a: 'p', b: 'chassis', power: 5e4, knee: 100 }] };
    const result = solveAtRest(network, { maxIterations: 2 });
    expect(result).toMatchObject({ outcome: 'not_converged', node: 'p', element: 'P' });
  });
  it('lets relays keep what an earlier solution had', () => {
    const network = (voltage: number): Network => ({ nodes: ['chassis', 'p', 'q'], elements: [
      { type: 'source', id: 'E', a: 'p', b: 'chassis', voltage, resistance: 0 }, { type: 'resistor', id: 'coil', a: 'p', b: 'chassis', resistance: 60 },
      { type: 'relay', id: 'K', a: 'p', b: 'q', coil: ['p', 'chassis'], pickUp: 8, dropOut: 3, contact: 'makes', resistance: 0.01 }, { type: 'resistor', id: 'R', a: 'q', b: 'chassis', resistance: 10 }] });
    const up = solved(solveAtRest(network(12)));
    expect(up.stateOf('K')).toBe('closed');
    expect(solved(solveAtRest(network(5))).stateOf('K')).toBe('open');
    expect(solved(solveAtRest(network(5), { start: up })).stateOf('K')).toBe('closed');
    expect(solved(solveAtRest(network(2), { start: up })).stateOf('K')).toBe('open');
  });
  it('throws on a network that breaks the rules', () => {
    const bad = (element: Element): (() => unknown) => () => solveAtRest({ nodes: ['a', 'b'], elements: [element] });
    expect(bad({ type: 'resistor', id: 'R', a: 'a', b: 'b', resistance: -1 })).toThrow(/>= 0/);
    expect(bad({ type: 'source', id: 'E', a: 'a', b: 'b', voltage: NaN, resistance: 0 })).toThrow(/finite/);
    expect(bad({ type: 'power', id: 'P', a: 'a', b: 'b', power: 1, knee: 0 })).toThrow(/> 0/);
    expect(() => solveAtRest({ nodes: [], elements: [{ type: 'resistor', id: 'R', a: 'a', b: 'b', resistance: 1 }, { type: 'resistor', id: 'R', a: 'a', b: 'b', resistance: 1 }] })).toThrow(/unique/);
    expect(() => solved(solveAtRest({ nodes: ['a'], elements: [] })).voltageOf('nowhere')).toThrow(/no node/);
  });
  it('is solved for every generated car, with currents in balance to 1e-9 of the largest', () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 100_000 }), fc.integer({ min: 40, max: 200 }), fc.boolean(), (seed, nodes, driving) => {
      const network = generateCarNetwork({ nodes, seed, driving });
      const result = solved(solveAtRest(network));
      expect(result.balance.residual).toBeLessThan(1e-9 * largestCurrent(network, result));
      expect(result.stateOf('K_plus')).toBe(driving ? 'closed' : 'open');
    }), { seed: 21, numRuns: 60 });
  });
});

describe('what leaks alone decide', () => {
  // a pack behind 20 micro-ohm bars, a drive and a converter beside it, tied to the chassis by two equal leaks only
  const car = (leak: number, pack: number, packResistance: number, lamps: number): Network => ({ nodes: ['chassis', 'p', 'n', 'q', 'm', 'o', 'g'], elements: [
    { type: 'source', id: 'pack', a: 'p', b: 'n', voltage: pack, resistance: packResistance }, { type: 'resistor', id: 'leak_p', a: 'p', b: 'chassis', resistance: leak }, { type: 'resistor', id: 'leak_n', a: 'n', b: 'chassis', resistance: leak },
    { type: 'resistor', id: 'bar_p', a: 'p', b: 'q', resistance: 20e-6 }, { type: 'resistor', id: 'bar_n', a: 'n', b: 'm', resistance: 30e-6 }, { type: 'power', id: 'drive', a: 'q', b: 'm', power: 50e3, knee: 100 },
    { type: 'converter', id: 'C', input: ['q', 'm'], output: ['o', 'g'], voltage: 14, currentLimit: 100, resistance: 2e-3, efficiency: 0.9, idlePower: 15, minimumInput: 200 },
    { type: 'source', id: 'B12', a: 'o', b: 'g', voltage: 12.4, resistance: 0.01 }, { type: 'resistor', id: 'ground', a: 'g', b: 'chassis', resistance: 1e-3 }, { type: 'resistor', id: 'lamps', a: 'o', b: 'g', resistance: lamps }] });
  it.each([1e8, 1e9, 1e10, 1e11, 1e12])('is found beside hundreds of amperes as closely as they are rounded: leaks of %d ohm', (leak) => {
    for (const pack of [150, 250, 350, 420]) for (const packResistance of [0, 1e-3, 0.1]) for (const lamps of [0.05, 0.28, 1, 100]) {
      const result = solved(solveAtRest(car(leak, pack, packResistance, lamps)));
      // equal leaks: the middle of the pack is at the chassis; a current of 400 A rounded at 400 * 2^-52 A is seen through the leaks
      expect(Math.abs(result.voltageOf('p') + result.voltageOf('n')) / 2).toBeLessThan(4 * 400 * Number.EPSILON * leak);
      expect(result.voltageOf('p') - result.voltageOf('n')).toBeGreaterThan(100);
    }
  });
});

describe('a converter with a power limit, feeding high-voltage loads from 12 V', () => {
  const fed = (loads: readonly Element[], { voltage = 395, currentLimit = 0.5 } = {}): Network => ({ nodes: ['chassis', 'bat', 's', 'hp', 'hn'], elements: [
    { type: 'source', id: 'B12', a: 'bat', b: 'chassis', voltage: 12.6, resistance: 0.013 }, { type: 'resistor', id: 'feed', a: 'bat', b: 's', resistance: 0.02 },
    { type: 'converter', id: 'PRE', input: ['s', 'chassis'], output: ['hp', 'hn'], voltage, currentLimit, resistance: 1, efficiency: 0.85, idlePower: 1.5, minimumInput: 9, powerLimit: 100 },
    { type: 'resistor', id: 'leak_p', a: 'hp', b: 'chassis', resistance: 5e7 }, { type: 'resistor', id: 'leak_n', a: 'hn', b: 'chassis', resistance: 5e7 }, ...loads] });
  it.each([110, 150, 400, 800, 5000])('settles on its current limit when a constant-power load of %d W asks for more than 100 W', (power) => {
    const result = solved(solveAtRest(fed([{ type: 'power', id: 'heater', a: 'hp', b: 'hn', power, knee: 180 }])));
    // below its knee the load is knee^2/P: 0.5 A through it (400 W and more keep the limit of 100 W away)
    const resistance = 180 ** 2 / power;
    const current = Math.min(0.5, Math.sqrt(100 / resistance));
    expect(result.stateOf('PRE')).toBe('limiting');
    expect(result.stateOf('heater')).toBe('limiting');
    expect(result.currentOf('PRE')).toBeCloseTo(current, 5);
    expect(result.voltageOf('hp') - result.voltageOf('hn')).toBeCloseTo(current * resistance, 2);
    expect(result.hiccups).toEqual([]);
  });
  it('carries a load of less than its limit at its full voltage', () => {
    const result = solved(solveAtRest(fed([{ type: 'power', id: 'heater', a: 'hp', b: 'hn', power: 80, knee: 180 }])));
    expect(result.voltageOf('hp') - result.voltageOf('hn')).toBeCloseTo((395 + Math.sqrt(395 ** 2 - 4 * 80)) / 2, 2);
  });
  it('cannot carry a second converter back to 12 V: that one is off and said to hiccup', () => {
    const back: Element = { type: 'converter', id: 'DCDC', input: ['hp', 'hn'], output: ['bat', 'chassis'], voltage: 13.8, currentLimit: 45, resistance: 2e-3, efficiency: 0.91, idlePower: 15, minimumInput: 200 };
    for (const voltage of [352, 395]) {
      const result = solved(solveAtRest(fed([back], { voltage })));
      expect(result.stateOf('DCDC')).toBe('off');
      expect(result.hiccups).toEqual(['DCDC']);
      expect(result.voltageOf('hp') - result.voltageOf('hn')).toBeCloseTo(voltage, 1);
    }
  });
  it('and carries one that asks for little: nothing hiccups', () => {
    const little: Element = { type: 'converter', id: 'DCDC', input: ['hp', 'hn'], output: ['x', 'chassis'], voltage: 5, currentLimit: 4, resistance: 2e-3, efficiency: 0.9, idlePower: 2, minimumInput: 200 };
    const result = solved(solveAtRest(fed([little, { type: 'resistor', id: 'lamp', a: 'x', b: 'chassis', resistance: 2.5 }])));
    expect(result.stateOf('DCDC')).toBe('regulating');
    expect(result.hiccups).toEqual([]);
    expect(result.currentOf('DCDC')).toBeCloseTo(5 / 2.502, 6);
  });
});

describe('a network without an operating point', () => {
  it('is given up after a number of steps that falls with its size, and named where it fails', () => {
    const car = generateCarNetwork({ nodes: 400, seed: 3 });
    // gives back 40 kW where only 20 kW are taken: the voltage would rise for ever
    const runaway: Element[] = [{ type: 'source', id: 'E', a: 'w', b: 'chassis', voltage: 300, resistance: 1000 }, { type: 'diode', id: 'D', a: 'w', b: 'q', drop: 0, resistance: 0.01 },
      { type: 'power', id: 'back', a: 'q', b: 'chassis', power: -40e3, knee: 100 }, { type: 'power', id: 'taken', a: 'q', b: 'chassis', power: 20e3, knee: 100 }];
    const result = solveAtRest({ nodes: [...car.nodes, 'w', 'q'], elements: [...car.elements, ...runaway] });
    expect(result).toMatchObject({ outcome: 'not_converged', node: 'q', element: 'back' });
    if (result.outcome === 'not_converged') expect(result.iterations).toBeLessThanOrEqual(400);
  });
});

describe('random meshes of resistors, sources, loads and diodes', () => {
  const ends = fc.tuple(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 0, max: 9 })).map(([a, b]) => ({ a: a === 0 ? 'chassis' : `n${a}`, b: b === 0 ? 'chassis' : `n${b}` }));
  const exponent = (low: number, high: number): fc.Arbitrary<number> => fc.double({ min: low, max: high, noNaN: true }).map((x) => 10 ** x);
  const element = fc.oneof(
    { weight: 6, arbitrary: fc.record({ ends, resistance: exponent(-5, 8) }).map(({ ends: at, resistance }) => ({ type: 'resistor', ...at, resistance })) },
    { weight: 2, arbitrary: fc.record({ ends, voltage: fc.double({ min: -400, max: 400, noNaN: true }), resistance: exponent(-3, 1) }).map(({ ends: at, ...more }) => ({ type: 'source', ...at, ...more })) },
    { weight: 2, arbitrary: fc.record({ ends, drop: fc.double({ min: 0, max: 2, noNaN: true }), resistance: exponent(-3, 1) }).map(({ ends: at, ...more }) => ({ type: 'diode', ...at, ...more })) },
    { weight: 1, arbitrary: fc.record({ ends, power: fc.double({ min: 0.01, max: 3000, noNaN: true }), knee: fc.double({ min: 1, max: 50, noNaN: true }) }).map(({ ends: at, ...more }) => ({ type: 'power', ...at, ...more })) },
    { weight: 1, arbitrary: fc.record({ ends, current: fc.double({ min: 0.01, max: 30, noNaN: true }), knee: fc.double({ min: 1, max: 50, noNaN: true }) }).map(({ ends: at, ...more }) => ({ type: 'draw', ...at, ...more })) },
    { weight: 1, arbitrary: fc.record({ ends, voltage: fc.double({ min: 1, max: 50, noNaN: true }), currentLimit: fc.double({ min: 0.01, max: 30, noNaN: true }), resistance: exponent(-3, 0) }).map(({ ends: at, ...more }) => ({ type: 'supply', ...at, ...more })) },
  );
  const mesh = fc.array(element, { minLength: 1, maxLength: 30 }).map((list): Network => ({
    nodes: ['chassis', ...Array.from({ length: 9 }, (_, n) => `n${n + 1}`)], // limits made unequal: two equal current limits in a row leave the voltage between them open
    elements: list.map((one, n) => ({ ...one, id: `X${n}`, ...('currentLimit' in one ? { currentLimit: one.currentLimit * (1 + n / 97) } : {}) }) as Element),
  }));
  it('keep Kirchhoff\'s current law and every branch law', () => {
    fc.assert(fc.property(mesh, (network) => {
      const result = solved(solveAtRest(network));
      const scale = Math.max(1e-6, largestCurrent(network, result));
      expect(result.balance.residual).toBeLessThan(1e-9 * scale + 1e-12);
      for (const one of network.elements) {
        if (!('a' in one)) continue;
        const v = result.voltageOf(one.a) - result.voltageOf(one.b), i = result.currentOf(one.id);
        if (one.a === one.b) continue;
        if (result.islandOf(one.a) !== result.islandOf(one.b)) { if (one.type !== 'source') expect(Math.abs(i)).toBeLessThan(1e-6 * scale); continue; }
        const close = (x: number, y: number): void => { expect(Math.abs(x - y), `${one.type} ${one.id}: ${x} ${y}`).toBeLessThan(2e-6 * (Math.abs(x) + Math.abs(y)) + 1e-5); };
        if (one.type === 'resistor') close(v, one.resistance * i);
        else if (one.type === 'source') close(v, one.voltage + one.resistance * i);
        else if (one.type === 'diode') { if (result.stateOf(one.id) === 'conducting') { close(v, one.drop + one.resistance * i); expect(i).toBeGreaterThan(-1e-6 * scale); } else { expect(v).toBeLessThan(one.drop + 1e-5); expect(Math.abs(i)).toBeLessThan(1e-9 * scale); } }
        else if (one.type === 'power') { if (Math.abs(v) > one.knee) close(v * i, one.power); else close(v * one.power / one.knee ** 2, i); }
        else if (one.type === 'draw') { if (Math.abs(v) > one.knee * 1.000001) close(Math.abs(i), one.current); else if (Math.abs(v) < one.knee * 0.999999) close(v * one.current / one.knee, i); }
        else if (one.type === 'supply') {
          expect(-i).toBeGreaterThan(-1e-6 * scale);
          expect(-i).toBeLessThan(one.currentLimit + 1e-6 * scale);
          if (result.stateOf(one.id) === 'regulating') close(v, one.voltage + one.resistance * i);
        }
      }
    }), { seed: 22, numRuns: 4000, endOnFailure: true });
  });
});

describe('a prepared network', () => {
  it('gives the same as solving afresh, whatever was solved in between', () => {
    const network = generateCarNetwork({ nodes: 120, seed: 4 });
    const prepared = prepareRest(network);
    const random = seededRandom(8);
    for (let round = 0; round < 20; round++) {
      const other: Network = { nodes: network.nodes, elements: network.elements.map((one): Element => {
        if (one.type === 'resistor') return { ...one, resistance: one.resistance * (0.7 + 0.6 * random()) };
        if (one.type === 'source') return { ...one, voltage: one.voltage * (0.95 + 0.1 * random()) };
        if (one.type === 'switch' && random() < 0.2) return { ...one, closed: !one.closed };
        return one;
      }) };
      const a = solved(prepared.solve(other)), b = solved(solveAtRest(other));
      for (const node of network.nodes) expect(Math.abs(a.voltageOf(node) - b.voltageOf(node))).toBeLessThan(1e-8 * 400 + 1e-6);
      for (const { id } of network.elements) expect(Math.abs(a.currentOf(id) - b.currentOf(id))).toBeLessThan(1e-6 * Math.max(1, Math.abs(b.currentOf(id))));
      expect(a.floating).toEqual(b.floating);
    }
  });
  it('solves a network of another structure all the same', () => {
    const prepared = prepareRest(generateCarNetwork({ nodes: 50, seed: 1 }));
    const other = generateCarNetwork({ nodes: 60, seed: 2 });
    expect(solved(prepared.solve(other)).voltageOf('link_p')).toBeCloseTo(solved(solveAtRest(other)).voltageOf('link_p'), 9);
  });
});
