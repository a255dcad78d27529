import type { Element, Network } from '../core/solve/element.ts';
import { seededRandom } from '../core/solve/random.ts';

export interface CarNetworkOptions {
  /** about how many nodes; the low-voltage side is filled up with feeds until there are so many */
  readonly nodes: number;
  readonly seed: number;
  /** contactors closed and the drive taking power; default true */
  readonly driving?: boolean;
  /** diodes, current loads, the converter: off gives a network a SPICE engine can be timed on without any switching laws; default true */
  readonly cornered?: boolean;
}

/**
 * An invented car as a network: a pack of modules and busbars floating behind leaks, contactors with coils, precharge, a
 * converter, a drive that takes constant power, and a low-voltage side of fuses, wires, switches, diodes and loads.
 * The same seed gives the same car.
 */
export function generateCarNetwork({ nodes: wanted, seed, driving = true, cornered = true }: CarNetworkOptions): Network {
  const random = seededRandom(seed);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const nodes: string[] = ['chassis'];
  const elements: Element[] = [];
  const node = (name: string): string => { if (!nodes.includes(name)) nodes.push(name); return name; };
  const wire = (id: string, a: string, b: string, low: number, high: number): void => { elements.push({ type: 'resistor', id, a: node(a), b: node(b), resistance: between(low, high) }); };

  const modules = Math.max(4, Math.min(48, Math.round(wanted / 9)));
  for (let m = 0; m < modules; m++) {
    elements.push({ type: 'source', id: `M${m}`, a: node(`m${m}p`), b: node(`m${m}n`), voltage: between(360, 368) / modules, resistance: between(0.1, 0.12) / modules });
    if (m > 0) wire(`bar${m}`, `m${m - 1}p`, `m${m}n`, 15e-6, 60e-6);
    if (m % 4 === 0) wire(`leak${m}`, `m${m}n`, 'chassis', 2e7, 5e8);
  }
  wire('leak_top', `m${modules - 1}p`, 'chassis', 2e7, 5e8);
  wire('hv_minus_cable', 'm0n', 'hv_n', 2e-4, 6e-4);
  wire('hv_fuse', `m${modules - 1}p`, 'hv_p', 3e-4, 8e-4);
  const relay = (id: string, a: string, b: string, coil: string, resistance: number): void => {
    elements.push({ type: 'relay', id, a: node(a), b: node(b), coil: [node(coil), 'chassis'], pickUp: 8, dropOut: 3, contact: 'makes', resistance });
    wire(`${id}_coil`, coil, 'chassis', 20, 60);
  };
  relay('K_minus', 'hv_n', 'link_n', 'coil_minus', 2e-4);
  relay('K_plus', 'hv_p', 'link_p', 'coil_plus', 2e-4);
  relay('K_pre', 'hv_p', 'pre', 'coil_pre', 0.02);
  wire('R_pre', 'pre', 'link_p', 45, 55);
  wire('bleeder', 'link_p', 'link_n', 9e4, 1.1e5);
  wire('link_leak', 'link_n', 'chassis', 1e7, 1e8);
  elements.push({ type: 'power', id: 'drive', a: 'link_p', b: 'link_n', power: driving ? between(2e4, 6e4) : 0, knee: 150 });

  elements.push({ type: 'source', id: 'B12', a: node('b12'), b: node('b12n'), voltage: 12.6, resistance: 0.008 });
  wire('ground_strap', 'b12n', 'chassis', 2e-4, 5e-4);
  wire('main_12', 'b12', 'bus', 5e-4, 2e-3);
  if (cornered) {
    wire('dcdc_p', 'link_p', 'dc_p', 1e-3, 3e-3);
    elements.push({ type: 'converter', id: 'DCDC', input: ['dc_p', 'link_n'], output: [node('dc_out'), 'chassis'], voltage: 14, currentLimit: 120, resistance: 0.005, efficiency: 0.92, idlePower: 15, minimumInput: 200 });
    wire('dcdc_out', 'dc_out', 'bus', 1e-3, 3e-3);
  }
  for (const coil of ['coil_minus', 'coil_plus']) elements.push({ type: 'switch', id: `drive_${coil}`, a: 'bus', b: coil, closed: driving, resistance: 0.02 });
  elements.push({ type: 'switch', id: 'drive_coil_pre', a: 'bus', b: 'coil_pre', closed: false, resistance: 0.02 });

  for (let f = 0; nodes.length < wanted - 3; f++) {
    const feed = `f${f}`;
    wire(`${feed}_fuse`, 'bus', `${feed}_a`, 2e-3, 2e-2);
    wire(`${feed}_wire`, `${feed}_a`, `${feed}_b`, 5e-3, 8e-2);
    const ground = random() < 0.5 ? 'chassis' : `${feed}_g`;
    if (ground !== 'chassis') wire(`${feed}_ground`, ground, 'chassis', 1e-3, 2e-2);
    const kind = Math.floor(random() * (cornered ? 6 : 3));
    const load = `${feed}_load`;
    if (kind === 0) wire(load, `${feed}_b`, ground, 6, 200);
    else if (kind === 1) { elements.push({ type: 'switch', id: `${feed}_switch`, a: `${feed}_b`, b: node(`${feed}_c`), closed: random() < 0.7, resistance: 0.01 }); wire(load, `${feed}_c`, ground, 3, 60); }
    else if (kind === 2) elements.push({ type: 'power', id: load, a: node(`${feed}_b`), b: ground, power: between(2, 60), knee: 6 });
    else if (kind === 3) elements.push({ type: 'draw', id: load, a: node(`${feed}_b`), b: ground, current: between(0.1, 3), knee: 6 });
    else if (kind === 4) { elements.push({ type: 'diode', id: `${feed}_diode`, a: node(`${feed}_b`), b: node(`${feed}_c`), drop: 0.6, resistance: 0.02 }); wire(load, `${feed}_c`, ground, 8, 80); }
    else { relay(`${feed}_relay`, 'bus', `${feed}_c`, `${feed}_b`, 0.01); wire(load, `${feed}_c`, ground, 2, 30); }
  }
  return { nodes, elements };
}
