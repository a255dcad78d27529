import { LEAST_INPUT, LEAST_RESISTANCE } from './branch-law.ts';
import { REFERENCE_NODE } from './element.ts';
import type { Converter, Element, Network } from './element.ts';
import { Joined } from './islands.ts';
import { solveAtRest } from './solve-at-rest.ts';

export type SpiceAnalysis =
  | { readonly kind: 'op' }
  /** `events` may move relays too: what a solve in time reported */
  | { readonly kind: 'tran'; readonly step: number; readonly stop: number; readonly events: readonly { readonly at: number; readonly element: string; readonly closed: boolean }[]; readonly longestStep?: number };

export interface SpiceOptions {
  /** a starting guess [V] by node: which of two voltages of a constant-power load the engine is to look near */
  readonly near?: (node: string) => number;
  /** resistors below this [ohm] are written so that the engine gives them a current of their own; 0: never. Default 0.01 */
  readonly ownCurrentBelow?: number;
  /** engine options; default sharp ones */
  readonly options?: string;
}

export interface SpiceNetlist {
  readonly text: string;
  /** node of the network -> node of the netlist; `0` is the reference */
  readonly nodeNames: ReadonlyMap<string, string>;
  /** element -> its device, and where the engine reports its current: vector and sign (only devices that have one) */
  readonly elementNames: ReadonlyMap<string, { readonly device: string; readonly current?: { readonly vector: string; readonly sign: 1 | -1 } }>;
}

/** [ohm]: what an open contact is while time runs, and what ties a loose island */
const OPEN = 1e12;
const TIE = 1e9;
/** share of the run that a contact takes to move in the netlist */
const CONTACT_SHARE = 1e-5;

/**
 * The network as a netlist for a SPICE engine, in the common open syntax.
 *
 * Loads, supplies and converters are behavioural current sources with the laws of element.ts, diodes piecewise linear ones.
 * At rest switches and relays stand as `solveAtRest` leaves them (unsolved: as the elements say) and converters are on or off as
 * there; in time they are conductances moved by the events, each within 1e-5 of the run. Each island without a way to the reference is tied to
 * it by 1 Gohm, in the netlist only.
 */
export function spiceNetlist(network: Network, analysis: SpiceAnalysis = { kind: 'op' }, options: SpiceOptions = {}): SpiceNetlist {
  const { near, ownCurrentBelow = 0.01, options: engine = 'reltol=1e-6 abstol=1e-12 vntol=1e-9 gmin=1e-15 pivtol=1e-20 itl1=500 itl2=500 itl4=200' } = options;
  const nodeNames = new Map<string, string>([[REFERENCE_NODE, '0']]);
  const node = (name: string): string => {
    let known = nodeNames.get(name);
    if (known === undefined) { known = `n${nodeNames.size}`; nodeNames.set(name, known); }
    return known;
  };
  network.nodes.forEach(node);
  const rest = solveAtRest(network);
  const isClosed = (element: Element): boolean => {
    if (element.type === 'switch' && (analysis.kind === 'tran' || rest.outcome !== 'solved')) return element.closed;
    if (element.type !== 'switch' && element.type !== 'relay') return true;
    if (rest.outcome === 'solved' && analysis.kind === 'op') return rest.stateOf(element.id) === 'closed';
    return element.type === 'relay' ? (element.initiallyPickedUp === true) === (element.contact === 'makes') : false;
  };
  const lines: string[] = ['* network'];
  const elementNames = new Map<string, { device: string; current?: { vector: string; sign: 1 | -1 } }>();
  const add = (id: string, device: string, text: string, current?: { vector: string; sign: 1 | -1 }): void => { lines.push(text); elementNames.set(id, current === undefined ? { device } : { device, current }); };
  const ohms = (id: string, device: string, a: string, b: string, resistance: number): void => {
    if (resistance === 0) add(id, `V${device}`, `V${device} ${a} ${b} 0`, { vector: `i(v${device})`, sign: 1 });
    else if (resistance < ownCurrentBelow) add(id, `H${device}`, `V${device} ${a} x${device} 0\nH${device} x${device} ${b} V${device} ${number(resistance)}`, { vector: `i(v${device})`, sign: 1 });
    else add(id, `R${device}`, `R${device} ${a} ${b} ${number(resistance)}`);
  };
  network.elements.forEach((element, e) => {
    const id = element.id, device = String(e);
    if (element.type === 'converter') { const [line, input] = converter(element, device, node, rest.outcome !== 'solved' || rest.stateOf(id) !== 'off' || analysis.kind === 'tran'); add(id, `B${device}`, line); lines.push(input); return; }
    const a = node(element.a), b = node(element.b), v = `v(${a},${b})`;
    switch (element.type) {
      case 'resistor': ohms(id, device, a, b, element.resistance); break;
      case 'source':
        if (element.resistance === 0) add(id, `V${device}`, `V${device} ${a} ${b} ${number(element.voltage)}`, { vector: `i(v${device})`, sign: 1 });
        else if (element.resistance < ownCurrentBelow) add(id, `V${device}`, `V${device} ${a} x${device} ${number(element.voltage)}\nH${device} x${device} ${b} V${device} ${number(element.resistance)}`, { vector: `i(v${device})`, sign: 1 });
        else add(id, `V${device}`, `V${device} ${a} x${device} ${number(element.voltage)}\nR${device} x${device} ${b} ${number(element.resistance)}`, { vector: `i(v${device})`, sign: 1 });
        break;
      case 'current': add(id, `I${device}`, `I${device} ${a} ${b} ${number(element.current)}`); break;
      case 'capacitor': if (analysis.kind === 'tran' && element.capacitance > 0) add(id, `C${device}`, `C${device} ${a} ${b} ${number(element.capacitance)} ic=${number(element.initial ?? voltageAcross(rest, element))}`); break;
      case 'inductor':
        if (analysis.kind === 'op' || element.inductance === 0) ohms(id, device, a, b, element.resistance);
        else add(id, `L${device}`, `L${device} ${a} y${device} ${number(element.inductance)} ic=${number(element.initial ?? (rest.outcome === 'solved' ? rest.currentOf(id) : 0))}\n${element.resistance === 0 ? `V${device} y${device} ${b} 0` : `R${device} y${device} ${b} ${number(element.resistance)}`}`, { vector: `i(l${device})`, sign: 1 });
        break;
      case 'switch': case 'relay': {
        if (analysis.kind === 'op') { if (isClosed(element)) ohms(id, device, a, b, element.resistance); break; }
        const moves = analysis.events.filter((event) => event.element === id);
        // a contact whose conductance goes over within a moment: a jump would stop the engine's step control
        const made = 1 / Math.max(element.resistance, LEAST_RESISTANCE);
        add(id, `B${device}`, `B${device} ${a} ${b} I=${v}*(${number(1 / OPEN)}+${number(made)}*v(c${device}))\nV${device} c${device} 0 ${controlVoltage(isClosed(element), moves, CONTACT_SHARE * analysis.stop)}`);
        break;
      }
      case 'diode': add(id, `B${device}`, `B${device} ${a} ${b} I=max(0,(${v}-${number(element.drop)})/${number(Math.max(element.resistance, LEAST_RESISTANCE))})`); break;
      case 'power': {
        if (element.power === 0) break;
        const knee = number(element.knee), power = number(element.power);
        add(id, `B${device}`, `B${device} ${a} ${b} I=(abs(${v})>${knee} ? ${power}/${v} : ${v}*${number(element.power / element.knee ** 2)})`);
        break;
      }
      case 'draw': if (element.current !== 0) add(id, `B${device}`, `B${device} ${a} ${b} I=max(-${number(element.current)},min(${number(element.current)},${v}*${number(element.current / element.knee)}))`); break;
      case 'supply': add(id, `B${device}`, `B${device} ${a} ${b} I=-min(${number(element.currentLimit)},max(0,(${number(element.voltage)}-${v})/${number(Math.max(element.resistance, LEAST_RESISTANCE))}))`); break;
    }
  });
  for (const name of looseIslands(network, isClosed, analysis.kind === 'tran', rest)) lines.push(`Rtie${node(name)} ${node(name)} 0 ${number(TIE)}`);
  if (near !== undefined) for (const [name, short] of nodeNames) if (short !== '0') lines.push(`.nodeset v(${short})=${number(near(name))}`);
  lines.push(`.options ${engine}`);
  lines.push(analysis.kind === 'op' ? '.op' : `.tran ${number(analysis.step)} ${number(analysis.stop)} 0${analysis.longestStep === undefined ? '' : ` ${number(analysis.longestStep)}`} uic`);
  lines.push('.end');
  return { text: `${lines.join('\n')}\n`, nodeNames, elementNames };
}

function converter(element: Converter, device: string, node: (name: string) => string, on: boolean): [string, string] {
  const [p, n] = element.output.map(node) as [string, string], [h, g] = element.input.map(node) as [string, string];
  const out = `v(${p},${n})`, into = `v(${h},${g})`;
  const least = number(Math.max(element.minimumInput, LEAST_INPUT));
  const limit = element.powerLimit === undefined ? number(element.currentLimit) : `min(${number(element.currentLimit)},${number(element.powerLimit)}/max(${out},${number(1e-3 * element.voltage)}))`;
  const delivered = on ? `(${into}>=${least} ? min(${limit},max(0,(${number(element.voltage)}-${out})/${number(Math.max(element.resistance, LEAST_RESISTANCE))})) : 0)` : '0';
  return [
    `B${device} ${p} ${n} I=-${delivered}`,
    `B${device}i ${h} ${g} I=${on ? `(${into}>=${least} ? (max(${out}*${delivered},0)/${number(element.efficiency)}+${number(element.idlePower)})/${into} : 0)` : '0'}`,
  ];
}

/** A voltage of 0 (open) or 1 (closed) that goes over within `width` seconds from each event on. */
function controlVoltage(closed: boolean, moves: readonly { readonly at: number; readonly closed: boolean }[], width: number): string {
  if (moves.length === 0) return closed ? '1' : '0';
  let level = closed ? 1 : 0, last = 0;
  const points: string[] = [];
  for (const { at, closed: to } of moves) {
    const from = Math.max(at, last);
    if (points.length === 0 && from > 0) points.push(`0 ${level}`);
    last = from + width;
    points.push(`${number(from)} ${level}`, `${number(last)} ${Number(to)}`);
    level = Number(to);
    last += width / 1000;
  }
  return `pwl(${points.join(' ')})`;
}

function voltageAcross(rest: ReturnType<typeof solveAtRest>, element: { a: string; b: string }): number {
  if (rest.outcome !== 'solved' || rest.islandOf(element.a) !== rest.islandOf(element.b)) return 0;
  return rest.voltageOf(element.a) - rest.voltageOf(element.b);
}

/** One node of each island that has no way to the reference: at rest as solved, in time with every contact taken as closed. */
function looseIslands(network: Network, isClosed: (element: Element) => boolean, inTime: boolean, rest: ReturnType<typeof solveAtRest>): string[] {
  if (!inTime && rest.outcome === 'solved') return rest.floating.map(({ pinned }) => pinned);
  const names = [...new Set(network.nodes)].filter((name) => name !== REFERENCE_NODE);
  const index = new Map<string, number>([[REFERENCE_NODE, -1], ...names.map((name, n): [string, number] => [name, n])]);
  const joined = new Joined(names.length);
  for (const element of network.elements) {
    if (element.type === 'converter') { joined.join(index.get(element.input[0])!, index.get(element.input[1])!); joined.join(index.get(element.output[0])!, index.get(element.output[1])!); continue; }
    if (element.type === 'capacitor' && !inTime) continue;
    if ((element.type === 'switch' || element.type === 'relay') && !inTime && !isClosed(element)) continue;
    joined.join(index.get(element.a)!, index.get(element.b)!);
  }
  const pins = new Map<number, string>();
  for (const element of network.elements) if (element.type === 'source' && !joined.tiedToReference(index.get(element.b)!) && !pins.has(joined.root(index.get(element.b)!))) pins.set(joined.root(index.get(element.b)!), element.b);
  names.forEach((name, n) => { if (!joined.tiedToReference(n) && !pins.has(joined.root(n))) pins.set(joined.root(n), name); });
  return [...pins.values()];
}

/** Shortest text that reads back as the same number. */
function number(value: number): string { return String(value); }
