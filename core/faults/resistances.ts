/**
 * What an ohmmeter shows between two points with everything off, under every hypothesis.
 *
 * One resistive network of the car, factored once; a fault of k changes is k conductances more or less, so that
 *     R' = R - wᵀ (G⁻¹ + Z)⁻¹ w,   w = differences of one column, Z = differences among the changes
 * (Sherman, Morrison, Woodbury). The meter's 0.2 V opens no diode; batteries are dead metal. What electronics
 * let through at 0.2 V nobody knows: something between nothing and the resistor that the load is below its knee.
 * Range:   0 .. `MOST` [ohm]; contacts stand as nobody asks anything
 * Checked: core/faults/faults.test.ts (against the network solved anew)
 */
import type { Car } from '../car/car.ts';
import { wireCar } from '../car/wire-car.ts';
import type { State } from '../car/state.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import type { Element } from '../solve/element.ts';
import { SparseLu } from '../solve/sparse-lu.ts';
import { sparseMatrix } from '../solve/sparse-matrix.ts';
import type { FaultChange } from './fault-change.ts';

/** Beyond this the meter shows an open circuit [ohm]. */
export const MOST = 1e6;
/** Every point leaks a little, so that nothing is loose [S]. */
const LEAK = 1e-8;
/** What is left of a parted way [S]: far less than the meter can see. */
const PARTED = 1e-7;
const LEAST_RESISTANCE = 1e-3;

interface Step { readonly a: number; readonly b: number; /** [S] */ readonly more: number }

export interface Resistances {
  /** [ohm]; `MOST` when nothing joins them */
  readonly between: (a: string, b: string, changes: readonly FaultChange[]) => number | undefined;
}

/** @param electronics  whether loads conduct as they do below their knee, or not at all */
export function resistancesIn(car: Car, state: State, electronics: 'conduct' | 'block' = 'conduct'): Resistances {
  const conductanceOf = electronics === 'conduct' ? conductanceBelowKnee : (element: Element): number => (element.type === 'draw' || element.type === 'power' ? 0 : conductanceBelowKnee(element));
  const { network } = wireCar(car, state);
  const nodes = new Map(network.nodes.filter((node) => node !== REFERENCE_NODE).map((node, index) => [node, index]));
  const nodeOf = (node: string): number => (node === REFERENCE_NODE ? -1 : nodes.get(node)!);
  const at = new Map(network.elements.map((element) => [element.id, element]));
  const entries: (readonly [number, number, number])[] = [...nodes.values()].map((n) => [n, n, LEAK] as const);
  for (const element of network.elements) {
    const conductance = conductanceOf(element);
    if (conductance === 0 || element.type === 'converter') continue;
    const [a, b] = [nodeOf(element.a), nodeOf(element.b)];
    if (a >= 0) entries.push([a, a, conductance]);
    if (b >= 0) entries.push([b, b, conductance]);
    if (a >= 0 && b >= 0) entries.push([a, b, -conductance], [b, a, -conductance]);
  }
  const lu = new SparseLu(nodes.size);
  lu.factor(sparseMatrix(nodes.size, entries));
  const columns = new Map<number, Float64Array>();
  const column = (a: number, b: number): Float64Array => {
    const key = (a + 1) * (nodes.size + 1) + b + 1;
    let known = columns.get(key);
    if (!known) {
      const right = new Float64Array(nodes.size);
      if (a >= 0) right[a]! += 1;
      if (b >= 0) right[b]! -= 1;
      lu.solve(right, (known = new Float64Array(nodes.size)));
      columns.set(key, known);
    }
    return known;
  };
  const across = (z: Float64Array, a: number, b: number): number => (a < 0 ? 0 : z[a]!) - (b < 0 ? 0 : z[b]!);
  const known = new Map<readonly FaultChange[], Moved | 'none'>();
  const movedBy = (changes: readonly FaultChange[]): Moved | 'none' => {
    let moved = known.get(changes);
    if (!moved) {
      const steps = changes.flatMap((change) => stepsFor(change, at, nodes, nodeOf, conductanceOf));
      const inverse = invert(steps.map((one, i) => steps.map((other, j) => across(column(other.a, other.b), one.a, one.b) + (i === j ? 1 / one.more : 0))));
      known.set(changes, (moved = inverse ? { steps, inverse } : 'none'));
    }
    return moved;
  };
  let w = new Float64Array(16);
  return {
    between: (a, b, changes) => {
      if ((a !== REFERENCE_NODE && !nodes.has(a)) || (b !== REFERENCE_NODE && !nodes.has(b))) return undefined;
      const [from, to] = [nodeOf(a), nodeOf(b)];
      const z = column(from, to);
      let ohms = across(z, from, to);
      if (changes.length > 0) {
        const moved = movedBy(changes);
        if (moved === 'none') return undefined;
        const { steps, inverse } = moved;
        if (steps.length > w.length) w = new Float64Array(2 * steps.length);
        for (let i = 0; i < steps.length; i++) w[i] = across(z, steps[i]!.a, steps[i]!.b);
        for (let i = 0; i < steps.length; i++) if (w[i] !== 0) for (let j = 0; j < steps.length; j++) ohms -= w[i]! * inverse[i]![j]! * w[j]!;
      }
      return ohms >= MOST ? MOST : ohms > 0 ? ohms : 0;
    },
  };
}

/** Conductances that a fault changes, and the inverse of what they do to each other. */
interface Moved { readonly steps: readonly Step[]; readonly inverse: readonly (readonly number[])[] }

/** With 0.2 V across it, nothing asked of it [S]. */
function conductanceBelowKnee(element: Element): number {
  switch (element.type) {
    case 'resistor':
    case 'source':
    case 'inductor': return 1 / Math.max(LEAST_RESISTANCE, element.resistance);
    case 'switch': return element.closed ? 1 / Math.max(LEAST_RESISTANCE, element.resistance) : 0;
    case 'relay': return element.contact === 'breaks' ? 1 / Math.max(LEAST_RESISTANCE, element.resistance) : 0;
    case 'draw': return element.current / element.knee;
    case 'power': return Math.abs(element.power) / element.knee ** 2;
    default: return 0;
  }
}

function stepsFor(change: FaultChange, at: ReadonlyMap<string, Element>, nodes: ReadonlyMap<string, number>, nodeOf: (node: string) => number, conductanceOf: (element: Element) => number): readonly Step[] {
  const isKnown = (node: string): boolean => node === REFERENCE_NODE || nodes.has(node);
  if (change.is === 'joined') return isKnown(change.a) && isKnown(change.b) && change.a !== change.b ? [{ a: nodeOf(change.a), b: nodeOf(change.b), more: 1 / Math.max(LEAST_RESISTANCE, change.resistance) }] : [];
  const element = at.get(change.element);
  if (element === undefined || element.type === 'converter') return [];
  const before = conductanceOf(element);
  const [a, b] = [nodeOf(element.a), nodeOf(element.b)];
  const to = (after: number): readonly Step[] => (after === before ? [] : [{ a, b, more: after - before }]);
  const resistance = Math.max(LEAST_RESISTANCE, 'resistance' in element ? element.resistance : LEAST_RESISTANCE);
  switch (change.is) {
    case 'open':
    case 'stuck_open': return before === 0 ? [] : to(PARTED);
    case 'shorted': return to(1 / Math.max(LEAST_RESISTANCE, change.resistance));
    case 'stuck_closed': return to(1 / resistance);
    case 'resistive': return before === 0 ? [] : to(1 / (resistance + change.more));
    case 'moved': return before === 0 || !isKnown(change.a) || !isKnown(change.b) ? [] : [...to(PARTED), { a: nodeOf(change.a), b: nodeOf(change.b), more: before }];
    case 'weak': return [];
  }
}

/** By elimination with row exchange; undefined when singular. */
function invert(rows: readonly (readonly number[])[]): readonly (readonly number[])[] | undefined {
  const n = rows.length;
  const work = rows.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(work[r]![c]!) > Math.abs(work[pivot]![c]!)) pivot = r;
    const by = work[pivot]![c]!;
    if (!(Math.abs(by) > 0)) return undefined;
    [work[c], work[pivot]] = [work[pivot]!, work[c]!];
    for (let k = 0; k < 2 * n; k++) work[c]![k]! /= by;
    for (let r = 0; r < n; r++) {
      const share = work[r]![c]!;
      if (r !== c && share !== 0) for (let k = 0; k < 2 * n; k++) work[r]![k]! -= share * work[c]![k]!;
    }
  }
  const inverse = work.map((row) => row.slice(n));
  return inverse.every((row) => row.every(Number.isFinite)) ? inverse : undefined;
}
