/**
 * Networks at rest against a SPICE engine.
 *
 * Source:    ngspice (open source circuit simulator) compiled to WebAssembly, run here; another program, so a comparison, no published value
 * Read by:   nobody: both programs solve the same elements, each from its own equations
 * Tolerance: 0.1 % of the largest voltage (largest current): what a wiring decision could notice. Observed: below 1e-5
 */
import { describe, expect, it } from 'vitest';
import { generateCarNetwork } from '../../bench/generate-car-network.ts';
import type { Element, Network } from '../../core/solve/element.ts';
import { compareAtRest, runSpice } from './against-spice.ts';

const r = (id: string, a: string, b: string, resistance: number): Element => ({ type: 'resistor', id, a, b, resistance });
const e = (id: string, a: string, b: string, voltage: number, resistance: number): Element => ({ type: 'source', id, a, b, voltage, resistance });
const relay = (id: string, a: string, b: string, coil: string, resistance = 3e-4): Element => ({ type: 'relay', id, a, b, coil: [coil, 'chassis'], pickUp: 8, dropOut: 3, contact: 'makes', resistance });
const net = (elements: Element[]): Network => {
  const nodes = new Set(['chassis']);
  for (const one of elements) {
    for (const name of one.type === 'converter' ? [...one.input, ...one.output] : [one.a, one.b]) nodes.add(name);
    if (one.type === 'relay') one.coil.forEach((name) => nodes.add(name));
  }
  return { nodes: [...nodes], elements };
};
/** modules of 44 V joined by bars, with a leak at each end */
const pack = (modules: number, leakLow: number, leakHigh: number): Element[] => [
  ...Array.from({ length: modules }, (_, m) => e(`M${m}`, `p${m}`, `n${m}`, 44 + m / 10, 9e-3)),
  ...Array.from({ length: modules - 1 }, (_, m) => r(`bar${m}`, `p${m}`, `n${m + 1}`, 25e-6)),
  r('leak_low', 'n0', 'chassis', leakLow), r('leak_high', `p${modules - 1}`, 'chassis', leakHigh),
];
const lowVoltage = (supply = 12.6): Element[] => [e('B', 'b', 'chassis', supply, 8e-3), r('main', 'b', 'bus', 2e-3)];

const networks: [string, Network][] = [
  ['a loose pack of nine modules between two unequal leaks', net(pack(9, 3e7, 8e8))],
  ['the same pack with a 12 kohm fault at a middle bar', net([...pack(9, 3e7, 8e8), r('fault', 'p4', 'chassis', 12e3)])],
  ['a pack under a 60 kW drive behind closed contactors', net([...pack(9, 3e7, 8e8), ...lowVoltage(), r('coil', 'bus', 'chassis', 26), relay('K1', 'p8', 'lp', 'bus'), relay('K2', 'n0', 'ln', 'bus'), { type: 'power', id: 'drive', a: 'lp', b: 'ln', power: 60e3, knee: 150 }])],
  ['two strings of modules side by side that are not quite equal', net([e('A', 'ap', 'n', 396, 0.09), e('B', 'bp', 'n', 393.5, 0.085), r('wa', 'ap', 'bus', 4e-4), r('wb', 'bp', 'bus', 6e-4), { type: 'power', id: 'P', a: 'bus', b: 'n', power: 25e3, knee: 100 }, r('leak', 'n', 'chassis', 5e6)])],
  ['a bridge of bar resistances under a shunt reading', net([e('E', 'top', 'chassis', 12, 0.01), r('R1', 'top', 'l', 100), r('R2', 'l', 'chassis', 220), r('R3', 'top', 'q', 300), r('R4', 'q', 'chassis', 150), r('shunt', 'l', 'q', 100e-6)])],
  ['a converter from the pack to the low-voltage side, with battery and loads', net([...pack(9, 2e7, 4e7), { type: 'converter', id: 'D', input: ['p8', 'n0'], output: ['do', 'chassis'], voltage: 13.8, currentLimit: 130, resistance: 4e-3, efficiency: 0.93, idlePower: 18, minimumInput: 220 }, r('dw', 'do', 'bus', 2e-3), ...lowVoltage(12.4), r('lamp', 'bus', 'chassis', 2.2), { type: 'power', id: 'pump', a: 'bus', b: 'chassis', power: 90, knee: 7 }, { type: 'draw', id: 'ecu', a: 'bus', b: 'chassis', current: 3.2, knee: 6 }])],
  ['a converter at its current limit, the battery filling the rest', net([e('H', 'h', 'chassis', 380, 0.1), { type: 'converter', id: 'D', input: ['h', 'chassis'], output: ['do', 'chassis'], voltage: 14.2, currentLimit: 20, resistance: 4e-3, efficiency: 0.9, idlePower: 10, minimumInput: 220 }, r('dw', 'do', 'bus', 2e-3), ...lowVoltage(12.4), r('heater', 'bus', 'chassis', 0.2)])],
  ['a charger (supply at its limit) on a pack', net([...pack(9, 2e7, 4e7), { type: 'supply', id: 'charger', a: 'p8', b: 'n0', voltage: 410, currentLimit: 16, resistance: 0.05 }])],
  ['relays that switch relays', net([...lowVoltage(), r('c1', 'bus', 'chassis', 80), relay('K1', 'bus', 'x', 'bus', 0.01), r('c2', 'x', 'chassis', 90), relay('K2', 'bus', 'y', 'x', 0.01), r('load', 'y', 'chassis', 1.5), { type: 'relay', id: 'K3', a: 'bus', b: 'z', coil: ['y', 'chassis'], pickUp: 8, dropOut: 3, contact: 'breaks', resistance: 0.01 }, r('lamp', 'z', 'chassis', 10)])],
  ['diodes that take the higher of two feeds', net([e('A', 'a', 'chassis', 12.2, 0.02), e('B', 'b', 'chassis', 13.1, 0.02), { type: 'diode', id: 'DA', a: 'a', b: 'o', drop: 0.55, resistance: 0.03 }, { type: 'diode', id: 'DB', a: 'b', b: 'o', drop: 0.55, resistance: 0.03 }, { type: 'power', id: 'P', a: 'o', b: 'chassis', power: 40, knee: 6 }])],
  ['a drive giving back into the pack', net([...pack(9, 3e7, 8e8), { type: 'power', id: 'drive', a: 'p8', b: 'n0', power: -40e3, knee: 150 }])],
  ['a starved load on a thin wire', net([e('E', 'p', 'chassis', 12.6, 0.01), r('thin', 'p', 'q', 2.5), { type: 'power', id: 'P', a: 'q', b: 'chassis', power: 60, knee: 8 }])],
];

describe('networks at rest agree with a SPICE engine to 0.1 %', () => {
  it.each(networks)('%s', async (_, network) => {
    const { worst, node, worstCurrent, element, nodes } = await compareAtRest(network);
    expect(nodes).toBeGreaterThan(1);
    expect(worst, `at ${node}`).toBeLessThan(1e-3);
    expect(worstCurrent, `through ${element}`).toBeLessThan(1e-3);
  });
  it.each([[60, 1, true], [60, 2, false], [150, 3, true], [150, 4, false], [400, 5, true]] as const)('an invented car of about %d nodes, seed %d, driving %s', async (nodes, seed, driving) => {
    const compared = await compareAtRest(generateCarNetwork({ nodes, seed, driving }));
    expect(compared.nodes).toBeGreaterThan(0.9 * nodes);
    expect(compared.worst, `at ${compared.node}`).toBeLessThan(1e-3);
    expect(compared.worstCurrent, `through ${compared.element}`).toBeLessThan(1e-3);
  });
});

describe('the comparison itself', () => {
  it('rejects a netlist with a bad line', async () => {
    await expect(runSpice('* bad\nV1 a 0 1\nR1 a 0\n.op\n.end\n')).rejects.toThrow(/objects/);
  });
  it('sees a resistor that is 1 % off', async () => {
    const network = net([e('E', 'in', 'chassis', 12, 0.1), r('R1', 'in', 'mid', 1000), r('R2', 'mid', 'chassis', 3000)]);
    const { spiceNetlist } = await import('../../core/solve/spice-netlist.ts');
    const { text, nodeNames } = spiceNetlist(network);
    const v = (await runSpice(text.replace('3000', '3030'))).get(`v(${nodeNames.get('mid')!})`)!;
    expect(Math.abs(v[0]! / 9 - 1)).toBeGreaterThan(1e-3);
  });
});
