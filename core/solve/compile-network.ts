/**
 * A network as an indexed system of equations (modified nodal analysis, hybrid form).
 *
 * Unknowns: the voltage of every node but the reference, then one current for every branch. A resistor above
 * `BRANCH_BELOW` is a conductance and has no branch; everything else has one, with the row
 *     alpha (v_a - v_b) + beta i = gamma,
 * so that a 20 micro-ohm busbar and a 100 Mohm leak stand in one matrix without one drowning the other, and so that a
 * switch, a diode or a current limit changes three numbers and never the pattern. A converter has two branches: output, then input.
 */
import { REFERENCE_NODE } from './element.ts';
import type { Element, Network } from './element.ts';
import { BridgeFinder } from './islands.ts';
import { PatternBuilder } from './sparse-matrix.ts';
import type { SparseMatrix } from './sparse-matrix.ts';

/** Resistors up to this [ohm] get a current of their own. */
export const BRANCH_BELOW = 10;
/** A conductance that has shrunk to less than this [ohm] no longer fits the form it was compiled in. */
const CONDUCTANCE_FROM = 1e-3;

/** What law a branch follows; see branch-law.ts. */
export const Law = { resistive: 0, switched: 1, diode: 2, power: 3, draw: 4, supply: 5, converterOut: 6, converterIn: 7, capacitor: 8, inductor: 9 } as const;

/** The numbers of the elements, by branch (`conductance`: by resistor without a branch). */
export interface Numbers {
  /** [ohm] */
  readonly resistance: Float64Array;
  /** electromotive force, drop or regulated voltage [V] */
  readonly voltage: Float64Array;
  /** power [W], current or current limit [A], capacitance [F], inductance [H] */
  readonly amount: Float64Array;
  /** knee, or a converter's minimum input [V] */
  readonly knee: Float64Array;
  readonly efficiency: Float64Array;
  readonly idlePower: Float64Array;
  readonly powerLimit: Float64Array;
  readonly closed: Uint8Array;
  /** current of each ideal current source [A] */
  readonly injected: Float64Array;
  readonly conductance: Float64Array;
  /** by coil: thresholds [V], and whether it starts picked up */
  readonly pickUp: Float64Array;
  readonly dropOut: Float64Array;
  readonly pickedUp: Uint8Array;
}

/** One coil and all contacts that move with it. */
export interface CoilGroup {
  readonly coil: readonly [number, number];
  readonly polarised: boolean;
  /** branches of the contacts this coil moves, and whether each is closed when picked up */
  readonly contacts: readonly { readonly branch: number; readonly makes: boolean; readonly id: string; readonly operateTime: number; readonly releaseTime: number }[];
}

export interface Compiled {
  readonly nodeNames: readonly string[];
  /** what it was made from: other networks fit when they have the same nodes and their elements stand between the same of them */
  readonly madeFrom: Network;
  /** -1 for the reference */
  readonly nodeIndexOf: ReadonlyMap<string, number>;
  readonly hasReference: boolean;
  readonly nodeCount: number;
  readonly branchCount: number;
  readonly elementIds: readonly string[];
  readonly elementTypes: readonly string[];
  readonly elementIndexOf: ReadonlyMap<string, number>;
  readonly elementA: Int32Array;
  readonly elementB: Int32Array;
  /** first branch of each element; -1: conductance or current source */
  readonly elementBranch: Int32Array;
  readonly law: Uint8Array;
  readonly branchA: Int32Array;
  readonly branchB: Int32Array;
  readonly branchElement: Int32Array;
  /** elements that are conductances / current sources */
  readonly conductanceElements: Int32Array;
  readonly injectionElements: Int32Array;
  /** index of an element without a branch in `conductanceElements` or `injectionElements` */
  readonly formIndex: Int32Array;
  readonly sourceElements: Int32Array;
  /** branches of switches (not relays) */
  readonly handSwitches: Int32Array;
  /** branches whose law has corners */
  readonly cornered: Int32Array;
  /** branches whose row depends on where the unknowns stand; those that store energy do so in time only */
  readonly moving: Int32Array;
  readonly stores: Int32Array;
  /** branches whose row depends on their position and not on the unknowns */
  readonly switching: Int32Array;
  readonly coils: readonly CoilGroup[];
  /** index into `coils` of each relay, else -1 */
  readonly coilOfElement: Int32Array;
  readonly pattern: SparseMatrix;
  readonly slots: Slots;
  /** over branches, then conductances, then current sources; made when first asked for */
  readonly bridges: () => BridgeFinder;
}

/** Where each number stands in the values of the matrix; -1: it falls on the reference. */
export interface Slots {
  readonly nodeDiagonal: Int32Array;
  readonly alphaA: Int32Array;
  readonly alphaB: Int32Array;
  readonly beta: Int32Array;
  /** incidence: node row of a branch current, +1 at a, -1 at b */
  readonly leaveA: Int32Array;
  readonly leaveB: Int32Array;
  /** converter input rows: dependence on the output's two voltages and current */
  readonly outputA: Int32Array;
  readonly outputB: Int32Array;
  readonly outputCurrent: Int32Array;
  /** four a conductance: aa, bb, ab, ba */
  readonly conductance: Int32Array;
}

/** Throws on a network that breaks the rules of element.ts (double id, resistance < 0, number not finite). */
export function compileNetwork(network: Network): Compiled {
  const nodeIndexOf = new Map<string, number>();
  const nodeNames: string[] = [];
  let hasReference = false;
  const index = (name: string): number => {
    if (name === REFERENCE_NODE) { hasReference = true; return -1; }
    const known = nodeIndexOf.get(name);
    if (known !== undefined) return known;
    nodeIndexOf.set(name, nodeNames.length);
    nodeNames.push(name);
    return nodeNames.length - 1;
  };
  network.nodes.forEach(index);
  const elements = network.elements;
  const elementIndexOf = new Map<string, number>();
  const elementA = new Int32Array(elements.length), elementB = new Int32Array(elements.length);
  const elementBranch = new Int32Array(elements.length).fill(-1);
  const law: number[] = [], branchA: number[] = [], branchB: number[] = [], branchElement: number[] = [];
  const conductanceElements: number[] = [], injectionElements: number[] = [], sourceElements: number[] = [], handSwitches: number[] = [];
  const formIndex = new Int32Array(elements.length).fill(-1);
  const addBranch = (rule: number, a: number, b: number, element: number): void => { law.push(rule); branchA.push(a); branchB.push(b); branchElement.push(element); };
  elements.forEach((element, e) => {
    if (elementIndexOf.has(element.id)) throw new Error(`element ids must be unique: ${element.id} occurs twice`);
    elementIndexOf.set(element.id, e);
    const [a, b] = endsOf(element).map(index) as [number, number];
    elementA[e] = a;
    elementB[e] = b;
    if (element.type === 'current') { formIndex[e] = injectionElements.length; injectionElements.push(e); return; }
    if (element.type === 'resistor' && element.resistance > BRANCH_BELOW) { formIndex[e] = conductanceElements.length; conductanceElements.push(e); return; }
    if (element.type === 'source') sourceElements.push(e);
    else if (element.type === 'switch') handSwitches.push(law.length);
    elementBranch[e] = law.length;
    addBranch(lawOf(element), a, b, e);
    if (element.type === 'converter') addBranch(Law.converterIn, index(element.input[0]), index(element.input[1]), e);
  });
  for (const element of elements) if (element.type === 'relay') element.coil.forEach(index);
  if (hasReference) nodeIndexOf.set(REFERENCE_NODE, -1);
  const having = (...laws: readonly number[]): Int32Array => {
    const found: number[] = [];
    for (let k = 0; k < law.length; k++) if (laws.includes(law[k]!)) found.push(k);
    return Int32Array.from(found);
  };
  const shape = {
    cornered: having(Law.diode, Law.supply, Law.converterOut, Law.power, Law.draw, Law.converterIn), moving: having(Law.power, Law.converterOut, Law.converterIn),
    stores: having(Law.capacitor, Law.inductor), switching: having(Law.switched, Law.diode, Law.draw, Law.supply),
    nodeNames, madeFrom: network, nodeIndexOf, hasReference, nodeCount: nodeNames.length, branchCount: law.length,
    elementIds: elements.map(({ id }) => id), elementTypes: elements.map(({ type }) => type), elementIndexOf, elementA, elementB, elementBranch,
    law: Uint8Array.from(law), branchA: Int32Array.from(branchA), branchB: Int32Array.from(branchB), branchElement: Int32Array.from(branchElement),
    conductanceElements: Int32Array.from(conductanceElements), injectionElements: Int32Array.from(injectionElements), formIndex,
    sourceElements: Int32Array.from(sourceElements), handSwitches: Int32Array.from(handSwitches),
  };
  let bridges: BridgeFinder | undefined;
  return { ...shape, ...coilGroups(network, nodeIndexOf, elementBranch), ...layOut(shape), bridges: () => (bridges ??= bridgeFinder(shape)) };
}

/**
 * The same network with one element that has a branch become a switch: pattern and everything else stay.
 *
 * @returns undefined where more would change: converters, relays (their coils), conductances and current sources
 */
export function withSwitchInstead(compiled: Compiled, element: number): Compiled | undefined {
  const k = compiled.elementBranch[element]!;
  const type = compiled.elementTypes[element]!;
  if (k < 0 || type === 'converter' || type === 'relay') return undefined;
  if (type === 'switch') return compiled;
  const law = compiled.law.slice();
  law[k] = Law.switched;
  const without = (list: Int32Array): Int32Array => list.filter((branch) => branch !== k);
  return {
    ...compiled, law, elementTypes: compiled.elementTypes.map((one, e) => (e === element ? 'switch' : one)), sourceElements: compiled.sourceElements.filter((e) => e !== element),
    handSwitches: Int32Array.from([...compiled.handSwitches, k]), switching: Int32Array.from([...without(compiled.switching), k]),
    cornered: without(compiled.cornered), moving: without(compiled.moving), stores: without(compiled.stores),
  };
}

/** The two nodes between which an element's (output) current flows. */
export function endsOf(element: Element): readonly [string, string] {
  return element.type === 'converter' ? element.output : [element.a, element.b];
}

export function emptyNumbers(compiled: Compiled): Numbers {
  const n = compiled.branchCount;
  return {
    resistance: new Float64Array(n), voltage: new Float64Array(n), amount: new Float64Array(n), knee: new Float64Array(n), efficiency: new Float64Array(n),
    idlePower: new Float64Array(n), powerLimit: new Float64Array(n), closed: new Uint8Array(n),
    injected: new Float64Array(compiled.injectionElements.length), conductance: new Float64Array(compiled.conductanceElements.length),
    pickUp: new Float64Array(compiled.coils.length), dropOut: new Float64Array(compiled.coils.length), pickedUp: new Uint8Array(compiled.coils.length),
  };
}

/** Copies numbers into others of the same structure. */
export function copyNumbers(from: Numbers, into: Numbers): Numbers {
  for (const name of namesOf(from)) into[name].set(from[name]);
  return into;
}

/** Whether two sets of numbers of one structure are the same. */
export function sameNumbers(one: Numbers, other: Numbers): boolean {
  for (const name of namesOf(one)) {
    const a = one[name], b = other[name];
    for (let n = 0; n < a.length; n++) if (a[n] !== b[n]) return false;
  }
  return true;
}

const namesOf = (numbers: Numbers): (keyof Numbers)[] => Object.keys(numbers) as (keyof Numbers)[];

/**
 * Copies the numbers of a network into `numbers`.
 *
 * @param before  elements whose numbers stand there already, in the same order: the same object is not read again
 * @returns false when the network's structure is not the compiled one (other elements, nodes or forms): compile again
 */
export function readNumbers(compiled: Compiled, network: Network, numbers: Numbers, before?: readonly Element[]): boolean {
  const { elements } = network;
  if (elements.length !== compiled.elementIds.length || !hasSameNodes(compiled, network)) return false;
  let conductance = 0, injection = 0;
  numbers.pickedUp.fill(0);
  for (let e = 0; e < elements.length; e++) {
    const element = elements[e]!;
    const branch = compiled.elementBranch[e]!;
    if (before !== undefined && before[e] === element && element.type !== 'relay') {
      if (branch < 0) { if (element.type === 'current') injection++; else conductance++; }
      continue;
    }
    if (!standsAsCompiled(compiled, element, e)) return false;
    if (element.type === 'relay') {
      const coil = compiled.coilOfElement[e]!;
      numbers.pickUp[coil] = finite(element.pickUp, element);
      numbers.dropOut[coil] = finite(element.dropOut, element);
      if (element.dropOut > element.pickUp) throw new Error(`a relay must drop out at or below its pick-up voltage: ${element.id}`);
      if (element.initiallyPickedUp === true) numbers.pickedUp[coil] = 1;
    }
    if (branch >= 0) { readBranch(element, branch, numbers); continue; }
    if (element.type === 'current') { numbers.injected[injection++] = finite(element.current, element); continue; }
    if (element.type !== 'resistor' || element.resistance < CONDUCTANCE_FROM) return false;
    numbers.conductance[conductance++] = 1 / finite(element.resistance, element);
  }
  return true;
}

/** Whether a network has the structure that `compiled` was made from: the same elements between the same nodes. */
export function fits(compiled: Compiled, network: Network): boolean {
  const { elements } = network;
  return elements.length === compiled.elementIds.length && hasSameNodes(compiled, network)
    && elements.every((element, e) => standsAsCompiled(compiled, element, e) && (element.type !== 'resistor' || compiled.elementBranch[e]! >= 0 || element.resistance >= CONDUCTANCE_FROM));
}

function hasSameNodes({ madeFrom: { nodes } }: Compiled, network: Network): boolean {
  return nodes === network.nodes || (nodes.length === network.nodes.length && nodes.every((name, index) => name === network.nodes[index]));
}

/** The same element between the same nodes. Edits of a file keep the names of elements and move their ends. */
function standsAsCompiled(compiled: Compiled, now: Element, e: number): boolean {
  if (now.id !== compiled.elementIds[e] || now.type !== compiled.elementTypes[e]) return false;
  const was = compiled.madeFrom.elements[e]!;
  if (now.type === 'converter') return was.type === 'converter' && isSamePair(was.input, now.input) && isSamePair(was.output, now.output);
  if (was.type === 'converter' || was.a !== now.a || was.b !== now.b) return false;
  if (now.type !== 'relay') return true;
  return was.type === 'relay' && isSamePair(was.coil, now.coil) && was.contact === now.contact && (was.polarised ?? false) === (now.polarised ?? false);
}

function isSamePair(one: readonly [string, string], other: readonly [string, string]): boolean {
  return one[0] === other[0] && one[1] === other[1];
}

/** Copies the numbers of one element that has the branch k (a converter: k and k + 1). */
export function readBranch(element: Element, k: number, numbers: Numbers): void {
  const { resistance, voltage, amount, knee, closed } = numbers;
  switch (element.type) {
    case 'resistor': resistance[k] = notNegative(element.resistance, element); break;
    case 'source': resistance[k] = notNegative(element.resistance, element); voltage[k] = finite(element.voltage, element); break;
    case 'capacitor': amount[k] = notNegative(element.capacitance, element); break;
    case 'inductor': resistance[k] = notNegative(element.resistance, element); amount[k] = notNegative(element.inductance, element); break;
    case 'switch': resistance[k] = notNegative(element.resistance, element); closed[k] = element.closed ? 1 : 0; break;
    case 'relay': resistance[k] = notNegative(element.resistance, element); break;
    case 'diode': resistance[k] = notNegative(element.resistance, element); voltage[k] = notNegative(element.drop, element); break;
    case 'power': amount[k] = notable(finite(element.power, element)); knee[k] = positive(element.knee, element); break;
    case 'draw': amount[k] = notable(notNegative(element.current, element)); knee[k] = positive(element.knee, element); break;
    case 'supply': resistance[k] = notNegative(element.resistance, element); voltage[k] = finite(element.voltage, element); amount[k] = notNegative(element.currentLimit, element); break;
    case 'converter': {
      resistance[k] = notNegative(element.resistance, element);
      voltage[k] = finite(element.voltage, element);
      amount[k] = notNegative(element.currentLimit, element);
      numbers.powerLimit[k] = element.powerLimit === undefined ? Infinity : notNegative(element.powerLimit, element);
      numbers.efficiency[k + 1] = positive(element.efficiency, element);
      numbers.idlePower[k + 1] = notNegative(element.idlePower, element);
      knee[k + 1] = notNegative(element.minimumInput, element);
      break;
    }
    case 'current': break;
  }
}

/** A load of less than a millionth of a millionth (watt or ampere) is none. */
function notable(value: number): number { return Math.abs(value) < 1e-12 ? 0 : value; }

function finite(value: number, element: Element): number {
  if (!Number.isFinite(value)) throw new Error(`every number of an element must be finite: ${element.type} ${element.id} has ${value}`);
  return value;
}
function notNegative(value: number, element: Element): number {
  if (!(finite(value, element) >= 0)) throw new Error(`this number must be >= 0: ${element.type} ${element.id} has ${value}`);
  return value;
}
function positive(value: number, element: Element): number {
  if (!(finite(value, element) > 0)) throw new Error(`this number must be > 0: ${element.type} ${element.id} has ${value}`);
  return value;
}

function lawOf(element: Element): number {
  switch (element.type) {
    case 'resistor': case 'source': return Law.resistive;
    case 'switch': case 'relay': return Law.switched;
    case 'diode': return Law.diode;
    case 'power': return Law.power;
    case 'draw': return Law.draw;
    case 'supply': return Law.supply;
    case 'converter': return Law.converterOut;
    case 'capacitor': return Law.capacitor;
    case 'inductor': return Law.inductor;
    case 'current': throw new Error('a current source has no branch');
  }
}

/** Relays with the same coil nodes and thresholds share one coil state: their contacts move together. */
function coilGroups(network: Network, nodeIndexOf: ReadonlyMap<string, number>, elementBranch: Int32Array): { coils: CoilGroup[]; coilOfElement: Int32Array } {
  const indexOf = new Map<string, number>();
  const coils: (CoilGroup & { contacts: CoilGroup['contacts'][number][] })[] = [];
  const coilOfElement = new Int32Array(network.elements.length).fill(-1);
  network.elements.forEach((element, e) => {
    if (element.type !== 'relay') return;
    const key = JSON.stringify([element.coil, element.pickUp, element.dropOut, element.polarised ?? false]);
    let n = indexOf.get(key);
    if (n === undefined) {
      n = coils.length;
      indexOf.set(key, n);
      coils.push({ coil: element.coil.map((name) => (name === REFERENCE_NODE ? -1 : nodeIndexOf.get(name)!)) as [number, number], polarised: element.polarised ?? false, contacts: [] });
    }
    coilOfElement[e] = n;
    coils[n]!.contacts.push({ branch: elementBranch[e]!, makes: element.contact === 'makes', id: element.id, operateTime: element.operateTime ?? 0, releaseTime: element.releaseTime ?? 0 });
  });
  return { coils, coilOfElement };
}

type Shape = Omit<Compiled, 'coils' | 'coilOfElement' | 'pattern' | 'slots' | 'bridges'>;

function bridgeFinder({ nodeCount, branchCount, branchA, branchB, conductanceElements, injectionElements, elementA, elementB }: Shape): BridgeFinder {
  const count = branchCount + conductanceElements.length + injectionElements.length;
  const a = new Int32Array(count), b = new Int32Array(count);
  a.set(branchA);
  b.set(branchB);
  a.set(conductanceElements.map((e) => elementA[e]!), branchCount);
  b.set(conductanceElements.map((e) => elementB[e]!), branchCount);
  a.set(injectionElements.map((e) => elementA[e]!), branchCount + conductanceElements.length);
  b.set(injectionElements.map((e) => elementB[e]!), branchCount + conductanceElements.length);
  return new BridgeFinder(nodeCount, { a, b, count });
}

function layOut(shape: Shape): { pattern: SparseMatrix; slots: Slots } {
  const { nodeCount: nodes, branchCount: branches } = shape;
  const builder = new PatternBuilder(nodes + branches);
  const place = (row: number, column: number): number => (row < 0 || column < 0 ? -1 : builder.place(row, column));
  const nodeDiagonal = Int32Array.from({ length: nodes }, (_, n) => place(n, n));
  const make = (length: number): Int32Array => new Int32Array(length).fill(-1);
  const alphaA = make(branches), alphaB = make(branches), beta = make(branches), leaveA = make(branches), leaveB = make(branches);
  const outputA = make(branches), outputB = make(branches), outputCurrent = make(branches);
  for (let k = 0; k < branches; k++) {
    const row = nodes + k, a = shape.branchA[k]!, b = shape.branchB[k]!;
    alphaA[k] = place(row, a);
    alphaB[k] = place(row, b);
    beta[k] = place(row, row);
    leaveA[k] = place(a, row);
    leaveB[k] = place(b, row);
    if (shape.law[k] === Law.converterIn) {
      outputA[k] = place(row, shape.branchA[k - 1]!);
      outputB[k] = place(row, shape.branchB[k - 1]!);
      outputCurrent[k] = place(row, row - 1);
    }
  }
  const conductance = make(4 * shape.conductanceElements.length);
  shape.conductanceElements.forEach((e, n) => {
    const a = shape.elementA[e]!, b = shape.elementB[e]!;
    if (a === b) return;
    conductance.set([place(a, a), place(b, b), place(a, b), place(b, a)], 4 * n);
  });
  const { matrix, indexOf } = builder.build();
  const settle = (handles: Int32Array): Int32Array => handles.map((handle) => (handle < 0 ? -1 : indexOf[handle]!));
  return {
    pattern: matrix,
    slots: {
      nodeDiagonal: settle(nodeDiagonal), alphaA: settle(alphaA), alphaB: settle(alphaB), beta: settle(beta), leaveA: settle(leaveA), leaveB: settle(leaveB),
      outputA: settle(outputA), outputB: settle(outputB), outputCurrent: settle(outputCurrent), conductance: settle(conductance),
    },
  };
}
