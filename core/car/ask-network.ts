/**
 * Answers about the one network of a car, each worked out once.
 *
 * An `AnswerStore` outlives the draws: it keeps, for each state, the compiled network and its factorisation order, so that a
 * thousand draws of one build solve the same shape with other numbers.
 */
import type { Element, Network as Wires } from '../solve/element.ts';
import type { RestResult } from '../solve/rest-result.ts';
import { prepareRest } from '../solve/solve-at-rest.ts';
import type { PreparedRest } from '../solve/solve-at-rest.ts';
import type { Network, TheveninResult } from './ask.ts';
import type { Car } from './car.ts';
import type { State } from './state.ts';
import { bridged, wireCar } from './wire-car.ts';
import type { WiredCar } from './wire-car.ts';

/** What is kept between draws; opaque to everybody else. */
export interface AnswerStore { readonly prepared: Map<string, PreparedRest> }

export function answerStore(): AnswerStore {
  return { prepared: new Map() };
}

/** Digital multimeters on their voltage ranges; common practice, no source (UN R100 asks for at least as much). */
const METER_RESISTANCE = 10e6;

/**
 * @param store  kept between draws of one build; never shared between builds
 */
export function askNetwork(car: Car, store: AnswerStore): Network {
  const solved = new Map<string, RestResult>();
  const wired = new Map<string, WiredCar>();
  const seen = new Map<string, TheveninResult>();

  /** Wired once for all states that differ only in what is laid across or left out. */
  const wires = (state: State): Wires => {
    const { bridges, withoutLoads, ...bare } = state;
    const key = JSON.stringify(bare);
    let plain = wired.get(key);
    if (!plain) wired.set(key, (plain = wireCar(car, bare)));
    return bridged(plain, { ...(bridges ? { bridges } : {}), ...(withoutLoads === undefined ? {} : { withoutLoads }) }).network;
  };
  const solveWith = (key: string, network: Wires): RestResult => {
    const known = store.prepared.get(key);
    if (known) return known.solve(network);
    const prepared = prepareRest(network);
    store.prepared.set(key, prepared);
    return prepared.result;
  };
  const solve = (state: State): RestResult => {
    const key = JSON.stringify(state);
    let result = solved.get(key);
    if (!result) solved.set(key, (result = solveWith(key, wires(state))));
    return result;
  };
  /** The network with one element more, solved. */
  const solveWithExtra = (state: State, extra: Element): RestResult => {
    const key = JSON.stringify(state);
    const { nodes, elements } = wires(state);
    return solveWith(`${key} + ${extra.id}`, { nodes, elements: [...elements, extra] });
  };
  const thevenin = (state: State, a: string, b: string): TheveninResult => {
    const key = `${JSON.stringify(state)} ${a} ${b}`;
    let result = seen.get(key);
    if (!result) seen.set(key, (result = twoPoints(solve(state), (extra) => solveWithExtra(state, extra), a, b)));
    return result;
  };

  return {
    points: wireCar(car, {}).points,
    solve,
    thevenin,
    faultCurrent: (state, a, b) => {
      const source = thevenin({ ...state, withoutLoads: true }, a, b);
      if (source.outcome !== 'solved') return source;
      return source.resistance > 0 ? { ...source, current: source.voltage / source.resistance } : { outcome: 'failed', why: `nothing limits the current between ${a} and ${b}` };
    },
    meter: (state, a, b, meterResistance = METER_RESISTANCE) => {
      const before = solve(state);
      if (before.outcome !== 'solved') return { outcome: 'failed', why: whyFailed(before) };
      const isFloating = before.islandOf(a) !== before.islandOf(b);
      const bridged = solveWithExtra(state, { type: 'resistor', id: `meter ${a} ${b}`, a, b, resistance: meterResistance });
      return bridged.outcome === 'solved' ? { outcome: 'reads', voltage: bridged.voltageOf(a) - bridged.voltageOf(b), isFloating } : { outcome: 'failed', why: whyFailed(bridged) };
    },
  };
}

/** A failed solve in one sentence. */
export function whyFailed(result: Exclude<RestResult, { outcome: 'solved' }>): string {
  switch (result.outcome) {
    case 'not_converged': return `no operating point found near ${result.node}${result.element === undefined ? '' : `; ${result.element} asks for more than can reach it`}`;
    case 'chatter': return `${result.relays.join(', ')} would buzz: by moving, the contact takes away or gives back its own coil's voltage`;
    case 'contradiction': return `${result.elements.join(', ')} contradict each other`;
  }
}

/** The voltage between two points, and how it gives way to one ampere drawn there. */
function twoPoints(before: RestResult, withExtra: (extra: Element) => RestResult, a: string, b: string): TheveninResult {
  if (before.outcome !== 'solved') return { outcome: 'failed', why: whyFailed(before) };
  if (before.islandOf(a) !== before.islandOf(b)) return { outcome: 'unconnected' };
  const voltage = before.voltageOf(a) - before.voltageOf(b);
  const loaded = withExtra({ type: 'current', id: `test ${a} ${b}`, a, b, current: TEST_CURRENT });
  if (loaded.outcome !== 'solved') return { outcome: 'failed', why: whyFailed(loaded) };
  return { outcome: 'solved', voltage, resistance: Math.max(0, (voltage - (loaded.voltageOf(a) - loaded.voltageOf(b))) / TEST_CURRENT) };
}

/** Small enough to leave every load at its operating point, large enough to stand above rounding [A]. */
const TEST_CURRENT = 1e-3;
