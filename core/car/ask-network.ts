/**
 * Answers about the one network of a car, each worked out once.
 *
 * A state is solved once; what is laid across it (a meter, a spanner, a bolted short) and how it looks from two points
 * are then found from the factors of that solution. An `AnswerStore` outlives the draws: it keeps, for each state, the compiled
 * network and its order of elimination, so that a thousand draws of one build solve the same shape with other numbers.
 */
import type { Change } from '../solve/change.ts';
import { sweepMaker } from '../solve/changes.ts';
import type { Sweep, SweepMaker } from '../solve/changes.ts';
import type { Network as Wires } from '../solve/element.ts';
import type { RestFailure, RestResult } from '../solve/rest-result.ts';
import type { Network, TheveninResult } from './ask.ts';
import type { Car } from './car.ts';
import type { State } from './state.ts';
import { bridged, bridgeId, wireCar } from './wire-car.ts';
import type { WiredCar } from './wire-car.ts';

/** What is kept between draws; opaque to everybody else. */
export interface AnswerStore { readonly makers: Map<string, SweepMaker>; /** one maker of each shape: states that leave out the same are compiled and ordered once */ readonly shapes: Map<string, SweepMaker>; /** the network whose numbers stand in them */ last: object | undefined }

export function answerStore(): AnswerStore {
  return { makers: new Map(), shapes: new Map(), last: undefined };
}

/** What a solution was asked already: after an edit that leaves its numbers as they were it is the same solution (`SweepMaker.at`). */
interface Known { readonly joined: Map<string, RestResult>; readonly seen: Map<string, TheveninResult> }
const known = new WeakMap<Sweep, Known>();

function knownOf(sweep: Sweep): Known {
  let asked = known.get(sweep);
  if (!asked) known.set(sweep, (asked = { joined: new Map(), seen: new Map() }));
  return asked;
}

/** Digital multimeters on their voltage ranges; common practice, no source (UN R100 asks for at least as much). */
const METER_RESISTANCE = 10e6;

/**
 * @param store  kept between draws of one build and between its edits: what an edit has wired otherwise is compiled again. Only the
 *               last `askNetwork` of a store may be asked for what it has not been asked yet.
 * Errors: its questions throw once the store has passed to another: its numbers would be mixed with that one's
 */
export function askNetwork(car: Car, store: AnswerStore): Network {
  const sweeps = new Map<string, Sweep | RestFailure>();
  const wired = new Map<string, WiredCar>();
  const own = {};
  store.last = own;
  const holdsStore = (): void => { if (store.last !== own) throw new Error('a car was asked after another one had taken over its store of answers'); };

  /** Wired once for all states that differ only in what is laid across or left out. */
  const wires = ({ bridges, withoutLoads, ...bare }: State): Wires => {
    const key = JSON.stringify(bare);
    let plain = wired.get(key);
    if (!plain) wired.set(key, (plain = wireCar(car, bare)));
    return bridged(plain, { ...(bridges ? { bridges } : {}), ...(withoutLoads === undefined ? {} : { withoutLoads }) }).network;
  };
  const sweepOf = (state: State): Sweep | RestFailure => {
    const key = JSON.stringify(state);
    let sweep = sweeps.get(key);
    if (sweep) return sweep;
    holdsStore();
    const network = wires(state);
    let maker = store.makers.get(key);
    if (!maker) {
      const shape = `${network.elements.length} ${state.without?.join(' ') ?? ''}`;
      const like = store.shapes.get(shape);
      store.makers.set(key, (maker = sweepMaker(network, {}, like)));
      if (!like) store.shapes.set(shape, maker);
    }
    sweeps.set(key, (sweep = maker.at(network)));
    return sweep;
  };
  const solve = (state: State): RestResult => {
    const [bridge, ...more] = state.bridges ?? [];
    if (bridge === undefined || more.length > 0) return resultOf(sweepOf(state));
    const { bridges: _, ...without } = state;
    return beside(without, bridge);
  };
  /** One more resistor than the state has: a change of its solution, whatever lies across it already. */
  const beside = (state: State, across: { readonly a: string; readonly b: string; readonly resistance: number }): RestResult => {
    const sweep = sweepOf(state);
    const { bridges = [] } = state;
    if (sweep.outcome !== 'ready') return resultOf(sweepOf({ ...state, bridges: [...bridges, across] }));
    const { joined } = knownOf(sweep);
    const key = `${across.a} ${across.b} ${across.resistance}`;
    let result = joined.get(key);
    if (result) return result;
    holdsStore();
    joined.set(key, (result = sweep.withChange({ kind: 'join', id: bridgeId(bridges.length), ...across })));
    return result;
  };
  const thevenin = (state: State, a: string, b: string): TheveninResult => {
    const sweep = sweepOf(state);
    if (sweep.outcome !== 'ready') return { outcome: 'failed', why: whyFailed(sweep) };
    const { seen } = knownOf(sweep);
    const key = `${a} ${b}`;
    let result = seen.get(key);
    if (result) return result;
    holdsStore();
    seen.set(key, (result = twoPoints(sweep, a, b)));
    return result;
  };

  return {
    get points() { return wireCar(car, {}).points; },
    solve,
    thevenin,
    changed: (state, changes, isLight = false) => { holdsStore(); const sweep = sweepOf(state); return sweep.outcome === 'ready' ? changedBy(sweep, changes, isLight) : resultOf(sweep); },
    faultCurrent: (state, a, b) => {
      const source = thevenin({ ...state, withoutLoads: true }, a, b);
      if (source.outcome !== 'solved') return source;
      return source.resistance > 0 ? { ...source, current: source.voltage / source.resistance } : { outcome: 'failed', why: `nothing limits the current between ${a} and ${b}` };
    },
    meter: (state, a, b, meterResistance = METER_RESISTANCE) => {
      const before = solve(state);
      if (before.outcome !== 'solved') return { outcome: 'failed', why: whyFailed(before) };
      const isFloating = before.islandOf(a) !== before.islandOf(b);
      if (a === b) return { outcome: 'reads', voltage: 0, isFloating };
      const read = beside(state, { a, b, resistance: meterResistance });
      return read.outcome === 'solved' ? { outcome: 'reads', voltage: read.voltageOf(a) - read.voltageOf(b), isFloating } : { outcome: 'failed', why: whyFailed(read) };
    },
  };
}

/** @param isLight  only what takes little time; undefined when more has to move */
export function changedBy(sweep: Sweep, changes: readonly Change[], isLight: boolean): RestResult | undefined {
  return !isLight ? sweep.withChanges(changes) : changes.length === 1 ? sweep.lightly(changes[0]!) : undefined;
}

function resultOf(sweep: Sweep | RestFailure): RestResult {
  return sweep.outcome === 'ready' ? sweep.result : sweep;
}

/** A failed solve in one sentence. */
export function whyFailed(result: Exclude<RestResult, { outcome: 'solved' }>): string {
  switch (result.outcome) {
    case 'not_converged': return `no operating point found near ${result.node}${result.element === undefined ? '' : `; ${result.element} asks for more than can reach it`}`;
    case 'chatter': return `${result.relays.join(', ')} would buzz: by moving, the contact takes away or gives back its own coil's voltage`;
    case 'contradiction': return `${result.elements.join(', ')} contradict each other`;
  }
}

function twoPoints(sweep: Sweep, a: string, b: string): TheveninResult {
  const seen = sweep.thevenin(a, b);
  return seen.outcome === 'connected' ? { outcome: 'solved', voltage: seen.voltage, resistance: Math.max(0, seen.resistance) } : { outcome: 'unconnected' };
}
