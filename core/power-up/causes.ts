/**
 * What a wrong reading most likely means: every failure that the parts around the probes declare, and every run there left off, is tried
 * in the network of the step; those that move the reading out of its band are causes. The likelier and the nearer come first.
 */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { ownerOf } from '../car/metal-graph.ts';
import type { State } from '../car/state.ts';
import { settingsIn, wireCar } from '../car/wire-car.ts';
import { failuresOf } from '../part/kind.ts';
import type { ElementChange } from '../part/failure.ts';
import type { Change } from '../solve/change.ts';
import { sweepMaker } from '../solve/changes.ts';
import type { Sweep } from '../solve/changes.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import type { Element, Network as Wires } from '../solve/element.ts';
import type { RestResult } from '../solve/rest-result.ts';
import { elementsAt, nearest, pointsOf } from './near.ts';
import type { Near } from './near.ts';
import { readMeasure } from './read-measure.ts';
import type { Measure, PowerUpStep } from './step.ts';

export interface Cause {
  readonly part: string;
  /** code of the part's failure, or `not_joined` of a run */
  readonly failure: string;
  readonly meaning: string;
  /** what the step would read then [SI]; undefined: nothing conducts any more */
  readonly reads: number | undefined;
  /** relative: likelihood among the part's own failures, less the further away; common practice, no source */
  readonly weight: number;
}

/** Elements around the probes whose parts are suspected. */
const AROUND = 24;
/** Failures of more than one change that are solved in full, a step. */
const MOST_IN_FULL = 2;
/** Failures tried for a step, the heaviest first. */
const MOST_TRIED = 40;
/** Each element further away is so much less likely to be it; our choice. */
const FURTHER = 0.75;
/** A run that was never joined, or its terminal pulled out: beside the likelihoods that kinds declare; common practice, no source. */
const NOT_JOINED = 3;
/** Ohmmeter: source and inner resistance, low enough to open no diode. */
const OHMS = { id: 'ohmmeter', voltage: 0.2, resistance: 1000 };
/** Voltmeter, laid across the points where it loads them [ohm]. */
const VOLTS = { id: 'voltmeter', resistance: 10e6 };
/** A point that the meter pulls down by more than this is solved with it [V]. */
const LOADED = 0.05;

export interface CauseFinder { readonly causesOf: (step: PowerUpStep, most?: number) => readonly Cause[] }

/** Keeps the solved network of each state, so that the steps of one state share it. */
export function causeFinder(car: Car, ask: Network): CauseFinder {
  const sweeps = new Map<string, Sweep | undefined>();
  const walks = new Map<string, ReadonlyMap<string, readonly Element[]>>();
  const sweepOf = (state: State, measure: Measure, nominal: number): Sweep | undefined => {
    const plain = ask.solve(state);
    const isLoaded = measure.is === 'voltage' && (plain.outcome !== 'solved' || plain.islandOf(measure.a) !== plain.islandOf(measure.b) || Math.abs(plain.voltageOf(measure.a) - plain.voltageOf(measure.b) - nominal) > LOADED);
    const key = `${JSON.stringify(state)} ${measure.is === 'resistance' || isLoaded ? `${measure.a} ${measure.b}` : ''}`;
    if (!sweeps.has(key)) {
      const network = withMeter(wireCar(car, state).network, measure, isLoaded);
      const made = sweepMaker(network).at(network);
      sweeps.set(key, made.outcome === 'ready' ? made : undefined);
    }
    return sweeps.get(key);
  };
  return {
    causesOf: (step, most = 3) => {
      const { state = {}, measure, predicted } = step;
      if (!measure || !predicted || measure.is === 'time') return [];
      const sweep = sweepOf(state, measure, predicted.nominal);
      if (!sweep) return [];
      const key = JSON.stringify(state);
      const at = walks.get(key) ?? elementsAt(sweep.network.elements);
      walks.set(key, at);
      const near = nearest(at, pointsOf(measure, car), AROUND).filter(({ element }) => element.id !== OHMS.id && element.id !== VOLTS.id);
      return ranked(car, ask, step, sweep, near, most);
    },
  };
}

function withMeter(wires: Wires, measure: Measure, isLoaded: boolean): Wires {
  if (measure.is === 'voltage' && isLoaded) return { nodes: wires.nodes, elements: [...wires.elements, { type: 'resistor', id: VOLTS.id, a: measure.a, b: measure.b, resistance: VOLTS.resistance }] };
  return measure.is !== 'resistance' ? wires : { nodes: wires.nodes, elements: [...wires.elements, { type: 'source', id: OHMS.id, a: measure.a, b: measure.b, voltage: OHMS.voltage, resistance: OHMS.resistance }] };
}

interface Candidate { readonly part: string; readonly failure: string; readonly meaning: string; readonly weight: number; readonly changes: readonly Change[]; readonly inFull: boolean }

function ranked(car: Car, ask: Network, step: PowerUpStep, sweep: Sweep, near: readonly Near[], most: number): readonly Cause[] {
  const [measure, band] = [step.measure!, step.predicted!];
  const found: Cause[] = [];
  let [full, tried] = [0, 0];
  const candidates = candidatesNear(car, step.state ?? {}, sweep.network, near, step.lost.length > 0 ? step.about : []).sort((a, b) => b.weight - a.weight);
  for (const { part, failure, meaning, weight, changes, inFull } of candidates) {
    if (found.length >= 2 * most || tried++ >= MOST_TRIED) break;
    let reads: number | undefined;
    if (!inFull && (measure.is === 'voltage' || measure.is === 'resistance' || measure.is === 'current')) {
      const result = sweep.withChange(changes[0]!);
      if (result.outcome !== 'solved') continue;
      reads = readOf(result, measure);
    } else {
      if (full >= MOST_IN_FULL || failure === 'not_joined') continue;
      full++;
      const state: State = { ...step.state, failures: [...(step.state?.failures ?? []), { part, failure }] };
      if (ask.solve(state).outcome !== 'solved') continue;
      reads = readMeasure(car, ask, state, measure);
    }
    if (reads !== undefined && reads >= band.low && reads <= band.high) continue;
    found.push({ part, failure, meaning, reads, weight });
  }
  return varied(found, band.nominal, most);
}

/** The heaviest, but not three that read the same for the same part. */
function varied(found: readonly Cause[], nominal: number, most: number): readonly Cause[] {
  const chosen: Cause[] = [];
  const sortOf = ({ reads }: Cause): string => (reads === undefined ? 'open' : Math.abs(reads) < 0.05 * Math.abs(nominal) ? 'none' : reads < nominal ? 'low' : 'high');
  for (const isNew of [true, false]) {
    for (const cause of found) {
      if (chosen.length >= most || chosen.includes(cause)) continue;
      if (isNew && chosen.some((other) => other.part === cause.part || sortOf(other) === sortOf(cause))) continue;
      chosen.push(cause);
    }
  }
  return chosen.sort((a, b) => b.weight - a.weight);
}

function readOf(result: RestResult & { outcome: 'solved' }, measure: Measure): number | undefined {
  switch (measure.is) {
    case 'voltage': return result.islandOf(measure.a) === result.islandOf(measure.b) ? result.voltageOf(measure.a) - result.voltageOf(measure.b) : 0;
    case 'current': return result.currentOf(measure.element) * (measure.isReversed ? -1 : 1);
    case 'resistance': {
      const current = -result.currentOf(OHMS.id);
      return Math.abs(current) < 1e-12 ? undefined : Math.max(0, Math.abs(OHMS.voltage / current) - OHMS.resistance);
    }
    default: return undefined;
  }
}

function candidatesNear(car: Car, state: State, wires: Wires, near: readonly Near[], named: readonly string[]): Candidate[] {
  const ids = new Map(wires.elements.map((element) => [element.id, element]));
  const settings = settingsIn(car, state);
  const depths = new Map<string, number>();
  for (const name of named) depths.set(name, 1);
  for (const { element, depth } of near) { const owner = ownerOf(element.id); if (!depths.has(owner)) depths.set(owner, depth); }
  return [...depths].flatMap(([owner, depth]): Candidate[] => {
    const closeness = FURTHER ** depth;
    if (car.runs.has(owner)) return ids.has(owner) ? [{ part: owner, failure: 'not_joined', meaning: 'not joined, pulled out of its terminal, or broken', weight: NOT_JOINED * closeness, changes: [{ kind: 'open', element: owner }], inFull: false }] : [];
    const part = car.parts.get(owner);
    if (!part || part.missing.length > 0) return [];
    const now = part.now(settings(owner));
    return failuresOf(part.kind, now).flatMap(({ code, meaning, likelihood, changes }): Candidate[] => {
      const made = changes(now);
      const touches = named.includes(owner) || made.some((change) => ('add' in change ? true : near.some(({ element }) => element.id === part.names.of(change.element))));
      if (made.length === 0 || !touches) return [];
      const single = made.length === 1 ? changeOf(part.names.of, made[0]!, ids) : undefined;
      return [{ part: owner, failure: code, meaning, weight: likelihood * closeness, changes: single ? [single] : [], inFull: single === undefined }];
    });
  });
}

/** A failure as one change of a solved network; undefined when it takes more. */
function changeOf(nameOf: (name: string) => string, change: ElementChange, ids: ReadonlyMap<string, Element>): Change | undefined {
  const node = (point: string): string => (point === REFERENCE_NODE ? point : nameOf(point));
  if ('add' in change) return { kind: 'join', a: node(change.a), b: node(change.b), resistance: change.resistance };
  const element = ids.get(nameOf(change.element));
  if (!element || element.type === 'converter') return undefined;
  const isContact = element.type === 'switch' || element.type === 'relay';
  switch (change.becomes) {
    case 'open': return { kind: 'open', element: element.id };
    case 'stuck_open': return isContact ? { kind: 'closed', element: element.id, closed: false } : { kind: 'open', element: element.id };
    case 'stuck_closed': return isContact ? { kind: 'closed', element: element.id, closed: true } : undefined;
    case 'shorted': return { kind: 'join', a: element.a, b: element.b, resistance: change.resistance };
    case 'resistive': return 'resistance' in element && !(isContact && element.type === 'switch' && !element.closed) ? { kind: 'resistance', element: element.id, resistance: element.resistance + change.resistance } : undefined;
  }
}
