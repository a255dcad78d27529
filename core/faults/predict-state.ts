/**
 * What every hypothesis looks like in one state: the state is solved once, each fault is a neighbour of that solution. What comes to no rest
 * that way is solved in full.
 */
import type { Car } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';
import type { State } from '../car/state.ts';
import { wireCar } from '../car/wire-car.ts';
import { prepareSweep } from '../solve/changes.ts';
import type { Sweep } from '../solve/changes.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import type { Element, Network } from '../solve/element.ts';
import type { NearSystem } from '../solve/near-system.ts';
import type { RestResult } from '../solve/rest-result.ts';
import { solveAtRest } from '../solve/solve-at-rest.ts';
import { fusesOf } from './blown-fuses.ts';
import { chainsOf } from './chains.ts';
import { faultyNetwork } from './fault-change.ts';
import type { FaultChange } from './fault-change.ts';
import type { Hypothesis } from './hypothesis.ts';
import { solverInFull } from './in-full.ts';
import { lostOnBus } from './lost-on-bus.ts';
import { deviantsIn, modelBand } from './model-band.ts';
import { nearFaults } from './near-faults.ts';
import type { NearFaults } from './near-faults.ts';
import type { Thing } from './things.ts';
import { TIE, tiedNetwork, unheard } from './tied-network.ts';

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
  /** what the tolerances of the file leave open between two points of the car with nothing wrong, one standard deviation [V]; undefined: not known */
  readonly band: (a: string, b: string) => number | undefined;
  readonly counts: { lowRank: number; inFull: number };
}

/** States of one car are mostly of one shape: what was compiled for one serves the next. */
const compiledOf = remembered(function compiledStates(_: Car): { last: NearSystem | undefined } { return { last: undefined }; });

export function sightsIn(car: Car, state: State, all: Watched): StateSights {
  const { network, isHigh } = tiedNetwork(car, state);
  // a run that is off carries nothing
  const off = new Set(state.without ?? []);
  const watched: Watched = { ...all, runs: all.runs.map((run) => (run !== undefined && off.has(run) ? undefined : run)) };
  const counts = { lowRank: 0, inFull: 0 };
  const compiled = compiledOf(car);
  const near = nearFaults(network, fusesOf(car), compiled.last);
  if (near) compiled.last ??= near.system;
  const readNear = near && nearReader(near, watched);
  const healthy = readNear ? readNear([]) : sightInFull(solveAtRest(network), watched, []);
  if (!healthy) return { state, base: undefined, isHigh, of: () => undefined, sourceResistance: () => undefined, band: () => undefined, counts };
  const seen = sightMaker(car, state, network, near, readNear, healthy, watched, counts);
  let band: StateSights['band'] | undefined;
  let sweep: Sweep | 'none' | undefined;
  return {
    state, base: healthy, isHigh, counts,
    band: (a, b) => (band ??= near ? modelBand(near.system, deviantsIn(car, state.mode)) : () => undefined)(a, b),
    of: ({ changes, silent }) => seen(changes, silent),
    sourceResistance: (a, b) => {
      if (sweep === undefined) { const made = prepareSweep(network); sweep = made.outcome === 'ready' ? made : 'none'; }
      const source = sweep === 'none' ? undefined : sweep.thevenin(a, b);
      return source?.outcome === 'connected' ? Math.max(0, source.resistance) : undefined;
    },
  };
}

function sightMaker(car: Car, state: State, network: Network, near: NearFaults | undefined, readNear: ((blown: readonly string[]) => Sight) | undefined, healthy: Sight, watched: Watched, counts: StateSights['counts']): (changes: readonly FaultChange[], silent: readonly string[]) => Sight | undefined {
  const at = new Map(network.elements.map((element) => [element.id, element]));
  const nodes = new Set([...network.nodes, REFERENCE_NODE]);
  const chains = chainsOf(network.elements.filter(({ id }) => !id.startsWith(TIE)));
  const placeOf = new Map(watched.points.map((point, index) => [point, index]));
  const lost = lostOnBus(car, network);
  const inFull = solverInFull(network, fusesOf(car));
  const whole = wireCar(car, state).network.elements;
  const known = new Map<string, Sight | undefined>();
  const once = (key: string, make: () => Sight | undefined): Sight | undefined => {
    if (!known.has(key)) known.set(key, make());
    return known.get(key);
  };
  const solved = (changes: readonly FaultChange[], becomes?: readonly Element[]): Sight | undefined => {
    if (near && readNear) {
      const blown = near.plant(changes, becomes);
      const sight = blown === undefined || blown === 'buzzes' ? undefined : readNear(blown);
      near.mend();
      if (blown !== undefined) { counts.lowRank++; return sight; }
    }
    counts.inFull++;
    if (becomes) return undefined;
    const full = inFull(changes);
    return full && sightInFull(full.result, watched, full.blown);
  };
  const room = roomFor(watched.points.length, 0, 0);
  /** Wherever a chain parts, the car around it looks the same; only the points inside lie on this side or the other. */
  const inChain = (change: Extract<FaultChange, { is: 'open' | 'resistive' }>): Sight | undefined => {
    const link = chains.get(change.element);
    if (!link) return once(`${change.element} ${change.is === 'open' ? '' : change.more}`, () => solved([change]));
    const parted = once(`${link.chain} ${change.is === 'open' ? '' : change.more}`, () => solved([{ ...change, element: link.chain }]));
    if (!parted || change.element === link.chain) return parted;
    const { volts } = room();
    volts.set(parted.volts);
    const set = (side: readonly string[], end: string): void => {
      const place = placeOf.get(end);
      const value = end === REFERENCE_NODE ? 0 : place === undefined ? undefined : parted.volts[place];
      if (value !== undefined) for (const node of side) { const here = placeOf.get(node); if (here !== undefined) volts[here] = value; }
    };
    set(link.before.slice(1), link.before[0]!);
    set(link.after.slice(0, -1), link.after.at(-1)!);
    return { ...parted, volts };
  };
  /** By who is lost: elements that then have other numbers; undefined: the network has another shape. */
  const others = new Map<string, readonly Element[] | undefined>();
  const becomesOf = (other: State, key: string): readonly Element[] | undefined => {
    if (!others.has(key)) {
      const { elements } = wireCar(car, other).network;
      const isAlike = elements.length === whole.length && elements.every((element, n) => isSameButNumbers(element, whole[n]!));
      others.set(key, isAlike ? elements.filter((element, n) => element !== whole[n] && JSON.stringify(element) !== JSON.stringify(whole[n])) : undefined);
    }
    return others.get(key);
  };
  /** A contact that a fault holds as it stands already, or a bad joint in a wire that carries nothing. */
  const isIdle = (change: FaultChange): boolean => {
    if (change.is === 'joined' || !near) return false;
    const element = at.get(change.element)!;
    const isContact = element.type === 'switch' || element.type === 'relay';
    if (isContact && (change.is === 'stuck_open' || change.is === 'open')) return !near.isClosed(near.indexOf(element.id));
    if (isContact && change.is === 'stuck_closed') return near.isClosed(near.indexOf(element.id));
    return change.is === 'resistive' && element.type !== 'source' && Math.abs(near.current(near.indexOf(element.id))) * change.more < 1e-4;
  };
  return (changes, silent) => {
    const real = changes.filter((change) => (change.is === 'joined' ? nodes.has(change.a) && nodes.has(change.b) && change.a !== change.b : at.has(change.element)));
    const deaf = lost(real, silent);
    if (deaf.length > 0) {
      const other = unheard(car, state, deaf);
      if (JSON.stringify(other.set ?? {}, unsetToo) !== JSON.stringify(state.set ?? {}, unsetToo)) {
        const key = deaf.join(' ');
        return once(`unheard ${key} ${JSON.stringify(real)}`, () => {
          const becomes = becomesOf(other, key);
          const sight = becomes && solved(real, becomes);
          return sight ?? sightInFull(solveAtRest(faultyNetwork(tiedNetwork(car, other).network, real)), watched, []);
        });
      }
    }
    // one of several is never idle for itself: a coil that is parted moves nothing only because its contact is held
    if (real.every(isIdle)) return healthy;
    const [only] = real;
    if (real.length === 1 && (only!.is === 'open' || only!.is === 'resistive') && at.get(only!.element)?.type === 'resistor') return inChain(only!);
    return once(JSON.stringify(real.map((change) => (change.is === 'joined' ? { ...change, id: '' } : change))), () => solved(real));
  };
}

/** An unset setting counts as another one than a setting that was never there. */
const unsetToo = (_: string, value: unknown): unknown => (value === undefined ? 'unset' : value);

function isSameButNumbers(one: Element, other: Element): boolean {
  if (one === other) return true;
  if (one.id !== other.id || one.type !== other.type) return false;
  if (one.type === 'converter') return other.type === 'converter' && [...one.input, ...one.output].join(' ') === [...other.input, ...other.output].join(' ');
  return other.type !== 'converter' && one.a === other.a && one.b === other.b;
}

/** Reads what is watched where the near network stands, by places found once. */
function nearReader({ system, current, isClosed, indexOf }: NearFaults, { points, things, runs }: Watched): (blown: readonly string[]) => Sight {
  const places = Int32Array.from(points, (point) => system.compiled.nodeIndexOf.get(point) ?? -1);
  const looked = things.map(({ what, elements, least }) => ({ isContact: what === 'closes', elements: elements.map(indexOf), least }));
  const lines = Int32Array.from(runs, (run) => (run === undefined ? -1 : indexOf(run)));
  const room = roomFor(places.length, looked.length, lines.length);
  return (blown) => {
    const { x } = system;
    const { volts, does, amps } = room();
    for (let n = 0; n < places.length; n++) { const place = places[n]!; if (place >= 0) volts[n] = x[place]!; }
    for (let n = 0; n < looked.length; n++) {
      const { isContact, elements, least } = looked[n]!;
      for (const element of elements) if (isContact ? isClosed(element) : Math.abs(current(element)) >= least) does[n] = 1;
    }
    for (let n = 0; n < lines.length; n++) { const line = lines[n]!; if (line >= 0) amps[n] = current(line); }
    return { volts, does, amps, blown };
  };
}

/** Memory for many sights at once: each piece of memory costs more than what is written into it. */
function roomFor(points: number, things: number, runs: number): () => Pick<Sight, 'volts' | 'does' | 'amps'> {
  let used = AT_ONCE, volts = new Float64Array(0), does = new Uint8Array(0), amps = new Float64Array(0);
  return () => {
    if (used === AT_ONCE) { used = 0; volts = new Float64Array(points * AT_ONCE); does = new Uint8Array(things * AT_ONCE); amps = new Float64Array(runs * AT_ONCE); }
    const n = used++;
    return { volts: volts.subarray(n * points, (n + 1) * points), does: does.subarray(n * things, (n + 1) * things), amps: amps.subarray(n * runs, (n + 1) * runs) };
  };
}
const AT_ONCE = 64;

function sightInFull(result: RestResult, { points, things, runs }: Watched, blown: readonly string[]): Sight | undefined {
  if (result.outcome !== 'solved') return undefined;
  const { voltageOf, currentOf, stateOf } = result;
  const volts = Float64Array.from(points, voltageOf), amps = Float64Array.from(runs, (run) => (run === undefined ? 0 : currentOf(run)));
  const does = Uint8Array.from(things, ({ what, elements, least }) => Number(elements.some((element) => (what === 'closes' ? stateOf(element) === 'closed' : Math.abs(currentOf(element)) >= least))));
  return { volts, does, amps, blown };
}
