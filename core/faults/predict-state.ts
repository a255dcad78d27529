/**
 * What every hypothesis looks like in one state: the state is solved once, each single fault is a low-rank neighbour of it; relays that
 * move, fuses that blow and faults of several changes are solved in full.
 */
import type { Car } from '../car/car.ts';
import { unionFind } from '../car/metal-graph.ts';
import type { State } from '../car/state.ts';
import type { Change } from '../solve/change.ts';
import { prepareSweep } from '../solve/changes.ts';
import type { Sweep } from '../solve/changes.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import type { Element, Network } from '../solve/element.ts';
import type { RestSolved } from '../solve/rest-result.ts';
import { solveAtRest } from '../solve/solve-at-rest.ts';
import { fuseFinder, fusesOf } from './blown-fuses.ts';
import type { FuseFinder } from './blown-fuses.ts';
import { busNodes, commanders, unreached } from './bus.ts';
import { chainsOf } from './chains.ts';
import { contactSweeps } from './contact-sweeps.ts';
import type { ContactSweeps } from './contact-sweeps.ts';
import { faultyNetwork } from './fault-change.ts';
import type { FaultChange } from './fault-change.ts';
import type { Hypothesis } from './hypothesis.ts';
import type { Thing } from './things.ts';
import { TIE, tieId, tiedNetwork, unheard } from './tied-network.ts';

/** What one hypothesis looks like; hypotheses that nothing tells apart share one. */
export interface Sight {
  /** by point [V], against the chassis */
  readonly volts: Float64Array;
  /** by thing: 1 it does, 0 it does not */
  readonly does: Uint8Array;
  /** by watched run [A] */
  readonly amps: Float64Array;
  /** fuses that open [elements] */
  readonly blown: readonly string[];
}

export interface Watched { readonly points: readonly string[]; readonly things: readonly Thing[]; /** undefined: it is off */ readonly runs: readonly (string | undefined)[] }

export interface StateSights {
  readonly state: State;
  /** undefined: the network has no answer */
  readonly base: Sight | undefined;
  readonly isHigh: (node: string) => boolean;
  /** @returns undefined: no operating point; it does not say */
  readonly of: (hypothesis: Hypothesis) => Sight | undefined;
  /** source resistance between two points of the car with nothing wrong [ohm]; undefined: nothing ties them */
  readonly sourceResistance: (a: string, b: string) => number | undefined;
  readonly counts: { lowRank: number; inFull: number };
}

/** A path of less than this can blow a fuse [ohm]. */
const SHORT = 5;

export function sightsIn(car: Car, state: State, all: Watched): StateSights {
  const { network, isHigh } = tiedNetwork(car, state);
  // a run that is off carries nothing
  const off = new Set(state.without ?? []);
  const watched: Watched = { ...all, runs: all.runs.map((run) => (run !== undefined && off.has(run) ? undefined : run)) };
  const sweeps = contactSweeps(network);
  const { base, sweep, counts } = sweeps;
  if (!base || !sweep) return { state, base: undefined, isHigh, of: () => undefined, sourceResistance: () => undefined, counts };
  const healthy = sightOf(base, watched, []);
  const seen = sightMaker(car, state, network, sweeps, base, healthy, watched);
  return {
    state, base: healthy, isHigh, counts,
    of: ({ changes, silent }) => seen(changes, silent),
    sourceResistance: (a, b) => { const source = sweep.thevenin(a, b); return source.outcome === 'connected' ? Math.max(0, source.resistance) : undefined; },
  };
}

function sightMaker(car: Car, state: State, network: Network, sweeps: ContactSweeps, base: RestSolved, healthy: Sight, watched: Watched): (changes: readonly FaultChange[], silent: readonly string[]) => Sight | undefined {
  const at = new Map(network.elements.map((element) => [element.id, element]));
  const nodes = new Set([...network.nodes, REFERENCE_NODE]);
  const fuses = fuseFinder(car, network, base);
  const metal = netsWithoutFuses(car, fuses.links);
  const bus = busElements(car, network);
  const chains = chainsOf(network.elements.filter(({ id }) => !id.startsWith(TIE)));
  const placeOf = new Map(watched.points.map((point, index) => [point, index]));
  const known = new Map<string, Sight | undefined>();
  const blownBy = blownMaker(network, at, base, fuses);
  const read = (result: RestSolved | undefined, blown: readonly string[]): Sight | undefined => (result ? sightOf(result, watched, blown) : undefined);
  const once = (key: string, make: () => Sight | undefined): Sight | undefined => {
    if (!known.has(key)) known.set(key, make());
    return known.get(key);
  };
  /** Wherever a chain parts, the car around it looks the same; only the points inside lie on this side or the other. */
  const inChain = (change: Extract<FaultChange, { is: 'open' | 'resistive' }>): Sight | undefined => {
    const link = chains.get(change.element);
    const single = (element: string): Sight | undefined => read(sweeps.withChange(asChange({ ...change, element }, at)!), []);
    if (!link) return once(JSON.stringify(change), () => single(change.element));
    const whole = once(`${link.chain} ${change.is === 'open' ? 'open' : change.more}`, () => single(link.chain));
    if (!whole || change.element === link.chain) return whole;
    return once(JSON.stringify(change), () => {
      const volts = whole.volts.slice();
      const set = (side: readonly string[], end: string): void => {
        const place = placeOf.get(end);
        const value = end === REFERENCE_NODE ? 0 : place === undefined ? undefined : whole.volts[place];
        if (value !== undefined) for (const node of side) { const here = placeOf.get(node); if (here !== undefined) volts[here] = value; }
      };
      set(link.before.slice(1), link.before[0]!);
      set(link.after.slice(0, -1), link.after.at(-1)!);
      return { ...whole, volts };
    });
  };
  return (changes, silent) => {
    const real = changes.filter((change) => isThere(change, at, nodes) && !isIdle(change, at, base));
    const lost = lostOnBus(car, network, real, silent, bus);
    if (lost.length > 0) {
      const other = unheard(car, state, lost);
      if (JSON.stringify(other.set ?? {}, unsetToo) !== JSON.stringify(state.set ?? {}, unsetToo)) {
        return once(`unheard ${lost.join(' ')} ${JSON.stringify(real)}`, () => {
          sweeps.counts.inFull++;
          const result = solveAtRest(faultyNetwork(tiedNetwork(car, other).network, real));
          return result.outcome === 'solved' ? sightOf(result, watched, []) : undefined;
        });
      }
    }
    const [only] = real;
    if (!only) return healthy;
    if (real.length === 1 && (only.is === 'open' || only.is === 'resistive') && at.get(only.element)?.type === 'resistor') return inChain(only);
    const blown = blownBy(real);
    const key = JSON.stringify([real.map((change) => (change.is === 'joined' ? { ...change, id: '', a: metal(change.a), b: metal(change.b) } : change)), blown]);
    return once(key, () => {
      const single = real.length === 1 && blown.length === 0 ? asChange(only, at) : undefined;
      if (single) return read(sweeps.withChange(single), []);
      const all = [...real, ...blown.map((element): FaultChange => ({ is: 'open', element }))];
      return read(sweeps.withNetwork((standing) => keepingShape(standing, all)), blown);
    });
  };
}

/** An unset setting counts as another one than a setting that was never there. */
const unsetToo = (_: string, value: unknown): unknown => (value === undefined ? 'unset' : value);

/** Fuses that a fault takes with it. */
function blownMaker(network: Network, at: ReadonlyMap<string, Element>, base: RestSolved, fuses: FuseFinder): (changes: readonly FaultChange[]) => readonly string[] {
  let idle: Sweep | undefined | 'none';
  /** What a short circuit draws, with supplies and loads that regulate left out. */
  const shortCurrent = (a: string, b: string, resistance: number): number => {
    if (idle === undefined) {
      const bare = prepareSweep({ nodes: network.nodes, elements: network.elements.map((element) => atRest(element, base)) });
      idle = bare.outcome === 'ready' ? bare : 'none';
    }
    if (idle === 'none') return 0;
    const seen = idle.thevenin(a, b);
    return seen.outcome === 'connected' ? Math.abs(seen.voltage) / (Math.max(0, seen.resistance) + resistance) : 0;
  };
  return (changes) => {
    const blown = new Set<string>();
    for (const change of changes) {
      if ((change.is !== 'joined' && change.is !== 'shorted') || change.resistance > SHORT) continue;
      const element = change.is === 'shorted' ? at.get(change.element) : undefined;
      const [a, b] = change.is === 'joined' ? [change.a, change.b] : element && element.type !== 'converter' ? [element.a, element.b] : [REFERENCE_NODE, REFERENCE_NODE];
      if (a === b || Math.abs(base.voltageOf(a) - base.voltageOf(b)) < 1) continue;
      for (const fuse of fuses.blownBy(a, b, shortCurrent(a, b, change.resistance))) blown.add(fuse);
    }
    return [...blown];
  };
}

function sightOf(result: RestSolved, { points, things, runs }: Watched, blown: readonly string[]): Sight {
  const volts = new Float64Array(points.length), does = new Uint8Array(things.length), amps = new Float64Array(runs.length);
  for (let n = 0; n < points.length; n++) volts[n] = result.voltageOf(points[n]!);
  for (let n = 0; n < things.length; n++) {
    const { what, elements, least } = things[n]!;
    does[n] = Number(elements.some((element) => (what === 'closes' ? result.stateOf(element) === 'closed' : Math.abs(result.currentOf(element)) >= least)));
  }
  for (let n = 0; n < runs.length; n++) { const run = runs[n]; if (run !== undefined) amps[n] = result.currentOf(run); }
  return { volts, does, amps, blown };
}

function isThere(change: FaultChange, at: ReadonlyMap<string, Element>, nodes: ReadonlySet<string>): boolean {
  return change.is === 'joined' ? nodes.has(change.a) && nodes.has(change.b) && change.a !== change.b : at.has(change.element);
}

/** A contact that stands already as the fault would hold it, or a bad joint in a wire that carries nothing. */
function isIdle(change: FaultChange, at: ReadonlyMap<string, Element>, solved: RestSolved): boolean {
  if (change.is === 'joined') return false;
  const element = at.get(change.element)!;
  const isContact = element.type === 'switch' || element.type === 'relay';
  if (isContact && (change.is === 'stuck_open' || change.is === 'open')) return solved.stateOf(element.id) === 'open';
  if (isContact && change.is === 'stuck_closed') return solved.stateOf(element.id) === 'closed';
  if (change.is === 'resistive') return element.type !== 'source' && Math.abs(solved.currentOf(element.id)) * change.more < 1e-4;
  return false;
}

/** As one change of a solved network, where it is one. */
function asChange(change: FaultChange, at: ReadonlyMap<string, Element>): Change | undefined {
  if (change.is === 'joined') {
    const node = change.b === REFERENCE_NODE ? change.a : change.a === REFERENCE_NODE ? change.b : undefined;
    const tie = node === undefined ? undefined : at.get(tieId(node));
    if (tie?.type === 'resistor' && tie.b === REFERENCE_NODE && change.resistance >= 1e-3) return { kind: 'resistance', element: tie.id, resistance: change.resistance };
    return { kind: 'join', a: change.a, b: change.b, resistance: change.resistance };
  }
  const element = at.get(change.element)!;
  switch (change.is) {
    // as good as open, and the network keeps its shape
    case 'open': return element.type === 'converter' ? undefined : element.type === 'resistor' ? { kind: 'resistance', element: element.id, resistance: PARTED } : element.type === 'switch' || element.type === 'relay' ? { kind: 'closed', element: element.id, closed: false } : { kind: 'open', element: element.id };
    case 'stuck_open': return element.type === 'switch' || element.type === 'relay' ? { kind: 'closed', element: element.id, closed: false } : { kind: 'open', element: element.id };
    case 'stuck_closed': return element.type === 'switch' || element.type === 'relay' ? { kind: 'closed', element: element.id, closed: true } : undefined;
    case 'resistive': return 'resistance' in element ? { kind: 'resistance', element: element.id, resistance: element.resistance + change.more } : undefined;
    case 'weak': return 'voltage' in element ? { kind: 'voltage', element: element.id, voltage: change.voltage } : undefined;
    case 'shorted': return element.type === 'resistor' ? { kind: 'resistance', element: element.id, resistance: change.resistance } : undefined;
    case 'moved': return undefined;
  }
}

/** As good as open, for a resistor that keeps its place [ohm]. */
const PARTED = 1e12;

/** The faulty network in the shape of the whole one where that can be: it then shares its compiled form. */
function keepingShape(network: Network, changes: readonly FaultChange[]): Network {
  const index = new Map(network.elements.map(({ id }, n) => [id, n]));
  const elements = [...network.elements];
  const rest: FaultChange[] = [];
  for (const change of changes) {
    if (change.is === 'joined') {
      const node = change.b === REFERENCE_NODE ? change.a : change.a === REFERENCE_NODE ? change.b : undefined;
      const n = node === undefined ? undefined : index.get(tieId(node));
      const tie = n === undefined ? undefined : elements[n];
      if (n !== undefined && tie?.type === 'resistor' && tie.b === REFERENCE_NODE) elements[n] = { ...tie, resistance: 1 / (1 / tie.resistance + 1 / change.resistance) };
      else rest.push(change);
      continue;
    }
    const n = index.get(change.element);
    const element = n === undefined ? undefined : elements[n];
    if (n === undefined || element === undefined) continue;
    const opens = change.is === 'open' || change.is === 'stuck_open';
    if (opens && (element.type === 'resistor' || element.type === 'source' || element.type === 'diode')) elements[n] = { ...element, resistance: PARTED };
    else if (opens && element.type === 'switch') elements[n] = { ...element, closed: false };
    else if (opens && element.type === 'power') elements[n] = { ...element, power: 0 };
    else if (opens && element.type === 'draw') elements[n] = { ...element, current: 0 };
    else if (change.is === 'stuck_closed' && element.type === 'switch') elements[n] = { ...element, closed: true };
    else if (change.is === 'resistive' && 'resistance' in element) elements[n] = { ...element, resistance: element.resistance + change.more };
    else rest.push(change);
  }
  return faultyNetwork({ nodes: network.nodes, elements }, rest);
}

/** What regulates takes and gives nothing; relays stay as they stand. */
function atRest(element: Element, base: RestSolved): Element {
  switch (element.type) {
    case 'relay': return { type: 'switch', id: element.id, a: element.a, b: element.b, resistance: element.resistance, closed: base.stateOf(element.id) === 'closed' };
    case 'power': return { ...element, power: 0 };
    case 'draw': return { ...element, current: 0 };
    case 'supply': return { ...element, currentLimit: 0 };
    case 'converter': return { ...element, currentLimit: 0, idlePower: 0, minimumInput: Number.MAX_VALUE };
    default: return element;
  }
}

/** Nodes that little resistance joins, fuses apart: a short circuit anywhere on such a net is the same short circuit. */
function netsWithoutFuses(car: Car, links: ReturnType<typeof fuseFinder>['links']): (node: string) => string {
  const nets = unionFind();
  const fuses = fusesOf(car);
  for (const list of links.values()) for (const { id, a, b, resistance } of list) if (resistance < 0.02 && !fuses.has(id) && a !== REFERENCE_NODE && b !== REFERENCE_NODE) nets.join(a, b);
  return (node) => (node === REFERENCE_NODE ? node : nets.find(node));
}

interface Bus { readonly elements: ReadonlySet<string>; readonly nodes: ReadonlySet<string>; /** not reached even with nothing wrong: the file does not draw who commands them */ readonly lost: readonly string[] }

/** Elements and points that the bus consists of: only faults there can change who hears whom. */
function busElements(car: Car, network: Network): Bus {
  const lost = unreached(car, network);
  const nodes = new Set([...car.parts.values()].flatMap(({ ports, names }) => ports.filter(({ name }) => /can_[hl]$/.test(name)).map(({ name }) => names.of(name))));
  for (let grew = true; grew;) {
    grew = false;
    for (const element of network.elements) {
      if (element.type !== 'resistor' || element.resistance > 1) continue;
      for (const [one, other] of [[element.a, element.b], [element.b, element.a]] as const) if (nodes.has(one) && !nodes.has(other) && other !== REFERENCE_NODE) { nodes.add(other); grew = true; }
    }
  }
  const elements = new Set(network.elements.filter((element) => element.type === 'resistor' && nodes.has(element.a) && nodes.has(element.b)).map(({ id }) => id));
  return { elements, nodes, lost };
}

function lostOnBus(car: Car, network: Network, changes: readonly FaultChange[], silent: readonly string[], bus: Bus): readonly string[] {
  const touches = changes.some((change) => (change.is === 'joined' ? bus.nodes.has(change.a) || bus.nodes.has(change.b) : bus.elements.has(change.element)));
  const lost = touches ? unreached(car, faultyNetwork(network, changes)).filter((name) => !bus.lost.includes(name)) : [];
  if (silent.length === 0) return lost;
  const isLeaderless = commanders(car).every(({ name }) => silent.includes(name));
  return [...new Set([...lost, ...(isLeaderless ? busNodes(car).map(({ name }) => name) : silent)])];
}
