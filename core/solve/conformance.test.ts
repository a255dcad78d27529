/**
 * One suite of closed-form circuits for every way of solving: at rest, prepared with other numbers first, and (where the circuit
 * allows) swept from a changed neighbour and run in time until steady. Expected values are worked by hand from Ohm's and Kirchhoff's laws.
 */
import { describe, expect, it } from 'vitest';
import type { Element, Network } from './element.ts';
import { prepareSweep } from './changes.ts';
import type { RestResult } from './rest-result.ts';
import { solveInTime } from './solve-in-time.ts';
import { prepareRest, solveAtRest } from './solve-at-rest.ts';

interface Circuit {
  readonly title: string;
  readonly network: Network;
  readonly voltages?: Readonly<Record<string, number>>;
  readonly currents?: Readonly<Record<string, number>>;
  readonly states?: Readonly<Record<string, string>>;
  readonly floating?: readonly string[];
  readonly failure?: RestResult['outcome'];
  readonly offenders?: readonly string[];
  /** currents that a solve in time does not decide (ideal links side by side) */
  readonly sharedAtRestOnly?: boolean;
}

const r = (id: string, a: string, b: string, resistance: number): Element => ({ type: 'resistor', id, a, b, resistance });
const e = (id: string, a: string, b: string, voltage: number, resistance = 0): Element => ({ type: 'source', id, a, b, voltage, resistance });
const net = (...elements: Element[]): Network => {
  const nodes = new Set<string>(['chassis']);
  for (const element of elements) {
    if (element.type === 'converter') [...element.input, ...element.output].forEach((n) => nodes.add(n));
    else { nodes.add(element.a); nodes.add(element.b); }
    if (element.type === 'relay') element.coil.forEach((n) => nodes.add(n));
  }
  return { nodes: [...nodes], elements };
};
const relay = (id: string, a: string, b: string, coil: [string, string], contact: 'makes' | 'breaks', more: object = {}): Element =>
  ({ type: 'relay', id, a, b, coil, pickUp: 8, dropOut: 3, contact, resistance: 0.01, ...more });

// the power load on a source: v = (E + sqrt(E^2 - 4 R P)) / 2
const higherVoltage = (emf: number, resistance: number, power: number): number => (emf + Math.sqrt(emf * emf - 4 * resistance * power)) / 2;

const circuits: Circuit[] = [
  { title: 'an empty network is solved and holds nothing', network: { nodes: [], elements: [] } },
  { title: 'a single node is an island of its own at 0 V', network: { nodes: ['probe'], elements: [] }, voltages: { probe: 0 }, floating: ['probe'] },
  { title: 'the reference alone is not floating', network: { nodes: ['chassis'], elements: [] }, voltages: { chassis: 0 } },
  {
    title: 'everything disconnected: each open battery floats at its own negative',
    network: { nodes: ['chassis', 'p', 'n', 'q', 'm'], elements: [e('B1', 'p', 'n', 48, 0.01), e('B2', 'q', 'm', 12, 0.01), { type: 'switch', id: 'S', a: 'p', b: 'm', closed: false, resistance: 0.001 }] },
    voltages: { p: 48, n: 0, q: 12, m: 0 }, currents: { B1: 0, B2: 0, S: 0 }, states: { S: 'open' }, floating: ['n', 'm'],
  },
  { title: 'a divider divides', network: net(e('E', 'in', 'chassis', 12), r('R1', 'in', 'mid', 1000), r('R2', 'mid', 'chassis', 3000)), voltages: { in: 12, mid: 9 }, currents: { R1: 0.003, R2: 0.003, E: -0.003 } },
  {
    // Wheatstone bridge, 10 V over (100 + 200) beside (150 + 300), 50 between: balanced, so no current between
    title: 'a balanced bridge carries nothing across', network: net(e('E', 'top', 'chassis', 10), r('R1', 'top', 'l', 100), r('R2', 'l', 'chassis', 200), r('R3', 'top', 'r', 150), r('R4', 'r', 'chassis', 300), r('G', 'l', 'r', 50)),
    voltages: { l: 20 / 3, r: 20 / 3 }, currents: { G: 0, R1: 10 / 300 },
  },
  {
    // nodal equations of the unbalanced bridge solved by Cramer's rule: (vl-10)/100 + vl/200 + (vl-vr)/50 = 0, (vr-10)/300 + vr/150 + (vr-vl)/50 = 0
    title: 'an unbalanced bridge follows the nodal equations', network: net(e('E', 'top', 'chassis', 10), r('R1', 'top', 'l', 100), r('R2', 'l', 'chassis', 200), r('R3', 'top', 'r', 300), r('R4', 'r', 'chassis', 150), r('G', 'l', 'r', 50)),
    voltages: { l: (0.1 * 0.03 + 0.02 * (10 / 300)) / (0.035 * 0.03 - 0.0004), r: (0.035 * (10 / 300) + 0.02 * 0.1) / (0.035 * 0.03 - 0.0004) },
  },
  {
    title: 'superposition: two batteries and a current source on one node',
    // v (1/2 + 1/4 + 1/8) = 10/2 + 20/4 + 1
    network: net(e('E1', 'x', 'chassis', 10, 2), e('E2', 'x', 'chassis', 20, 4), { type: 'current', id: 'I', a: 'chassis', b: 'x', current: 1 }, r('R', 'x', 'chassis', 8)),
    voltages: { x: 11 / 0.875 }, currents: { I: 1, R: 11 / 7 },
  },
  { title: 'a shorted source carries its short-circuit current', network: net(e('E', 'p', 'chassis', 12.6, 0.006), r('W', 'p', 'chassis', 0)), voltages: { p: 0 }, currents: { W: 2100, E: -2100 } },
  { title: 'an ideal source shorted by an ideal short is a contradiction', network: net(e('E', 'p', 'chassis', 12), r('W', 'p', 'chassis', 0)), failure: 'contradiction', offenders: ['E', 'W'] },
  { title: 'two ideal sources that agree are solved', network: net(e('E1', 'p', 'chassis', 12), e('E2', 'p', 'chassis', 12), r('R', 'p', 'chassis', 6)), voltages: { p: 12 }, currents: { R: 2, E1: -1, E2: -1 }, sharedAtRestOnly: true },
  { title: 'two ideal links side by side share equally', network: net(e('E', 'p', 'chassis', 12, 1), r('A', 'p', 'q', 0), r('B', 'p', 'q', 0), r('R', 'q', 'chassis', 5)), voltages: { p: 10, q: 10 }, currents: { A: 1, B: 1 }, sharedAtRestOnly: true },
  {
    // three ideal links as a triangle: 2 A in at p, out at q; straight 4/3, round the other way 2/3
    title: 'a triangle of ideal links shares by least squares', network: net(e('E', 'p', 'chassis', 12, 1), r('A', 'p', 'q', 0), r('B', 'p', 's', 0), r('C', 's', 'q', 0), r('R', 'q', 'chassis', 5)), currents: { A: 4 / 3, B: 2 / 3, C: 2 / 3 }, sharedAtRestOnly: true,
  },
  { title: 'an ideal link from a node to itself changes nothing', network: net(e('E', 'p', 'chassis', 12, 1), r('A', 'p', 'p', 0), r('R', 'p', 'chassis', 5)), voltages: { p: 10 }, currents: { A: 0 } },
  {
    title: 'a current source with no way back is a contradiction', network: net(e('E', 'p', 'n', 12, 1), r('R', 'p', 'n', 5), { type: 'current', id: 'I', a: 'chassis', b: 'p', current: 1 }), failure: 'contradiction', offenders: ['I'],
  },
  { title: 'a power load takes the higher of its two voltages', network: net(e('E', 'p', 'chassis', 400, 0.1), { type: 'power', id: 'P', a: 'p', b: 'chassis', power: 50_000, knee: 100 }), voltages: { p: higherVoltage(400, 0.1, 50_000) }, states: { P: 'regulating' } },
  { title: 'a power load just short of what the wiring can carry is still solved', network: net(e('E', 'p', 'chassis', 400, 0.1), { type: 'power', id: 'P', a: 'p', b: 'chassis', power: 399_000, knee: 100 }), voltages: { p: higherVoltage(400, 0.1, 399_000) } },
  {
    // it asks for more than E^2 / 4R = 400 kW: below its knee it is the resistor knee^2 / P = 0.02 ohm
    title: 'a power load that asks for too much falls below its knee and says so', network: net(e('E', 'p', 'chassis', 400, 0.1), { type: 'power', id: 'P', a: 'p', b: 'chassis', power: 500_000, knee: 100 }), voltages: { p: 400 * 0.02 / 0.12 }, states: { P: 'limiting' },
  },
  { title: 'a power load gives back', network: net(e('E', 'p', 'chassis', 400, 0.1), { type: 'power', id: 'P', a: 'p', b: 'chassis', power: -50_000, knee: 100 }), voltages: { p: higherVoltage(400, 0.1, -50_000) } },
  { title: 'a power load with one end loose takes nothing', network: net(e('E', 'p', 'chassis', 400, 0.1), { type: 'power', id: 'P', a: 'p', b: 'x', power: 5000, knee: 100 }), voltages: { p: 400, x: 400 }, currents: { P: 0 } },
  { title: 'a current load takes its current above the knee', network: net(e('E', 'p', 'chassis', 12, 1), { type: 'draw', id: 'D', a: 'p', b: 'chassis', current: 2, knee: 6 }), voltages: { p: 10 }, currents: { D: 2 } },
  { title: 'a current load below its knee is a resistor', network: net(e('E', 'p', 'chassis', 12, 6), { type: 'draw', id: 'D', a: 'p', b: 'chassis', current: 2, knee: 6 }), voltages: { p: 4 }, currents: { D: 4 / 3 }, states: { D: 'limiting' } },
  { title: 'a diode conducts forward with its drop', network: net(e('E', 'p', 'chassis', 12), { type: 'diode', id: 'D', a: 'p', b: 'q', drop: 0.7, resistance: 0.3 }, r('R', 'q', 'chassis', 11)), voltages: { q: 11 }, currents: { D: 1 }, states: { D: 'conducting' } },
  { title: 'a diode blocks backward', network: net(e('E', 'p', 'chassis', 12), { type: 'diode', id: 'D', a: 'q', b: 'p', drop: 0.7, resistance: 0.3 }, r('R', 'q', 'chassis', 11)), voltages: { q: 0 }, currents: { D: 0 }, states: { D: 'blocking' } },
  {
    title: 'diodes in a row find their way through nodes that nothing else ties',
    network: net(e('E', 'p', 'chassis', -12), { type: 'diode', id: 'D1', a: 'chassis', b: 'm', drop: 0.5, resistance: 0.5 }, { type: 'diode', id: 'D2', a: 'm', b: 'n', drop: 0.5, resistance: 0.5 }, r('R', 'n', 'p', 10)), voltages: { m: -1, n: -2 }, currents: { R: 1 },
  },
  {
    // full bridge of four diodes on a negative source: the load sees 12 - 2 drops
    title: 'a bridge of diodes turns a negative source round',
    network: net(e('E', 'a', 'b', -12, 0.1), r('L', 'b', 'chassis', 1e6), ...(['a', 'b'] as const).flatMap((n): Element[] => [{ type: 'diode', id: `U${n}`, a: n, b: 'plus', drop: 0.7, resistance: 0.1 }, { type: 'diode', id: `L${n}`, a: 'minus', b: n, drop: 0.7, resistance: 0.1 }]), r('R', 'plus', 'minus', 10.3)),
    currents: { R: 1 }, states: { Ua: 'blocking', Ub: 'conducting', La: 'conducting', Lb: 'blocking' },
  },
  { title: 'a supply regulates below its limit', network: net({ type: 'supply', id: 'S', a: 'p', b: 'chassis', voltage: 14, currentLimit: 10, resistance: 0.1 }, r('R', 'p', 'chassis', 1.9)), voltages: { p: 13.3 }, currents: { S: -7 }, states: { S: 'regulating' } },
  { title: 'a supply limits its current', network: net({ type: 'supply', id: 'S', a: 'p', b: 'chassis', voltage: 14, currentLimit: 10, resistance: 0.1 }, r('R', 'p', 'chassis', 0.5)), voltages: { p: 5 }, currents: { S: -10 }, states: { S: 'limiting' } },
  { title: 'a supply takes nothing back', network: net({ type: 'supply', id: 'S', a: 'p', b: 'chassis', voltage: 14, currentLimit: 10, resistance: 0 }, e('E', 'p', 'chassis', 15, 0.1), r('R', 'p', 'chassis', 30)), currents: { S: 0 }, states: { S: 'off' } },
  { title: 'a supply without resistance charges an ideal battery at its limit', network: net({ type: 'supply', id: 'S', a: 'p', b: 'chassis', voltage: 14, currentLimit: 10, resistance: 0 }, e('E', 'p', 'chassis', 12)), currents: { S: -10, E: 10 }, states: { S: 'limiting' } },
  {
    // output 14 V, 1 ohm load with 0.04 ohm inside: 13.4615 A; input P = v i / 0.9 + 20 from 400 V with 1 ohm
    title: 'a converter takes from its input what it gives, its losses and its idling',
    network: net(e('E', 'h', 'g', 400, 1), { type: 'converter', id: 'C', input: ['h', 'g'], output: ['p', 'chassis'], voltage: 14, currentLimit: 100, resistance: 0.04, efficiency: 0.9, idlePower: 20, minimumInput: 200 }, r('R', 'p', 'chassis', 1)),
    voltages: { p: 14 / 1.04, h: higherVoltage(400, 1, (14 / 1.04) ** 2 / 0.9 + 20), g: 0 }, currents: { C: 14 / 1.04, 'C:in': ((14 / 1.04) ** 2 / 0.9 + 20) / higherVoltage(400, 1, (14 / 1.04) ** 2 / 0.9 + 20) }, floating: ['g'],
  },
  {
    title: 'a converter at its current limit', network: net(e('E', 'h', 'chassis', 400, 0), { type: 'converter', id: 'C', input: ['h', 'chassis'], output: ['p', 'chassis'], voltage: 14, currentLimit: 5, resistance: 0.04, efficiency: 0.8, idlePower: 0, minimumInput: 200 }, r('R', 'p', 'chassis', 2)),
    voltages: { p: 10 }, currents: { C: 5, 'C:in': 50 / 0.8 / 400 }, states: { C: 'limiting' },
  },
  {
    title: 'a converter at its power limit', network: net(e('E', 'h', 'chassis', 400, 0), { type: 'converter', id: 'C', input: ['h', 'chassis'], output: ['p', 'chassis'], voltage: 14, currentLimit: 50, resistance: 0.04, efficiency: 0.8, idlePower: 0, minimumInput: 200, powerLimit: 50 }, r('R', 'p', 'chassis', 2)),
    voltages: { p: 10 }, currents: { C: 5 }, states: { C: 'limiting' },
  },
  {
    title: 'a converter below its minimum input is off on both sides', network: net(e('E', 'h', 'chassis', 150, 0), { type: 'converter', id: 'C', input: ['h', 'chassis'], output: ['p', 'chassis'], voltage: 14, currentLimit: 5, resistance: 0.04, efficiency: 0.8, idlePower: 10, minimumInput: 200 }, r('R', 'p', 'chassis', 2)),
    voltages: { p: 0 }, currents: { C: 0, 'C:in': 0 }, states: { C: 'off' },
  },
  {
    title: 'a converter that would pull its own input down is off', network: net(e('E', 'h', 'chassis', 300, 2000), { type: 'converter', id: 'C', input: ['h', 'chassis'], output: ['p', 'chassis'], voltage: 14, currentLimit: 50, resistance: 0.04, efficiency: 0.8, idlePower: 10, minimumInput: 200 }, r('R', 'p', 'chassis', 2)),
    voltages: { h: 300, p: 0 }, states: { C: 'off' },
  },
  { title: 'a relay picks up and closes its contact', network: net(e('E', 'p', 'chassis', 12), r('coil', 'p', 'chassis', 60), relay('K', 'p', 'q', ['p', 'chassis'], 'makes'), r('R', 'q', 'chassis', 11.99)), currents: { R: 1 }, states: { K: 'closed' } },
  { title: 'a relay that breaks opens when picked up', network: net(e('E', 'p', 'chassis', 12), r('coil', 'p', 'chassis', 60), relay('K', 'p', 'q', ['p', 'chassis'], 'breaks'), r('R', 'q', 'chassis', 12)), currents: { R: 0 }, states: { K: 'open' } },
  { title: 'between drop-out and pick-up a relay stays down when it was down', network: net(e('E', 'p', 'chassis', 5), r('coil', 'p', 'chassis', 60), relay('K', 'p', 'q', ['p', 'chassis'], 'makes'), r('R', 'q', 'chassis', 4.99)), states: { K: 'open' } },
  { title: 'and up when it was up', network: net(e('E', 'p', 'chassis', 5), r('coil', 'p', 'chassis', 60), relay('K', 'p', 'q', ['p', 'chassis'], 'makes', { initiallyPickedUp: true }), r('R', 'q', 'chassis', 4.99)), currents: { R: 1 }, states: { K: 'closed' } },
  { title: 'a polarised relay does not answer to the wrong way round', network: net(e('E', 'p', 'chassis', -12), r('coil', 'p', 'chassis', 60), relay('K', 'p', 'q', ['p', 'chassis'], 'makes', { polarised: true }), r('R', 'q', 'chassis', 11.99)), states: { K: 'open' } },
  { title: 'an unpolarised one does', network: net(e('E', 'p', 'chassis', -12), r('coil', 'p', 'chassis', 60), relay('K', 'p', 'q', ['p', 'chassis'], 'makes'), r('R', 'q', 'chassis', 11.99)), states: { K: 'closed' } },
  {
    title: 'contacts on one coil move together', network: net(e('E', 'p', 'chassis', 12), r('coil', 'p', 'chassis', 60), relay('K1', 'p', 'q', ['p', 'chassis'], 'makes'), relay('K2', 'p', 's', ['p', 'chassis'], 'breaks'), r('R', 'q', 'chassis', 11.99), r('S', 's', 'chassis', 12)), states: { K1: 'closed', K2: 'open' },
  },
  {
    title: 'a relay that feeds its own coil holds itself when it was up', network: net(e('E', 'p', 'chassis', 12), { type: 'switch', id: 'start', a: 'p', b: 'c', closed: false, resistance: 0.01 }, relay('K', 'p', 'c', ['c', 'chassis'], 'makes', { initiallyPickedUp: true }), r('coil', 'c', 'chassis', 59.99)), currents: { coil: 0.2 }, states: { K: 'closed' },
  },
  { title: 'and stays down when it was down', network: net(e('E', 'p', 'chassis', 12), { type: 'switch', id: 'start', a: 'p', b: 'c', closed: false, resistance: 0.01 }, relay('K', 'p', 'c', ['c', 'chassis'], 'makes'), r('coil', 'c', 'chassis', 59.99)), currents: { coil: 0 }, states: { K: 'open' } },
  { title: 'a relay that cuts its own coil buzzes', network: net(e('E', 'p', 'chassis', 12), relay('K', 'p', 'c', ['c', 'chassis'], 'breaks'), r('coil', 'c', 'chassis', 60)), failure: 'chatter', offenders: ['K'] },
  {
    title: 'a chain of relays runs through to its end', network: net(e('E', 'p', 'chassis', 12), r('c1', 'p', 'chassis', 60), relay('K1', 'p', 'x', ['p', 'chassis'], 'makes'), r('c2', 'x', 'chassis', 60), relay('K2', 'p', 'y', ['x', 'chassis'], 'makes'), r('c3', 'y', 'chassis', 60), relay('K3', 'p', 'z', ['y', 'chassis'], 'makes'), r('R', 'z', 'chassis', 11.99)), currents: { R: 1 }, states: { K1: 'closed', K2: 'closed', K3: 'closed' },
  },
  {
    title: 'a floating battery is named and measured against its negative', network: net(e('E', 'chassis', 'n', 12, 0.1), r('R', 'chassis', 'n', 11.9), e('T', 'tp', 'tn', 300, 0.1), r('L', 'tp', 'tn', 299.9)), voltages: { tp: 299.9, tn: 0, n: -11.9 }, floating: ['tn'],
  },
  { title: 'a network without a reference floats as a whole', network: { nodes: ['p', 'n'], elements: [e('E', 'p', 'n', 12, 1), r('R', 'p', 'n', 5)] }, voltages: { p: 10, n: 0 }, floating: ['n'] },
  { title: 'one leak ties a floating battery without any current', network: net(e('T', 'tp', 'tn', 300, 0.1), r('L', 'tp', 'chassis', 1e8)), voltages: { tp: 0, tn: -300 }, currents: { L: 0 } },
  { title: 'a capacitor is open and an inductor its resistance', network: net(e('E', 'p', 'chassis', 10, 1), { type: 'inductor', id: 'L', a: 'p', b: 'q', inductance: 1e-3, resistance: 1 }, r('R', 'q', 'chassis', 3), { type: 'capacitor', id: 'C', a: 'q', b: 'chassis', capacitance: 1e-3 }), voltages: { p: 8, q: 6 }, currents: { L: 2, C: 0 } },
];

function check(circuit: Circuit, result: RestResult): void {
  expect(result.outcome).toBe(circuit.failure ?? 'solved');
  if (result.outcome !== 'solved') {
    const named = result.outcome === 'chatter' ? result.relays : result.outcome === 'contradiction' ? result.elements : [result.element ?? ''];
    expect([...named].sort()).toEqual([...(circuit.offenders ?? [])].sort());
    return;
  }
  for (const [node, value] of Object.entries(circuit.voltages ?? {})) expect(Math.abs(result.voltageOf(node) - value), `v(${node}) ${result.voltageOf(node)} ${value}`).toBeLessThan(1e-8 * (1 + Math.abs(value)));
  for (const [id, value] of Object.entries(circuit.currents ?? {})) expect(Math.abs(result.currentOf(id) - value), `i(${id}) ${result.currentOf(id)} ${value}`).toBeLessThan(1e-8 * (1 + Math.abs(value)));
  for (const [id, state] of Object.entries(circuit.states ?? {})) expect(`${id} ${result.stateOf(id)}`).toBe(`${id} ${state}`);
  expect(result.floating.map(({ pinned }) => pinned).sort()).toEqual([...(circuit.floating ?? [])].sort());
  const largest = Math.max(0, ...circuit.network.elements.map(({ id }) => Math.abs(result.currentOf(id))));
  expect(result.balance.residual).toBeLessThanOrEqual(1e-9 * largest + 1e-12);
}

/** the same structure with every source and resistance somewhat off */
function neighbour(network: Network): Network {
  return {
    nodes: network.nodes,
    elements: network.elements.map((element): Element => (element.type === 'resistor' ? { ...element, resistance: element.resistance * 1.07 } : element.type === 'source' ? { ...element, voltage: element.voltage * 0.93 } : element)),
  };
}

/** the first resistor 30 % off, and then put right by a sweep */
function sweptFromNeighbour(network: Network): RestResult {
  const first = network.elements.find((element) => element.type === 'resistor' && element.resistance > 0);
  const base = prepareSweep({ nodes: network.nodes, elements: network.elements.map((element) => (element === first && element.type === 'resistor' ? { ...element, resistance: element.resistance * 1.3 } : element)) });
  if (base.outcome !== 'ready') return base;
  return first?.type === 'resistor' ? base.withChange({ kind: 'resistance', element: first.id, resistance: first.resistance }) : base.result;
}

describe.each([
  ['at rest', (network: Network) => solveAtRest(network)],
  ['prepared with other numbers', (network: Network) => prepareRest(neighbour(network)).solve(network)],
  ['swept from a neighbour', sweptFromNeighbour],
  ['prepared and solved again', (network: Network) => { const prepared = prepareRest(network); prepared.solve(neighbour(network)); return prepared.solve(network); }],
] as const)('solved %s', (_, solve) => {
  it.each(circuits.map((circuit) => [circuit.title, circuit] as const))('%s', (__, circuit) => { check(circuit, solve(circuit.network)); });
});

describe('run in time until steady', () => {
  it.each(circuits.map((circuit) => [circuit.title, circuit] as const))('%s', (_, circuit) => {
    const { network } = circuit;
    const inputs = network.elements.flatMap((element) => (element.type === 'converter' ? [`${element.id}:in`] : []));
    const result = solveInTime(network, { duration: 1, samples: [1], probes: { nodes: network.nodes, elements: [...network.elements.map(({ id }) => id), ...inputs] } });
    expect(result.outcome).toBe(circuit.failure ?? 'solved');
    if (result.outcome === 'chatter') expect(result.relays).toEqual(circuit.offenders);
    if (result.outcome === 'contradiction') expect([...result.elements].sort()).toEqual([...circuit.offenders!].sort());
    if (result.outcome !== 'solved') return;
    for (const [node, value] of Object.entries(circuit.voltages ?? {})) expect(Math.abs(result.voltages[node]![0]! - value), `v(${node}) ${result.voltages[node]![0]} ${value}`).toBeLessThan(1e-7 * (1 + Math.abs(value)));
    if (circuit.sharedAtRestOnly !== true) for (const [id, value] of Object.entries(circuit.currents ?? {})) expect(Math.abs(result.currents[id]![0]! - value), `i(${id}) ${result.currents[id]![0]} ${value}`).toBeLessThan(1e-7 * (1 + Math.abs(value)));
  });
});
