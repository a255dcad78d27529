/**
 * Networks in time against a SPICE engine.
 *
 * Source:    ngspice (open source circuit simulator) compiled to WebAssembly, run here; another program, so a comparison, no published value
 * Read by:   nobody: both programs run the same elements, each by its own method
 * Tolerance: 0.5 % of the source voltage at every sample: what a precharge decision could notice. Samples within 2e-5 of the
 *            run after a jump are left out (the engine's contacts take 1e-5 of the run to move)
 */
import { describe, expect, it } from 'vitest';
import type { Element, Network } from '../../core/solve/element.ts';
import { generateCarNetwork } from '../../bench/generate-car-network.ts';
import { compareInTime } from './against-spice.ts';
import type { TimeRequest } from '../../core/solve/time-result.ts';

const r = (id: string, a: string, b: string, resistance: number): Element => ({ type: 'resistor', id, a, b, resistance });
const e = (id: string, a: string, b: string, voltage: number, resistance: number): Element => ({ type: 'source', id, a, b, voltage, resistance });
const c = (id: string, a: string, b: string, capacitance: number, initial = 0): Element => ({ type: 'capacitor', id, a, b, capacitance, initial });
const s = (id: string, a: string, b: string, closed: boolean, resistance = 1e-3): Element => ({ type: 'switch', id, a, b, closed, resistance });
const net = (elements: Element[]): Network => ({ nodes: [...new Set(['chassis', ...elements.flatMap((one) => (one.type === 'converter' ? [...one.input, ...one.output] : one.type === 'relay' ? [one.a, one.b, ...one.coil] : [one.a, one.b]))])], elements });

type Request = TimeRequest & { readonly every: number };
const cases: [string, Network, Omit<Request, 'probes'>, string[]][] = [
  ['precharge of a link, then the main contactor', net([e('E', 'p', 'n', 396, 0.09), r('leak', 'n', 'chassis', 1e6), s('pre', 'p', 'q', false), r('R', 'q', 'l', 47), s('main', 'p', 'l', false), c('C', 'l', 'n', 1e-3), r('bleed', 'l', 'n', 1e5)]),
    { duration: 0.5, every: 0.005, events: [{ at: 0.02, element: 'pre', closed: true }, { at: 0.3, element: 'main', closed: true }, { at: 0.35, element: 'pre', closed: false }] }, ['l', 'p']],
  ['precharge against a load of constant power', net([e('E', 'p', 'chassis', 396, 0.09), s('pre', 'p', 'q', false), r('R', 'q', 'l', 47), c('C', 'l', 'chassis', 1e-3), { type: 'power', id: 'P', a: 'l', b: 'chassis', power: 60, knee: 60 }]),
    { duration: 0.4, every: 0.004, events: [{ at: 0.01, element: 'pre', closed: true }] }, ['l']],
  ['a link run down by its bleeder and a load after the contactor opens', net([e('E', 'p', 'chassis', 396, 0.09), s('main', 'p', 'l', true), c('C', 'l', 'chassis', 1e-3, 395.9), r('bleed', 'l', 'chassis', 2000), { type: 'power', id: 'P', a: 'l', b: 'chassis', power: 30, knee: 40 }]),
    { duration: 3, every: 0.03, events: [{ at: 0.1, element: 'main', closed: false }] }, ['l']],
  ['a coil switched off with a diode across it', net([e('E', 'p', 'chassis', 12, 0.05), s('S', 'p', 'k', false, 0.01), { type: 'inductor', id: 'L', a: 'k', b: 'chassis', inductance: 0.15, resistance: 24, initial: 0 }, { type: 'diode', id: 'D', a: 'chassis', b: 'k', drop: 0.7, resistance: 0.05 }]),
    { duration: 0.08, every: 0.0008, events: [{ at: 0.002, element: 'S', closed: true }, { at: 0.04, element: 'S', closed: false }] }, ['k']],
  ['a cable with inductance between battery and link', net([e('E', 'p', 'chassis', 396, 0.09), s('main', 'p', 'w', false), { type: 'inductor', id: 'L', a: 'w', b: 'l', inductance: 4e-6, resistance: 0.01, initial: 0 }, c('C', 'l', 'chassis', 5e-4, 370), { type: 'power', id: 'P', a: 'l', b: 'chassis', power: 5000, knee: 100 }]),
    { duration: 2e-3, every: 2e-5, events: [{ at: 1e-4, element: 'main', closed: true }] }, ['l', 'w']],
  ['a charger at its limit, then at its voltage', net([{ type: 'supply', id: 'S', a: 'p', b: 'chassis', voltage: 50, currentLimit: 5, resistance: 0.1 }, c('C', 'p', 'chassis', 0.1, 20), r('R', 'p', 'chassis', 100)]),
    { duration: 1.2, every: 0.012 }, ['p']],
  ['a relay whose coil rises slowly', net([e('E', 'p', 'chassis', 12, 0.02), r('R1', 'p', 'k', 400), c('C1', 'k', 'chassis', 2e-3), { type: 'relay', id: 'K', a: 'p', b: 'q', coil: ['k', 'chassis'], pickUp: 8, dropOut: 3, contact: 'makes', resistance: 0.02, operateTime: 0.01 }, r('R', 'q', 'o', 5), c('C2', 'o', 'chassis', 0.01), r('lamp', 'o', 'chassis', 30)]),
    { duration: 2, every: 0.02 }, ['k', 'o', 'p']],
  ['a converter feeding the low-voltage side from a link that runs down', net([c('C', 'h', 'g', 2e-3, 390), r('leak', 'g', 'chassis', 1e6), { type: 'converter', id: 'D', input: ['h', 'g'], output: ['o', 'chassis'], voltage: 14, currentLimit: 40, resistance: 0.01, efficiency: 0.9, idlePower: 5, minimumInput: 100 }, r('w', 'o', 'bus', 5e-3), c('C2', 'bus', 'chassis', 0.02, 12), r('load', 'bus', 'chassis', 1.4)]),
    { duration: 0.6, every: 0.006 }, ['bus', 'o']],
];

describe('networks in time agree with a SPICE engine to 0.5 % of the source voltage', () => {
  it.each(cases)('%s', async (_, network, request, nodes) => {
    const { worst, node, time, ours } = await compareInTime(network, { ...request, probes: { nodes, elements: [] } });
    expect(ours.times.length).toBeGreaterThan(90);
    expect(worst, `at ${node}, ${time} s`).toBeLessThan(5e-3);
  });
  it('an invented car with a link: its contactors close on the link', async () => {
    const car = generateCarNetwork({ nodes: 60, seed: 7, driving: false, cornered: false });
    const network: Network = { nodes: car.nodes, elements: [...car.elements, c('link', 'link_p', 'link_n', 1e-3)] };
    const { worst, node, time, ours } = await compareInTime(network, {
      duration: 0.6, every: 0.006, probes: { nodes: ['link_p', 'bus'], elements: [] },
      events: [{ at: 0.02, element: 'drive_coil_minus', closed: true }, { at: 0.05, element: 'drive_coil_pre', closed: true }, { at: 0.45, element: 'drive_coil_plus', closed: true }],
    });
    expect(ours.events.filter(({ cause }) => cause === 'relay').map(({ element }) => element)).toEqual(['K_minus', 'K_pre', 'K_plus']);
    expect(worst, `at ${node}, ${time} s`).toBeLessThan(5e-3);
  });
});
