import { STATE_OF_POSITION } from './branch-law.ts';
import { Law } from './compile-network.ts';
import type { Compiled } from './compile-network.ts';
import { branchCurrents, hiccups } from './corners.ts';
import { REFERENCE_NODE } from './element.ts';
import { shareInLoops } from './ideal-loops.ts';
import type { NetworkSystem } from './network-system.ts';
import type { Island, RestSolved } from './rest-result.ts';

/** The numbers behind a solution: what a result reads from. The system may go on to other numbers. */
export interface Snapshot {
  readonly compiled: Compiled;
  readonly voltages: Float64Array;
  /** by branch, a to b */
  readonly currents: Float64Array;
  readonly conductance: Float64Array;
  readonly injected: Float64Array;
  /** voltages as solved, before loose islands were shifted to their pinned nodes */
  readonly asSolved: Float64Array;
  readonly positions: Uint8Array;
  /** an element that was cut out; -1: none */
  readonly opened: number;
  /** by node: index into `islands`, -1 tied to the reference; absent: all are tied */
  readonly islandOfNode: Int32Array | undefined;
  readonly floating: readonly Island[];
  readonly hiccups: readonly string[];
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
  const asSolved = x.slice(0, compiled.nodeCount);
  const islands = readIslands(system, asSolved);
  const currents = branchCurrents(system);
  shareInLoops(system.loops.loops, currents);
  return { compiled, asSolved, currents, conductance: numbers.conductance.slice(), injected: numbers.injected.slice(), positions: system.positions.slice(), opened: -1, hiccups: hiccups(system), ...islands };
}

/** A resistor between two nodes that the compiled network does not know. */
export interface FurtherResistor { readonly id: string; readonly a: number; readonly b: number; readonly current: number }

export function resultOf(snapshot: Snapshot, iterations: number, further?: FurtherResistor): RestSolved {
  const { compiled, voltages, currents, positions, islandOfNode, floating } = snapshot;
  const node = (name: string): number => {
    const index = compiled.nodeIndexOf.get(name);
    if (index === undefined) throw new Error(`the network has no node ${name}`);
    return index;
  };
  let balance: RestSolved['balance'] | undefined;
  return {
    outcome: 'solved',
    voltageOf: (name) => { const n = node(name); return n < 0 ? 0 : voltages[n]!; },
    currentOf: (id) => {
      const e = compiled.elementIndexOf.get(id);
      if (e !== undefined) return currentThrough(snapshot, e);
      if (further !== undefined && id === further.id) return further.current;
      const converter = id.endsWith(':in') ? compiled.elementIndexOf.get(id.slice(0, -3)) : undefined;
      if (converter === undefined || compiled.elementTypes[converter] !== 'converter') throw new Error(`the network has no element ${id}`);
      return currents[compiled.elementBranch[converter]! + 1]!;
    },
    stateOf: (id) => {
      const e = compiled.elementIndexOf.get(id);
      if (further !== undefined && id === further.id) return 'none';
      if (e === undefined) throw new Error(`the network has no element ${id}`);
      if (e === snapshot.opened) return 'open';
      const branch = compiled.elementBranch[e]!;
      return branch < 0 ? 'none' : STATE_OF_POSITION[positions[branch]!]!;
    },
    floating,
    islandOf: (name) => { const n = node(name); return n < 0 || islandOfNode === undefined ? -1 : islandOfNode[n]!; },
    get balance() { return (balance ??= balanceOf(snapshot, further)); },
    iterations,
    hiccups: snapshot.hiccups,
  };
}

/** a to b; a converter: its output, delivered */
function currentThrough({ compiled, asSolved, currents, conductance, injected }: Snapshot, e: number): number {
  const k = compiled.elementBranch[e]!;
  if (k >= 0) return compiled.law[k] === Law.converterOut ? -currents[k]! : currents[k]!;
  const n = compiled.formIndex[e]!;
  if (compiled.elementTypes[e] === 'current') return injected[n]!;
  const a = compiled.elementA[e]!, b = compiled.elementB[e]!;
  return conductance[n]! * ((a < 0 ? 0 : asSolved[a]!) - (b < 0 ? 0 : asSolved[b]!));
}

/** Kirchhoff's current law at every node from the elements' currents alone; the matrix has no part in it. */
function balanceOf(snapshot: Snapshot, further: FurtherResistor | undefined): { residual: number; node: string } {
  const { compiled, currents } = snapshot;
  const sums = new Float64Array(compiled.nodeCount);
  const pass = (a: number, b: number, current: number): void => {
    if (a >= 0) sums[a]! -= current;
    if (b >= 0) sums[b]! += current;
  };
  if (further !== undefined) pass(further.a, further.b, further.current);
  for (let k = 0; k < compiled.branchCount; k++) pass(compiled.branchA[k]!, compiled.branchB[k]!, currents[k]!);
  for (const elements of [compiled.conductanceElements, compiled.injectionElements]) {
    for (let n = 0; n < elements.length; n++) pass(compiled.elementA[elements[n]!]!, compiled.elementB[elements[n]!]!, currentThrough(snapshot, elements[n]!));
  }
  let residual = 0, node = compiled.hasReference || compiled.nodeNames.length === 0 ? REFERENCE_NODE : compiled.nodeNames[0]!;
  for (let n = 0; n < sums.length; n++) if (Math.abs(sums[n]!) > residual) { residual = Math.abs(sums[n]!); node = compiled.nodeNames[n]!; }
  return { residual, node };
}

/** Finds the loose islands and shifts their voltages so that their pinned node is at 0 V. */
function readIslands(system: NetworkSystem, asSolved: Float64Array): Pick<Snapshot, 'voltages' | 'islandOfNode' | 'floating'> {
  const { compiled } = system;
  const { ofNode, members, first } = system.islands();
  if (members.length === 0) return { voltages: asSolved, islandOfNode: undefined, floating: [] };
  const voltages = asSolved.slice();
  const pins = first.slice();
  const bySource = new Uint8Array(members.length);
  for (let n = 0; n < compiled.sourceElements.length; n++) {
    const b = compiled.elementB[compiled.sourceElements[n]!]!;
    if (b < 0 || ofNode[b]! < 0) continue;
    const island = ofNode[b]!;
    if (bySource[island] === 1 && voltages[b]! > voltages[pins[island]!]! - 1e-6) continue;
    pins[island] = b;
    bySource[island] = 1;
  }
  for (let n = 0; n < compiled.nodeCount; n++) if (ofNode[n]! >= 0) voltages[n]! -= asSolved[pins[ofNode[n]!]!]!;
  return { voltages, islandOfNode: ofNode, floating: members.map((nodes, island) => ({ nodes, pinned: compiled.nodeNames[pins[island]!]! })) };
}
