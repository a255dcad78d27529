import { describe, expect, it } from 'vitest';
import type { Element, Network } from './element.ts';
import { solveInTime } from './solve-in-time.ts';
import type { TimeRequest, TimeResult, TimeSolved } from './time-result.ts';

const solved = (result: TimeResult): TimeSolved => { if (result.outcome !== 'solved') throw new Error(JSON.stringify(result)); return result; };
const run = (elements: Element[], request: TimeRequest): TimeSolved => {
  const nodes = new Set(['chassis', ...elements.flatMap((one) => (one.type === 'converter' ? [...one.input, ...one.output] : [one.a, one.b]))]);
  const result = solved(solveInTime({ nodes: [...nodes], elements }, request));
  expect(result.balance.charge).toBeLessThan(150 * (request.tolerance ?? 1e-6));
  expect(result.balance.energy).toBeLessThan(150 * (request.tolerance ?? 1e-6));
  return result;
};
const within = (got: number, wanted: number, share: number, scale = Math.abs(wanted)): void => { expect(Math.abs(got - wanted), `${got} against ${wanted}`).toBeLessThan(share * scale); };
const e = (voltage: number, resistance = 0): Element => ({ type: 'source', id: 'E', a: 'p', b: 'chassis', voltage, resistance });
const spread = (duration: number): number[] => Array.from({ length: 41 }, (_, n) => (n * duration) / 40);

describe('a network in time', () => {
  it('with nothing in it stays as it is', () => {
    const result = solved(solveInTime({ nodes: ['a', 'chassis'], elements: [] }, { duration: 1, every: 0.25, probes: { nodes: ['a'], elements: [] } }));
    expect([...result.times]).toEqual([0, 0.25, 0.5, 0.75, 1]);
    expect([...result.voltages['a']!]).toEqual([0, 0, 0, 0, 0]);
  });
  it('refuses what it cannot mean', () => {
    const network: Network = { nodes: ['p', 'chassis'], elements: [e(1, 1)] };
    const probes = { nodes: [], elements: [] };
    expect(() => solveInTime(network, { duration: 0, probes })).toThrow(/duration/);
    expect(() => solveInTime(network, { duration: 1, probes, events: [{ at: 0, element: 'E', closed: true }] })).toThrow(/switch/);
    expect(() => solveInTime(network, { duration: 1, probes: { nodes: ['x'], elements: [] } })).toThrow(/no node/);
  });

  it('charges a capacitor through a resistor after a switch closes: 400 V, 100 ohm, 1 mF', () => {
    const samples = spread(0.5);
    const result = run([e(400), { type: 'switch', id: 'S', a: 'p', b: 'q', closed: false, resistance: 0.01 }, { type: 'resistor', id: 'R', a: 'q', b: 'c', resistance: 99.99 }, { type: 'capacitor', id: 'C', a: 'c', b: 'chassis', capacitance: 1e-3, initial: 0 }],
      { duration: 0.5, samples, events: [{ at: 0.05, element: 'S', closed: true }], probes: { nodes: ['c'], elements: ['R', 'E'] } });
    samples.forEach((t, n) => {
      const v = t <= 0.05 ? 0 : 400 * (1 - Math.exp(-(t - 0.05) / 0.1));
      within(result.voltages['c']![n]!, v, 2e-5, 400);
    });
    expect(result.events).toEqual([{ time: 0.05, element: 'S', to: 'closed', cause: 'scheduled' }]);
    // energy in the resistor: C V^2 / 2 (1 - exp(-2 t / tau))
    within(result.integrals['R']!.energy, 80 * 0.9999 * (1 - Math.exp(-9)), 1e-4);
    within(result.integrals['R']!.charge, 0.4 * (1 - Math.exp(-4.5)), 1e-4);
    within(result.integrals['R']!.square, 0.8 * (1 - Math.exp(-9)), 1e-4);
  });
  it('halves its error more than eightfold when the tolerance falls a hundredfold (second order)', () => {
    const error = (tolerance: number): number => {
      const samples = spread(0.5);
      const result = run([e(400), { type: 'resistor', id: 'R', a: 'p', b: 'c', resistance: 100 }, { type: 'capacitor', id: 'C', a: 'c', b: 'chassis', capacitance: 1e-3, initial: 0 }], { duration: 0.5, samples, tolerance, probes: { nodes: ['c'], elements: [] } });
      return Math.max(...samples.map((t, n) => Math.abs(result.voltages['c']![n]! - 400 * (1 - Math.exp(-t / 0.1)))));
    };
    expect(error(1e-4) / error(1e-6)).toBeGreaterThan(8);
    expect(error(1e-6)).toBeLessThan(400 * 2e-5);
  });
  it('builds up current in an inductor: V / R (1 - exp(-R t / L))', () => {
    const samples = spread(0.005);
    const result = run([e(12), { type: 'inductor', id: 'L', a: 'p', b: 'chassis', inductance: 1e-3, resistance: 2, initial: 0 }], { duration: 0.005, samples, probes: { nodes: [], elements: ['L'] } });
    samples.forEach((t, n) => { within(result.currents['L']![n]!, 6 * (1 - Math.exp(-2000 * t)), 2e-5, 6); });
  });
  it('lets a coil and a capacitor ring for a hundred periods without losing or gaining', () => {
    const w = 1 / Math.sqrt(1e-3 * 1e-6), duration = (100 * 2 * Math.PI) / w;
    const result = run([{ type: 'capacitor', id: 'C', a: 'p', b: 'chassis', capacitance: 1e-6, initial: 10 }, { type: 'inductor', id: 'L', a: 'p', b: 'chassis', inductance: 1e-3, resistance: 0, initial: 0 }], { duration, samples: [duration], tolerance: 1e-7, probes: { nodes: ['p'], elements: [] } });
    within(result.voltages['p']![0]!, 10, 2e-2);
  });
  it('runs down a link under constant power until the knee: v^2 = v0^2 - 2 P t / C', () => {
    const samples = spread(0.05);
    const result = run([{ type: 'capacitor', id: 'C', a: 'p', b: 'chassis', capacitance: 1e-3, initial: 400 }, { type: 'power', id: 'P', a: 'p', b: 'chassis', power: 1000, knee: 50 }], { duration: 0.1, samples, probes: { nodes: ['p'], elements: ['P'] } });
    samples.forEach((t, n) => { within(result.voltages['p']![n]!, Math.sqrt(160_000 - 2e6 * t), 3e-5, 400); });
    // below the knee, reached at t = (400^2 - 50^2) / 2e6, it is a resistor of 2.5 ohm
    expect(result.events).toMatchObject([{ element: 'P', to: 'limiting', cause: 'law' }]);
    within(result.events[0]!.time, 0.07875, 2e-4);
  });
  it('charges at a current limit: a straight line, then the regulated voltage', () => {
    const samples = spread(2);
    const result = run([{ type: 'supply', id: 'S', a: 'p', b: 'chassis', voltage: 50, currentLimit: 5, resistance: 0.01 }, { type: 'capacitor', id: 'C', a: 'p', b: 'chassis', capacitance: 0.1, initial: 0 }], { duration: 2, samples, probes: { nodes: ['p'], elements: ['S'] } });
    samples.forEach((t, n) => { within(result.voltages['p']![n]!, t < 0.995 ? 50 * t : 49.95 + 0.05 * (1 - Math.exp(-(t - 0.999) / 0.001)), 1e-4, 50); });
  });
  it('lets a diode carry on the current of a coil that is switched off', () => {
    const samples = spread(0.02);
    const result = run([e(12), { type: 'switch', id: 'S', a: 'p', b: 'q', closed: true, resistance: 0 }, { type: 'inductor', id: 'L', a: 'q', b: 'chassis', inductance: 0.01, resistance: 6 }, { type: 'diode', id: 'D', a: 'chassis', b: 'q', drop: 0.7, resistance: 0 }],
      { duration: 0.02, samples, from: 'rest', events: [{ at: 0.001, element: 'S', closed: false }], probes: { nodes: ['q'], elements: ['L', 'D'] } });
    // i = (2 + 0.7/6) exp(-600 (t - t0)) - 0.7/6 until it reaches 0
    const stops = 0.001 + Math.log((2 + 0.7 / 6) / (0.7 / 6)) / 600;
    samples.forEach((t, n) => { within(result.currents['L']![n]!, t <= 0.001 ? 2 : t < stops ? (2 + 0.7 / 6) * Math.exp(-600 * (t - 0.001)) - 0.7 / 6 : 0, 2e-4, 2); });
    const last = result.events.filter(({ element }) => element === 'D');
    expect(last.map(({ to }) => to)).toEqual(['conducting', 'blocking']);
    within(last[1]!.time, stops, 1e-3);
  });
  it('stops when a voltage is reached, at the moment it is reached', () => {
    const result = run([e(400), { type: 'resistor', id: 'R', a: 'p', b: 'c', resistance: 100 }, { type: 'capacitor', id: 'C', a: 'c', b: 'chassis', capacitance: 1e-3, initial: 0 }], { duration: 2, every: 0.1, until: { a: 'c', b: 'chassis', reaches: 380, direction: 'rising' }, probes: { nodes: ['c'], elements: [] } });
    within(result.reachedAt!, 0.1 * Math.log(20), 1e-4);
    expect(result.endedAt).toBe(result.reachedAt);
    expect([...result.times]).toEqual([0, 0.1, 0.2, result.reachedAt]);
    within(result.voltages["c"]![3]!, 380, 1e-6);
  });
  it('starts capacitors that say nothing at rest', () => {
    const result = run([e(12), { type: 'resistor', id: 'R', a: 'p', b: 'c', resistance: 100 }, { type: 'resistor', id: 'R2', a: 'c', b: 'chassis', resistance: 300 }, { type: 'capacitor', id: 'C', a: 'c', b: 'chassis', capacitance: 1e-3 }], { duration: 1, every: 0.5, probes: { nodes: ['c'], elements: ['C'] } });
    for (const v of result.voltages['c']!) within(v, 9, 1e-9);
  });
  it('shares charge between two capacitors joined by a short', () => {
    const nodes = ['a', 'b', 'chassis'];
    const result = solved(solveInTime({ nodes, elements: [{ type: 'capacitor', id: 'C1', a: 'a', b: 'chassis', capacitance: 1e-3, initial: 12 }, { type: 'capacitor', id: 'C2', a: 'b', b: 'chassis', capacitance: 2e-3, initial: 0 }, { type: 'switch', id: 'S', a: 'a', b: 'b', closed: false, resistance: 0 }] },
      { duration: 1, samples: [0.2, 1], events: [{ at: 0.5, element: 'S', closed: true }], probes: { nodes: ['a', 'b'], elements: [] } }));
    expect([...result.voltages['a']!].map((v) => v.toFixed(6))).toEqual(['12.000000', '4.000000']);
    expect([...result.voltages['b']!].map((v) => v.toFixed(6))).toEqual(['0.000000', '4.000000']);
  });
});

const coil = (more: object = {}): Element[] => [e(12), { type: 'switch', id: 'S', a: 'p', b: 'k', closed: false, resistance: 0.01 }, { type: 'resistor', id: 'coil', a: 'k', b: 'chassis', resistance: 60 },
  { type: 'relay', id: 'K', a: 'p', b: 'q', coil: ['k', 'chassis'], pickUp: 8, dropOut: 3, contact: 'makes', resistance: 0.01, ...more }, { type: 'resistor', id: 'R', a: 'q', b: 'chassis', resistance: 11.99 }];

describe('relays in time', () => {
  it('move after their operate and release times', () => {
    const result = run(coil({ operateTime: 0.01, releaseTime: 0.005 }), { duration: 0.1, events: [{ at: 0.02, element: 'S', closed: true }, { at: 0.06, element: 'S', closed: false }], samples: [0.0299, 0.0301, 0.0649, 0.0651], probes: { nodes: [], elements: ['R'] } });
    expect([...result.currents['R']!].map((i) => Math.round(i * 1e6) / 1e6)).toEqual([0, 1, 1, 0]);
    expect(result.events.filter(({ element }) => element === 'K').map(({ time, to }) => [Math.round(time * 1e5) / 1e5, to])).toEqual([[0.03, 'closed'], [0.065, 'open']]);
  });
  it('do not move for a pulse shorter than the operate time', () => {
    const result = run(coil({ operateTime: 0.01 }), { duration: 0.1, events: [{ at: 0.02, element: 'S', closed: true }, { at: 0.025, element: 'S', closed: false }], every: 0.01, probes: { nodes: [], elements: ['R'] } });
    expect(result.events.some(({ element }) => element === 'K')).toBe(false);
  });
  it('move at the moment a rising coil voltage crosses pick-up', () => {
    const result = run([e(12), { type: 'resistor', id: 'R1', a: 'p', b: 'k', resistance: 1000 }, { type: 'capacitor', id: 'C', a: 'k', b: 'chassis', capacitance: 1e-3, initial: 0 },
      { type: 'relay', id: 'K', a: 'p', b: 'q', coil: ['k', 'chassis'], pickUp: 8, dropOut: 3, contact: 'makes', resistance: 0.01 }, { type: 'resistor', id: 'R', a: 'q', b: 'chassis', resistance: 12 }], { duration: 3, every: 1, probes: { nodes: [], elements: [] } });
    expect(result.events).toMatchObject([{ element: 'K', to: 'closed', cause: 'relay' }]);
    within(result.events[0]!.time, Math.log(3), 5e-5);
  });
  const buzzer = (more: object): Network => ({ nodes: ['p', 'c', 'chassis'], elements: [e(12), { type: 'relay', id: 'K', a: 'p', b: 'c', coil: ['c', 'chassis'], pickUp: 8, dropOut: 3, contact: 'breaks', resistance: 0.01, ...more }, { type: 'resistor', id: 'coil', a: 'c', b: 'chassis', resistance: 60 }] });
  it('buzz with the period of their operate and release times', () => {
    const result = solved(solveInTime(buzzer({ operateTime: 0.004, releaseTime: 0.006 }), { duration: 0.1001, every: 0.05, probes: { nodes: [], elements: [] } }));
    const times = result.events.map(({ time }) => time);
    expect(times).toHaveLength(20);
    within(times[12]! - times[2]!, 0.05, 1e-4);
  });
  it('that buzz without any time to it are chatter', () => {
    expect(solveInTime(buzzer({}), { duration: 0.1, every: 0.05, probes: { nodes: [], elements: [] } })).toMatchObject({ outcome: 'chatter', relays: ['K'] });
  });
});

describe('a converter in time', () => {
  it('goes off when its input has run down to its minimum', () => {
    // 50 W out at 0.8 efficiency: 62.5 W from 1 mF; from 300 V to 200 V in (300^2 - 200^2) C / (2 P)
    const result = run([{ type: 'capacitor', id: 'C', a: 'h', b: 'g', capacitance: 1e-3, initial: 300 }, { type: 'converter', id: 'X', input: ['h', 'g'], output: ['p', 'chassis'], voltage: 10, currentLimit: 20, resistance: 0, efficiency: 0.8, idlePower: 0, minimumInput: 200 }, { type: 'resistor', id: 'R', a: 'p', b: 'chassis', resistance: 2 }],
      { duration: 1, every: 0.1, probes: { nodes: ['p'], elements: ['X', 'X:in'] } });
    const off = result.events.filter(({ element, to }) => element === 'X' && to === 'off');
    expect(off).toHaveLength(1);
    within(off[0]!.time, 0.4, 1e-4);
    within(result.voltages['p']![3]!, 10, 1e-5);
    expect(result.voltages['p']![5]!).toBe(0);
    within(result.currents['X:in']![3]!, 62.5 / Math.sqrt(90_000 - 2 * 62.5 * 0.3 / 1e-3), 1e-4);
  });
});
