/**
 * A car with a fault in it, asked like any other: each question a whole solve of its network, fuses opened one by one by the current that they
 * carry. Slow, and independent of the predictions that fault finding is quick with: the bench and the checks answer tests from it.
 */
import type { Network as Ask } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import type { State } from '../car/state.ts';
import { bridged, bridgeId, wireCar } from '../car/wire-car.ts';
import type { Network } from '../solve/element.ts';
import type { RestResult } from '../solve/rest-result.ts';
import { solveAtRest } from '../solve/solve-at-rest.ts';
import { asksNetwork } from '../condition/condition.ts';
import { isTrue } from '../condition/evaluate.ts';
import { situationIn } from '../topics/modes/situation.ts';
import { prepareSweep } from '../solve/changes.ts';
import type { Way } from './asked-state.ts';
import { BLOWS, fusesAtRisk, fusesOf } from './blown-fuses.ts';
import { silencedBy, unreached } from './bus.ts';
import { faultyNetwork } from './fault-change.ts';
import type { FaultChange } from './fault-change.ts';
import { NO_VOLTAGE } from './predict.ts';
import { unheard } from './tied-network.ts';

export interface FaultyCar {
  readonly ask: Ask;
  /** how far it gets on a way, and the state in which it stays */
  readonly goes: (way: Way) => { readonly state: State; readonly reached: number; readonly fellBack: boolean };
  /** fuses that have blown since the car was made, in any state that was asked for: they stay so [elements] */
  readonly blown: () => readonly string[];
  readonly networkIn: (state: State) => Network;
}

/** @param solve  the engine that answers; ours unless a check brings another */
export function faultyCar(car: Car, fault: { readonly changes: readonly FaultChange[]; readonly silent: readonly string[] }, solve: (network: Network) => RestResult = solveAtRest): FaultyCar {
  const blown = new Set<string>();
  const whole = wireCar(car, {}).network;
  const mayOpen = fusesAtRisk(whole)(fault.changes);
  const fuses = [...fusesOf(car)].filter(([element]) => mayOpen?.(element) === true);
  const lostWhole = unreached(car, whole);
  const networks = new Map<string, Network>();
  const networkIn = (state: State): Network => {
    const key = `${JSON.stringify(state)} ${[...blown].join(' ')}`;
    let network = networks.get(key);
    if (!network) networks.set(key, (network = makeNetwork(state)));
    return network;
  };
  const makeNetwork = (state: State): Network => {
    const { bridges, ...bare } = state;
    const plain = faultyNetwork(wireCar(car, bare).network, fault.changes);
    const lost = [...new Set([...unreached(car, plain).filter((name) => !lostWhole.includes(name)), ...silencedBy(car, fault.silent)])];
    const heard = lost.length > 0 ? faultyNetwork(wireCar(car, unheard(car, bare, lost)).network, fault.changes) : plain;
    const open = faultyNetwork(heard, [...blown].map((element): FaultChange => ({ is: 'open', element })));
    return bridges ? bridged({ network: open, points: [], notWired: [] }, { bridges }).network : open;
  };
  const answers = new Map<string, RestResult>();
  const answer = (state: State): RestResult => {
    for (let round = 0; round < 6; round++) {
      const key = `${JSON.stringify(state)} ${[...blown].join(' ')}`;
      let result = answers.get(key);
      if (!result) answers.set(key, (result = solve(networkIn(state))));
      if (result.outcome !== 'solved') return result;
      const { currentOf } = result;
      const worst = fuses.filter(([element]) => !blown.has(element)).map(([element, rating]) => ({ element, load: Math.abs(currentOf(element)) / rating })).sort((a, b) => b.load - a.load)[0];
      if (!worst || worst.load < BLOWS) return result;
      blown.add(worst.element);
    }
    return solve(networkIn(state));
  };
  const sweeps = new Map<string, ReturnType<typeof prepareSweep>>();
  const sweep = (state: State): ReturnType<typeof prepareSweep> => {
    answer(state);
    const key = `${JSON.stringify(state)} ${[...blown].join(' ')}`;
    let made = sweeps.get(key);
    if (!made) sweeps.set(key, (made = prepareSweep(networkIn(state))));
    return made;
  };
  const ask: Ask = {
    points: wireCar(car, {}).points,
    solve: answer,
    thevenin: (state, a, b) => {
      const made = sweep(state);
      if (made.outcome !== 'ready') return { outcome: 'failed', why: made.outcome };
      const seen = made.thevenin(a, b);
      return seen.outcome === 'connected' ? { outcome: 'solved', voltage: seen.voltage, resistance: Math.max(0, seen.resistance) } : { outcome: 'unconnected' };
    },
    changed: (state, changes) => {
      const made = sweep(state);
      return made.outcome === 'ready' ? made.withChanges(changes) : made;
    },
    faultCurrent: () => ({ outcome: 'failed', why: 'not asked of a faulty car' }),
    meter: (state, a, b, meterResistance = METER) => {
      answer(state);
      const read = answer({ ...state, bridges: [{ a, b, resistance: meterResistance }] });
      return read.outcome === 'solved' ? { outcome: 'reads', voltage: read.currentOf(bridgeId(0)) * meterResistance, isFloating: false } : { outcome: 'failed', why: read.outcome };
    },
  };
  const gone = new Map<Way, { readonly blown: number; readonly found: ReturnType<FaultyCar['goes']> }>();
  const go = (way: Way): ReturnType<FaultyCar['goes']> => {
    const holds = (conditions: Way['asserts'], state: State): boolean => { const { voltage, ...others } = situationIn(car, ask, state); const situation = { ...others, voltage: (a: string, b: string) => { const volts = voltage(a, b); return volts !== undefined && Math.abs(volts) < NO_VOLTAGE ? 0 : volts; } }; return conditions.every(({ expression }) => isTrue(expression, situation) !== false); };
    for (const [index, { state, needs }] of way.steps.entries()) {
      const onNetwork = needs.some(asksNetwork);
      if (onNetwork && answer(state).outcome !== 'solved') return { state, reached: index, fellBack: false };
      if (!holds(needs, state)) return { state, reached: index, fellBack: false };
    }
    const last = way.steps.at(-1);
    if (last && answer(way.end).outcome === 'solved' && !holds(way.asserts, way.end)) return { state: last.state, reached: way.steps.length - 1, fellBack: true };
    return { state: way.end, reached: way.steps.length, fellBack: false };
  };
  return {
    ask, networkIn, blown: () => [...blown],
    goes: (way) => {
    const known = gone.get(way);
      if (known?.blown === blown.size) return known.found;
      const found = go(way);
      gone.set(way, { blown: blown.size, found });
      return found;
    },
  };
}

const METER = 10e6;
