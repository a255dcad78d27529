/**
 * What a wrong reading most likely means: every failure that the parts around the probes declare, and every run there left off, is tried
 * in the network of the step; those that move the reading out of its band are causes. The likelier and the nearer come first.
 */
import { changedBy } from '../car/ask-network.ts';
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { ownerOf } from '../car/metal-graph.ts';
import type { State } from '../car/state.ts';
import { settingsIn, wireCar } from '../car/wire-car.ts';
import { failuresOf } from '../part/kind.ts';
import type { ElementChange } from '../part/failure.ts';
import type { Change } from '../solve/change.ts';
import { sweepMaker } from '../solve/changes.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import type { Element, Network as Wires } from '../solve/element.ts';
import type { RestResult } from '../solve/rest-result.ts';
import { asRead } from './as-read.ts';
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
  /** such a reading is too low or too high, by its size */
  readonly side: 'low' | 'high';
}

/** What no meter shows is noise of the solution [SI]. */
const NOISE = 1e-5;
/** Elements around the probes whose parts are suspected. */
const AROUND = 24;
/** … where it was to be shown what opens the way: that may lie far from the coil. */
const AROUND_LOST = 60;
/** Failures that are solved as a state of their own, a step: those of measures that take more than one solution. */
const MOST_IN_FULL = 3;
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

/** A state with its meter, to be changed. */
interface Bench { readonly elements: readonly Element[]; readonly changed: (changes: readonly Change[], isLight: boolean) => RestResult | undefined }

/** Keeps the network of each state, so that the steps of one state share it. */
export function causeFinder(given: Car, network: Network): CauseFinder {
  const { car, ask } = asRead(given, network);
  const benches = new Map<string, Bench | undefined>();
  const walks = new Map<string, ReadonlyMap<string, readonly Element[]>>();
  const benchOf = (state: State, measure: Measure, nominal: number): Bench | undefined => {
    const plain = ask.solve(state);
    const isLoaded = measure.is === 'voltage' && (plain.outcome !== 'solved' || plain.islandOf(measure.a) !== plain.islandOf(measure.b) || Math.abs(plain.voltageOf(measure.a) - plain.voltageOf(measure.b) - nominal) > LOADED);
    const isOwn = measure.is === 'resistance' || isLoaded;
    const key = `${JSON.stringify(state)} ${isOwn ? `${measure.a} ${measure.b}` : ''}`;
    if (!benches.has(key)) {
      const network = withMeter(wireCar(car, state).network, measure, isLoaded);
      const made = isOwn ? sweepMaker(network).at(network) : undefined;
      benches.set(key, isOwn ? (made?.outcome === 'ready' ? { elements: network.elements, changed: (changes, isLight) => changedBy(made, changes, isLight) } : undefined)
        : plain.outcome === 'solved' ? { elements: network.elements, changed: (changes, isLight) => ask.changed(state, changes, isLight) } : undefined);
    }
    return benches.get(key);
  };
  return {
    causesOf: (step, most = 3) => {
      const { state = {}, measure, predicted } = step;
      if (!measure || !predicted || measure.is === 'time' || measure.is === 'difference') return [];
      const bench = benchOf(state, measure, predicted.nominal);
      if (!bench) return [];
      const key = JSON.stringify(state);
      const at = walks.get(key) ?? elementsAt(bench.elements);
      walks.set(key, at);
      const near = nearest(at, pointsOf(measure, car), step.lost.length > 0 ? AROUND_LOST : AROUND).filter(({ element }) => element.id !== OHMS.id && element.id !== VOLTS.id);
      return ranked(car, ask, step, bench, near, most);
    },
  };
}

function withMeter(wires: Wires, measure: Measure, isLoaded: boolean): Wires {
  if (measure.is === 'voltage' && isLoaded) return { nodes: wires.nodes, elements: [...wires.elements, { type: 'resistor', id: VOLTS.id, a: measure.a, b: measure.b, resistance: VOLTS.resistance }] };
  return measure.is !== 'resistance' ? wires : { nodes: wires.nodes, elements: [...wires.elements, { type: 'source', id: OHMS.id, a: measure.a, b: measure.b, voltage: OHMS.voltage, resistance: OHMS.resistance }] };
}

interface Candidate { readonly part: string; readonly failure: string; readonly meaning: string; readonly weight: number; readonly changes: readonly Change[]; readonly inFull: boolean; /** it lays a path to the chassis */ readonly leaks: boolean; /** it keeps a way closed */ readonly closes: boolean }

function ranked(car: Car, ask: Network, step: PowerUpStep, bench: Bench, near: readonly Near[], most: number): readonly Cause[] {
  const [measure, band] = [step.measure!, step.predicted!];
  // what is to let go is kept by what does not open; an insulation is spoilt by what leaks
  const likely = ({ leaks, closes }: Candidate): number => Number(measure.is === 'insulation' || measure.is === 'isolation' ? leaks : step.lost.length > 0 && closes);
  const found: Cause[] = [];
  const isWrong = (reads: number | undefined): boolean => reads === undefined || reads < band.low - NOISE || reads > band.high + NOISE;
  const named = (step.suspects ?? []).flatMap(({ part, failure, meaning, likelihood, changes }): Cause[] => {
    const result = bench.changed(changes, false);
    const reads = result?.outcome === 'solved' ? readOf(result, measure) : undefined;
    return result?.outcome === 'solved' && isWrong(reads) ? [{ part, failure, meaning, reads, weight: likelihood, side: sideOf(reads, step) }] : [];
  });
  let [full, tried] = [0, 0];
  const candidates = candidatesNear(car, step.state ?? {}, bench.elements, near, step.lost.length > 0 ? step.about : []).sort((a, b) => likely(b) - likely(a) || b.weight - a.weight);
  const misses = (): boolean => sidesOf(step).some((side) => found.every((cause) => cause.side !== side));
  for (const { part, failure, meaning, weight, changes, inFull } of candidates) {
    if ((found.length >= 2 * most && !misses()) || tried++ >= MOST_TRIED) break;
    let reads: number | undefined;
    if (!inFull && (measure.is === 'voltage' || measure.is === 'resistance' || measure.is === 'current')) {
      const result = bench.changed(changes, found.length >= most);
      if (result?.outcome !== 'solved') continue;
      reads = readOf(result, measure);
    } else {
      if (full >= MOST_IN_FULL || failure === 'not_joined') continue;
      full++;
      const state: State = { ...step.state, failures: [...(step.state?.failures ?? []), { part, failure }] };
      if (ask.solve(state).outcome !== 'solved') continue;
      reads = readMeasure(car, ask, state, measure);
    }
    if (!isWrong(reads) || named.some((cause) => cause.part === part && sameReading(cause.reads, reads))) continue;
    found.push({ part, failure, meaning, reads, weight, side: sideOf(reads, step) });
  }
  return [...named, ...varied(found, band.nominal, named.length > 0 ? 1 : most)];
}

const sameReading = (a: number | undefined, b: number | undefined): boolean => a === b || (a !== undefined && b !== undefined && Math.abs(a - b) <= 0.01 * Math.abs(a) + 0.1);

/** A reading whose band holds zero, or whose least is zero, can only be too high. */
const isAboutZero = ({ predicted }: PowerUpStep): boolean => predicted !== undefined && predicted.low <= 0 && predicted.high >= 0;

/** On which sides a reading can be wrong. */
export function sidesOf(step: PowerUpStep): readonly Cause['side'][] {
  return step.predicted === undefined ? [] : isAboutZero(step) ? ['high'] : ['low', 'high'];
}

/** By size; what conducts no more is too high for an ohmmeter and too low for all others. The other sign is too low. */
function sideOf(reads: number | undefined, step: PowerUpStep): Cause['side'] {
  const { nominal } = step.predicted!;
  if (reads === undefined) return step.quantity === 'resistance' ? 'high' : 'low';
  if (isAboutZero(step)) return 'high';
  return reads * Math.sign(nominal) < Math.abs(nominal) ? 'low' : 'high';
}

/** The heaviest on each side, then the heaviest; but not three that read the same for the same part. */
function varied(found: readonly Cause[], nominal: number, most: number): readonly Cause[] {
  const chosen: Cause[] = [];
  const sortOf = ({ reads }: Cause): string => (reads === undefined ? 'open' : Math.abs(reads) < 0.05 * Math.abs(nominal) ? 'none' : reads < nominal ? 'low' : 'high');
  for (const side of ['low', 'high'] as const) { const first = found.find((cause) => cause.side === side); if (first) chosen.push(first); }
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

function candidatesNear(car: Car, state: State, elements: readonly Element[], near: readonly Near[], named: readonly string[]): Candidate[] {
  const ids = new Map(elements.map((element) => [element.id, element]));
  const settings = settingsIn(car, state);
  const depths = new Map<string, number>();
  for (const name of named) depths.set(name, 1);
  for (const { element, depth } of near) { const owner = ownerOf(element.id); if (!depths.has(owner)) depths.set(owner, depth); }
  return [...depths].flatMap(([owner, depth]): Candidate[] => {
    const closeness = FURTHER ** depth;
    if (car.runs.has(owner)) return ids.has(owner) ? [{ part: owner, failure: 'not_joined', meaning: 'not joined, pulled out of its terminal, or broken', weight: NOT_JOINED * closeness, changes: [{ kind: 'open', element: owner }], inFull: false, leaks: false, closes: false }] : [];
    const part = car.parts.get(owner);
    if (!part || part.missing.length > 0) return [];
    const now = part.now(settings(owner));
    return failuresOf(part.kind, now).flatMap(({ code, meaning, likelihood, changes }): Candidate[] => {
      const made = changes(now);
      const touches = named.includes(owner) || made.some((change) => ('add' in change ? true : near.some(({ element }) => element.id === part.names.of(change.element))));
      if (made.length === 0 || !touches) return [];
      const found = made.map((change, index) => changeOf(part.names.of, change, ids, `fault ${index + 1}`));
      const all = found.filter((change) => change !== undefined);
      return [{ part: owner, failure: code, meaning, weight: likelihood * closeness, changes: all, inFull: all.length < found.length, leaks: made.some((change) => 'add' in change && [change.a, change.b].includes(REFERENCE_NODE)), closes: made.some((change) => 'becomes' in change && (change.becomes === 'stuck_closed' || change.becomes === 'shorted')) }];
    });
  });
}

/** One change of a failure as a change of a solved network; undefined when it takes more than that. @param id  of a resistor that it adds */
function changeOf(nameOf: (name: string) => string, change: ElementChange, ids: ReadonlyMap<string, Element>, id: string): Change | undefined {
  const node = (point: string): string => (point === REFERENCE_NODE ? point : nameOf(point));
  if ('add' in change) {
    const [a, b] = [node(change.a), node(change.b)];
    // a leak beside an insulation that is there already is the same insulation, worse: the network keeps its form
    const beside = resistorBetween(ids, a, b);
    return beside ? { kind: 'resistance', element: beside.id, resistance: 1 / (1 / beside.resistance + 1 / change.resistance) } : { kind: 'join', id, a, b, resistance: change.resistance };
  }
  const element = ids.get(nameOf(change.element));
  if (!element || element.type === 'converter') return undefined;
  const isContact = element.type === 'switch' || element.type === 'relay';
  switch (change.becomes) {
    case 'open': return { kind: 'open', element: element.id };
    case 'stuck_open': return isContact ? { kind: 'closed', element: element.id, closed: false } : { kind: 'open', element: element.id };
    case 'stuck_closed': return isContact ? { kind: 'closed', element: element.id, closed: true } : undefined;
    case 'shorted': return { kind: 'join', id, a: element.a, b: element.b, resistance: change.resistance };
    case 'resistive': return 'resistance' in element && !(isContact && element.type === 'switch' && !element.closed) ? { kind: 'resistance', element: element.id, resistance: element.resistance + change.resistance } : undefined;
  }
}

function resistorBetween(ids: ReadonlyMap<string, Element>, a: string, b: string): (Element & { readonly type: 'resistor' }) | undefined {
  for (const element of ids.values()) if (element.type === 'resistor' && element.resistance > 0 && element.id !== OHMS.id && element.id !== VOLTS.id && ((element.a === a && element.b === b) || (element.a === b && element.b === a))) return element;
  return undefined;
}
