import { Position, tiesVoltages } from './branch-law.ts';
import { JOIN_ID, changedNetwork } from './change.ts';
import type { Change } from './change.ts';
import { copyNumbers, emptyNumbers, fits, Law, sameNumbers } from './compile-network.ts';
import type { Numbers } from './compile-network.ts';
import type { Network } from './element.ts';
import { cornersHold, curvedBranches } from './corners.ts';
import { NetworkSystem } from './network-system.ts';
import type { RestFailure, RestResult, RestSolved } from './rest-result.ts';
import { compiledWith, solveFrom, solveJoined } from './from-neighbour.ts';
import type { JoinedSolvers } from './from-neighbour.ts';
import { resultOf, takeSnapshot } from './rest-solved.ts';
import { NearbySolver, solveAtRest, startingCoils } from './solve-at-rest.ts';
import type { RestOptions } from './solve-at-rest.ts';

/** What a two-terminal network looks like from two of its points (linearised where it works). */
export type Thevenin =
  | { readonly outcome: 'connected'; /** v(a) - v(b) with nothing there [V] */ readonly voltage: number; /** [ohm] */ readonly resistance: number }
  /** nothing ties the two points to each other: any voltage, and no current would flow */
  | { readonly outcome: 'unconnected' };

/** A solved network and its neighbours, each one change away. */
export interface Sweep {
  readonly outcome: 'ready';
  readonly network: Network;
  readonly result: RestSolved;
  /**
   * The solution with one change made while the network stands as solved (relays that hold themselves go on holding):
   * what `solveAtRest(changedNetwork(network, change), { start: result })` gives, found from the factors at hand.
   */
  withChange(change: Change): RestResult;
  /** The same when the factors at hand are enough for it; undefined when a corner, relay or island moves. */
  lightly(change: Change): RestSolved | undefined;
  /** The same with several changes at once, solved in full from where the network stands. Further resistors need ids of their own. */
  withChanges(changes: readonly Change[]): RestResult;
  /** how many changes needed a full solve so far (a corner, relay or island moved, or the residual did not fall) */
  readonly fullSolves: number;
  /** See `theveninAt`. */
  thevenin(a: string, b: string, options?: { readonly withoutLoads?: boolean }): Thevenin;
}

/** What a small load draws to see whether a diode or limit stands at its corner [A]. */
const TEST_CURRENT = 1e-3;
const CHORDS = 12;
/** the first step gives all of a linear network; then curved rows must come this close to their laws, relative to their size */
const LAW_KEPT = 1e-11;
const BALANCED = 1e-10;

/**
 * Prepares many solutions of a network that differ in one place each (a low-rank update of the factors; Sherman and Morrison 1950).
 *
 * Loads of constant power are followed by further steps with the same factors until each obeys its law; when a diode, limit, relay
 * or island changes its position, or the currents do not balance, the neighbour is solved in full instead.
 * @returns a failure when the network itself has no solution
 * Checked: core/solve/changes.test.ts (against the full solve), core/solve/conformance.test.ts (closed forms)
 */
export function prepareSweep(network: Network, options: RestOptions = {}): Sweep | RestFailure {
  return sweepMaker(network, options).at(network);
}

/** Sweeps of one structure, compiled and ordered once, for many draws of its numbers. */
export interface SweepMaker {
  /**
   * The network solved, ready for changes: the last sweep itself when no number has changed since; else the maker's earlier sweeps must
   * not be asked any more. A network of other structure is compiled anew.
   */
  at(network: Network): Sweep | RestFailure;
  /** what another maker of the same structure may share */
  readonly shared: () => NetworkSystem;
}

/**
 * @param like  a maker whose structure may be the same: its compiled form and order of elimination are shared when it is
 */
export function sweepMaker(network: Network, options: RestOptions = {}, like?: SweepMaker): SweepMaker {
  let near = new NearbySolver(systemLike(like?.shared(), network), options);
  const joined: JoinedSolvers = new Map();
  let last: { readonly numbers: Numbers; readonly sweep: Sweep } | undefined;
  return {
    shared: () => near.system,
    at: (other) => {
      if (!near.system.read(other)) {
        near = new NearbySolver(new NetworkSystem(other), options);
        joined.clear();
        last = undefined;
      } else if (last !== undefined && sameNumbers(last.numbers, near.system.numbers)) return last.sweep;
      const result = near.solve();
      if (result.outcome !== 'solved') {
        last = undefined;
        return result;
      }
      const sweep = sweepOf(near.system, near.coils, other, result, options, joined);
      last = { numbers: copyNumbers(near.system.numbers, last?.numbers ?? emptyNumbers(near.system.compiled)), sweep };
      return sweep;
    },
  };
}

function systemLike(known: NetworkSystem | undefined, network: Network): NetworkSystem {
  const isAlike = known !== undefined && fits(known.compiled, network);
  return isAlike ? new NetworkSystem(network, known.compiled, known.lu.order) : new NetworkSystem(network);
}

function sweepOf(system: NetworkSystem, coils: Uint8Array, network: Network, result: RestSolved, options: RestOptions, joined: JoinedSolvers): Sweep {
  let fullSolves = 0;
  let unloaded: Sweep | RestFailure | undefined;
  let made: Factors | undefined;
  /** exact factors at the solution, made when the first change is asked for */
  const factors = (): Factors => (made ??= factorsOf(system));
  const inFull = (change: Change): RestResult => {
    fullSolves++;
    const other = changedNetwork(network, change);
    if (change.kind === 'join') return solveJoined(joined, change, other, result, options, { system, base: factors().base });
    return fromHere([change], other);
  };
  const fromHere = (all: readonly Change[], other: Network): RestResult => {
    const compiled = compiledWith(system, all, other);
    const fresh = compiled === undefined ? new NetworkSystem(other) : new NetworkSystem(other, compiled, system.lu.order);
    return solveFrom(fresh, { system, base: factors().base }, compiled === undefined ? startingCoils(fresh, result) : coils, options);
  };
  const sweep: Sweep = {
    outcome: 'ready', network, result,
    get fullSolves() { return fullSolves; },
    withChange: (change) => sweep.lightly(change) ?? inFull(change),
    lightly: (change) => {
      const { parting, work, base } = factors();
      const update = updateFor(system, change, parting);
      if (update === undefined) return undefined;
      const snapshot = follow(system, coils, update, work);
      update.undo();
      system.x.set(base.x);
      system.positions.set(base.positions);
      system.largestVoltage = base.largestVoltage;
      system.largestCurrent = base.largestCurrent;
      return snapshot;
    },
    withChanges: (changes) => {
      if (changes.length === 1) return sweep.withChange(changes[0]!);
      fullSolves++;
      return fromHere(changes, changes.reduce(changedNetwork, network));
    },
    thevenin: (a, b, { withoutLoads = false } = {}) => {
      if (withoutLoads) {
        unloaded ??= prepareSweep(withoutItsLoads(network), options);
        if (unloaded.outcome !== 'ready') throw new Error('a network without its loads could not be solved');
        return unloaded.thevenin(a, b);
      }
      const { work, base } = factors();
      const nodeA = nodeOf(system, a), nodeB = nodeOf(system, b);
      if (!system.joined.together(nodeA, nodeB)) return { outcome: 'unconnected' };
      inject(work.u, nodeA, nodeB);
      system.lu.solve(work.u, work.z);
      const voltage = result.voltageOf(a) - result.voltageOf(b);
      const test = voltage < 0 ? -TEST_CURRENT : TEST_CURRENT;
      for (let n = 0; n < system.size; n++) system.x[n]! -= test * work.z[n]!;
      const isSmooth = cornersHold(system, 1e-9, -1);
      system.x.set(base.x);
      if (isSmooth) return { outcome: 'connected', voltage, resistance: (nodeA < 0 ? 0 : work.z[nodeA]!) - (nodeB < 0 ? 0 : work.z[nodeB]!) };
      // a diode or limit stands at its corner (a battery at no current): what a small load would find, found by a small load
      fullSolves++;
      const loaded = solveAtRest({ nodes: network.nodes, elements: [...network.elements, { type: 'current', id: JOIN_ID, a, b, current: test }] }, { ...options, start: result });
      if (loaded.outcome !== 'solved') return { outcome: 'connected', voltage, resistance: (nodeA < 0 ? 0 : work.z[nodeA]!) - (nodeB < 0 ? 0 : work.z[nodeB]!) };
      return { outcome: 'connected', voltage, resistance: (voltage - (loaded.voltageOf(a) - loaded.voltageOf(b))) / test };
    },
  };
  return sweep;
}

interface Factors {
  readonly base: { readonly x: Float64Array; readonly positions: Uint8Array; readonly largestVoltage: number; readonly largestCurrent: number };
  /** found when an element is first to be opened */
  readonly parting: () => { readonly branch: Uint8Array; readonly conductance: Uint8Array };
  readonly work: { readonly z: Float64Array; readonly y: Float64Array; readonly u: Float64Array };
}

function factorsOf(system: NetworkSystem): Factors {
  let parting: ReturnType<Factors['parting']> | undefined;
  if (system.factorHere() >= 0) throw new Error('a network that has just been solved must have factors');
  return {
    base: { x: system.x.slice(), positions: system.positions.slice(), largestVoltage: system.largestVoltage, largestCurrent: system.largestCurrent },
    parting: () => (parting ??= partingEdges(system)),
    work: { z: new Float64Array(system.size), y: new Float64Array(system.size), u: new Float64Array(system.size) },
  };
}

/**
 * Open voltage and source resistance between two points of a solved network: what a meter and a test load would find.
 *
 * The resistance is the slope at the operating point, towards a load: a load of constant power counts as the negative resistance it is there,
 * and a supply at its limit as an open circuit. `withoutLoads` takes all power and current loads away first.
 * @returns volts and ohms, or `unconnected` between two islands
 */
export function theveninAt(sweep: Sweep, a: string, b: string, options: { readonly withoutLoads?: boolean } = {}): Thevenin {
  return sweep.thevenin(a, b, options);
}

/** matrix + up down^T; the first residual; and how to take the change back. */
interface Update {
  /** column: what the change puts where */
  readonly place: (u: Float64Array) => void;
  /** down^T applied to a vector that the unchanged matrix takes to zero in the changed row */
  readonly across: (x: Float64Array) => number;
  /** 1 + down^T z, z = matrix^-1 up (for a further resistor: its own resistance + that) */
  readonly denominator: (z: Float64Array) => number;
  /** denominators below this have lost too many figures */
  readonly least: number;
  /** a further resistor: its current is an unknown of its own */
  readonly bordered: boolean;
  /** residual of the changed row at x */
  readonly residual: () => number;
  /** branch that is held and so has no corner to look at; -1: none */
  readonly held: number;
  /** element cut out; -1: none */
  readonly opened: number;
  readonly join: { readonly a: number; readonly b: number; readonly id: string } | undefined;
  readonly undo: () => void;
}

function updateFor(system: NetworkSystem, change: Change, parting: Factors['parting']): Update | undefined {
  const { compiled, numbers, positions, x } = system;
  const at = (vector: Float64Array, node: number): number => (node < 0 ? 0 : vector[node]!);
  if (system.loops.redundant.length > 0) return undefined;
  if (change.kind === 'join') {
    if (!(change.resistance >= 0 && Number.isFinite(change.resistance))) throw new Error(`a resistance must be >= 0, got ${change.resistance}`);
    const a = nodeOf(system, change.a), b = nodeOf(system, change.b);
    if (a === b || !system.joined.together(a, b)) return undefined;
    return {
      place: (u) => inject(u, a, b), across: (vector) => at(vector, a) - at(vector, b),
      denominator: (z) => change.resistance + at(z, a) - at(z, b), least: 1e-12, bordered: true, residual: () => 0, held: -1, opened: -1, join: { a, b, id: change.id ?? JOIN_ID }, undo: () => undefined,
    };
  }
  const e = compiled.elementIndexOf.get(change.element);
  if (e === undefined) throw new Error(`the network has no element ${change.element}`);
  const a = compiled.elementA[e]!, b = compiled.elementB[e]!;
  const k = compiled.elementBranch[e]!;
  const type = compiled.elementTypes[e]!;
  if (k < 0) {
    if (type === 'current' || a === b || (change.kind !== 'resistance' && change.kind !== 'open')) return undefined;
    const n = compiled.conductanceElements.indexOf(e);
    if (change.kind === 'open' ? parting().conductance[n] === 1 : change.resistance < 1e-3) return undefined;
    const before = numbers.conductance[n]!;
    const after = change.kind === 'open' ? 0 : 1 / change.resistance;
    numbers.conductance[n] = after;
    return {
      place: (u) => inject(u, a, b), across: (vector) => (after - before) * (at(vector, a) - at(vector, b)),
      denominator: (z) => 1 + (after - before) * (at(z, a) - at(z, b)), least: 1e-6, bordered: false,
      residual: () => -(after - before) * (at(x, a) - at(x, b)), held: -1, opened: change.kind === 'open' ? e : -1, join: undefined, undo: () => { numbers.conductance[n] = before; },
    };
  }
  if (type === 'converter' || type === 'capacitor' || ((compiled.law[k] === Law.draw || compiled.law[k] === Law.power) && change.kind !== 'open')) return undefined;
  const opens = change.kind === 'open' || (change.kind === 'closed' && !change.closed);
  const tied = tiesVoltages(compiled.law[k]!, positions[k]!, numbers, k, false);
  if (opens && tied && parting().branch[k] === 1) return undefined;
  if (change.kind === 'closed' && change.closed && (!system.joined.together(a, b) || numbers.resistance[k] === 0)) return undefined;
  if (change.kind === 'resistance' && change.resistance === 0) return undefined;
  const kept = { resistance: numbers.resistance[k]!, voltage: numbers.voltage[k]!, position: positions[k]! };
  if (change.kind === 'resistance') numbers.resistance[k] = change.resistance;
  else if (change.kind === 'voltage') numbers.voltage[k] = change.voltage;
  else if (change.kind === 'closed') {
    if (compiled.law[k] !== Law.switched) throw new Error(`${type} ${change.element} cannot be closed`);
    positions[k] = change.closed ? Position.closed : Position.open;
  }
  const next = change.kind === 'open' ? { alpha: 0, beta: 1, gamma: 0 } : system.rows.rowOf(k);
  const current = compiled.nodeCount + k;
  const isOpened = change.kind === 'open';
  const acrossNext = (vector: Float64Array): number => next.alpha * (at(vector, a) - at(vector, b)) + next.beta * vector[current]!;
  return {
    place: (u) => { u.fill(0); u[current] = 1; },
    // the old row gives exactly 1 on z and 0 on what follows, so only the new one is left: no figures are lost by subtraction
    across: acrossNext, denominator: acrossNext, least: 1e-14, bordered: false,
    residual: () => next.gamma - next.alpha * (at(x, a) - at(x, b)) - next.beta * x[current]!,
    held: isOpened ? k : -1, opened: isOpened ? e : -1, join: undefined,
    undo: () => { numbers.resistance[k] = kept.resistance; numbers.voltage[k] = kept.voltage; positions[k] = kept.position; },
  };
}

/** Follows a change with the factors at hand; undefined when something else than the unknowns has to move. */
function follow(system: NetworkSystem, coils: Uint8Array, update: Update, work: { z: Float64Array; y: Float64Array; u: Float64Array }): RestSolved | undefined {
  const { x, size, compiled } = system;
  const { z, y, u } = work;
  update.place(u);
  system.lu.solve(u, z);
  const denominator = update.denominator(z);
  if (!(Math.abs(denominator) > update.least)) return undefined;
  let joinCurrent = 0;
  let steps = 1;
  // u is +1 at a, -1 at b as an injection; a further resistor takes its current out at a
  const first = (update.bordered ? -update.across(x) : update.residual()) / denominator;
  if (update.bordered) joinCurrent = -first;
  for (let n = 0; n < size; n++) x[n]! += first * z[n]!;
  const curved = curvedBranches(system);
  for (; ; steps++) {
    y.fill(0);
    let off = false;
    for (const k of curved) {
      if (k === update.held) continue;
      const residual = system.branchResidual(k);
      if (!Number.isFinite(residual)) return undefined;
      if (Math.abs(residual) > LAW_KEPT * (Math.abs(system.current(k)) + 1e-6)) { y[compiled.nodeCount + k] = residual; off = true; }
    }
    if (!off) break;
    if (steps > CHORDS) return undefined;
    system.lu.solve(y, y);
    const more = update.across(y) / denominator;
    if (update.bordered) joinCurrent += more;
    for (let n = 0; n < size; n++) x[n]! += y[n]! - more * z[n]!;
  }
  let voltage = 0, current = Math.abs(joinCurrent);
  for (let n = 0; n < size; n++) { const d = Math.abs(x[n]!); if (n < compiled.nodeCount) { if (d > voltage) voltage = d; } else if (d > current) current = d; }
  if (!Number.isFinite(voltage) || !Number.isFinite(current)) return undefined;
  system.largestVoltage = voltage;
  system.largestCurrent = current;
  if (!cornersHold(system, 1e-9, update.held)) return undefined;
  for (let n = 0; n < coils.length; n++) { const demand = system.coilDemand(n); if (demand !== 2 && demand !== coils[n]) return undefined; }
  const result = resultOf({ ...takeSnapshot(system), opened: update.opened }, steps, update.join === undefined ? undefined : { ...update.join, current: joinCurrent });
  return result.balance.residual <= BALANCED * current + 1e-12 ? result : undefined;
}

/** Branches and conductances whose opening parts an island. */
function partingEdges(system: NetworkSystem): { branch: Uint8Array; conductance: Uint8Array } {
  const { compiled, positions, numbers } = system;
  const branches = compiled.branchCount, conductances = compiled.conductanceElements.length;
  const present = new Uint8Array(branches + conductances + compiled.injectionElements.length);
  for (let k = 0; k < branches; k++) present[k] = tiesVoltages(compiled.law[k]!, positions[k]!, numbers, k, false) ? 1 : 0;
  present.fill(1, branches, branches + conductances);
  const all = compiled.bridges().find(present);
  return { branch: all.slice(0, branches), conductance: all.slice(branches, branches + conductances) };
}

function withoutItsLoads(network: Network): Network {
  return { nodes: network.nodes, elements: network.elements.map((element) => (element.type === 'power' ? { ...element, power: 0 } : element.type === 'draw' ? { ...element, current: 0 } : element)) };
}

function inject(u: Float64Array, a: number, b: number): void {
  u.fill(0);
  if (a >= 0) u[a]! += 1;
  if (b >= 0) u[b]! -= 1;
}

function nodeOf(system: NetworkSystem, name: string): number {
  const node = system.compiled.nodeIndexOf.get(name);
  if (node === undefined) throw new Error(`the network has no node ${name}`);
  return node;
}

