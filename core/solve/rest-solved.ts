import { STATE_OF_POSITION } from './branch-law.ts';
import { Law } from './compile-network.ts';
import type { Compiled } from './compile-network.ts';
import { REFERENCE_NODE } from './element.ts';
import { shareInLoops } from './ideal-loops.ts';
import type { NetworkSystem } from './network-system.ts';
import type { ElementState, Island, RestSolved } from './rest-result.ts';

/** The numbers behind a solution: what a result reads from. */
export interface Snapshot {
  readonly compiled: Compiled;
  readonly voltages: Float64Array;
  /** by element, a to b; a converter: its output, delivered */
  readonly currents: Float64Array;
  /** by element: input current of a converter */
  readonly inputCurrents: Float64Array;
  readonly positions: Uint8Array;
  /** an element that was cut out; -1: none */
  readonly opened: number;
  /** by node: index into `islands`, -1 tied to the reference */
  readonly islandOfNode: Int32Array;
  readonly floating: readonly Island[];
}

/**
 * Reads a solution out of a system that has settled.
 *
 * Loose islands are pinned at the lowest negative terminal of a source in them (without a source: at their first node).
 */
export function restSolved(system: NetworkSystem, iterations: number): RestSolved {
  return resultOf(takeSnapshot(system), iterations);
}

export function takeSnapshot(system: NetworkSystem): Snapshot {
  const { compiled, numbers, x } = system;
  const voltages = x.slice(0, compiled.nodeCount);
  const { islandOfNode, floating } = readIslands(system, voltages);
  const branchCurrents = system.branchCurrents();
  shareInLoops(system.loops.loops, branchCurrents);
  const currents = new Float64Array(compiled.elementIds.length);
  const inputCurrents = new Float64Array(compiled.elementIds.length);
  for (let k = 0; k < compiled.branchCount; k++) {
    const law = compiled.law[k]!;
    if (law === Law.converterIn) inputCurrents[compiled.branchElement[k]!] = branchCurrents[k]!;
    else currents[compiled.branchElement[k]!] = law === Law.converterOut ? -branchCurrents[k]! : branchCurrents[k]!;
  }
  compiled.conductanceElements.forEach((e, n) => { currents[e] = numbers.conductance[n]! * (system.voltageAt(compiled.elementA[e]!) - system.voltageAt(compiled.elementB[e]!)); });
  compiled.injectionElements.forEach((e, n) => { currents[e] = numbers.injected[n]!; });
  return { compiled, voltages, currents, inputCurrents, positions: system.positions.slice(), opened: -1, islandOfNode, floating };
}

/** A resistor between two nodes that the compiled network does not know. */
export interface FurtherResistor { readonly id: string; readonly a: number; readonly b: number; readonly current: number }

export function resultOf(snapshot: Snapshot, iterations: number, further?: FurtherResistor): RestSolved {
  const { compiled, voltages, currents, inputCurrents, positions, islandOfNode, floating } = snapshot;
  const node = (name: string): number => {
    const index = compiled.nodeIndexOf.get(name);
    if (index === undefined) throw new Error(`the network has no node ${name}`);
    return index;
  };
  return {
    outcome: 'solved',
    voltageOf: (name) => { const n = node(name); return n < 0 ? 0 : voltages[n]!; },
    currentOf: (id) => {
      const e = compiled.elementIndexOf.get(id);
      if (e !== undefined) return currents[e]!;
      if (further !== undefined && id === further.id) return further.current;
      const converter = id.endsWith(':in') ? compiled.elementIndexOf.get(id.slice(0, -3)) : undefined;
      if (converter === undefined || compiled.elementTypes[converter] !== 'converter') throw new Error(`the network has no element ${id}`);
      return inputCurrents[converter]!;
    },
    stateOf: (id) => {
      const e = compiled.elementIndexOf.get(id);
      if (further !== undefined && id === further.id) return 'none';
      if (e === undefined) throw new Error(`the network has no element ${id}`);
      return stateOf(snapshot, e);
    },
    floating,
    islandOf: (name) => { const n = node(name); return n < 0 ? -1 : islandOfNode[n]!; },
    balance: balanceOf(compiled, currents, inputCurrents, further),
    iterations,
  };
  function stateOf({ compiled: { elementBranch } }: Snapshot, e: number): ElementState {
    if (e === snapshot.opened) return 'open';
    const branch = elementBranch[e]!;
    return branch < 0 ? 'none' : STATE_OF_POSITION[positions[branch]!]!;
  }
}

/** Kirchhoff's current law at every node from the elements' currents alone; the matrix has no part in it. */
function balanceOf(compiled: Compiled, currents: Float64Array, inputCurrents: Float64Array, further: FurtherResistor | undefined): { residual: number; node: string } {
  const sums = new Float64Array(compiled.nodeCount);
  if (further !== undefined) {
    if (further.a >= 0) sums[further.a]! -= further.current;
    if (further.b >= 0) sums[further.b]! += further.current;
  }
  for (let e = 0; e < currents.length; e++) {
    const a = compiled.elementA[e]!, b = compiled.elementB[e]!;
    const into = compiled.elementTypes[e] === 'converter' ? -currents[e]! : currents[e]!;
    if (a >= 0) sums[a]! -= into;
    if (b >= 0) sums[b]! += into;
    if (compiled.elementTypes[e] !== 'converter') continue;
    const k = compiled.elementBranch[e]! + 1;
    const inA = compiled.branchA[k]!, inB = compiled.branchB[k]!;
    if (inA >= 0) sums[inA]! -= inputCurrents[e]!;
    if (inB >= 0) sums[inB]! += inputCurrents[e]!;
  }
  let residual = 0, node = compiled.hasReference || compiled.nodeNames.length === 0 ? REFERENCE_NODE : compiled.nodeNames[0]!;
  sums.forEach((sum, n) => { if (Math.abs(sum) > residual) { residual = Math.abs(sum); node = compiled.nodeNames[n]!; } });
  return { residual, node };
}

/** Finds the loose islands and shifts their voltages so that their pinned node is at 0 V. */
function readIslands(system: NetworkSystem, voltages: Float64Array): { islandOfNode: Int32Array; floating: Island[] } {
  const { compiled, joined } = system;
  const islandOfNode = new Int32Array(compiled.nodeCount).fill(-1);
  const byRoot = new Map<number, number>();
  const members: number[][] = [];
  for (let n = 0; n < compiled.nodeCount; n++) {
    if (joined.tiedToReference(n)) continue;
    const root = joined.root(n);
    let island = byRoot.get(root);
    if (island === undefined) { island = members.length; byRoot.set(root, island); members.push([]); }
    islandOfNode[n] = island;
    members[island]!.push(n);
  }
  if (members.length === 0) return { islandOfNode, floating: [] };
  const pins = members.map((nodes) => nodes[0]!);
  const bySource = new Uint8Array(members.length);
  for (let e = 0; e < compiled.elementIds.length; e++) {
    const b = compiled.elementB[e]!;
    if (compiled.elementTypes[e] !== 'source' || b < 0 || islandOfNode[b]! < 0) continue;
    const island = islandOfNode[b]!;
    if (bySource[island] === 1 && voltages[b]! > voltages[pins[island]!]! - 1e-6) continue;
    pins[island] = b;
    bySource[island] = 1;
  }
  const shifts = pins.map((pin) => voltages[pin]!);
  for (let n = 0; n < compiled.nodeCount; n++) if (islandOfNode[n]! >= 0) voltages[n]! -= shifts[islandOfNode[n]!]!;
  return { islandOfNode, floating: members.map((nodes, island) => ({ nodes: nodes.map((n) => compiled.nodeNames[n]!), pinned: compiled.nodeNames[pins[island]!]! })) };
}

