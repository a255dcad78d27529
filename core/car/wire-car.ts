/**
 * Car + state -> the one network: every port a node, every part's elements, every made run, failures applied.
 *
 * Invariants: nodes are `Part.port`, inside points `Part.name`, and `chassis`; an element is `Part.element`, a run's element is
 * the run's name; the same state of two draws gives the same nodes and elements in the same order, other numbers.
 */
import type { Element, Network } from '../solve/element.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import { resistanceAt } from '../physics/conductor-resistance.ts';
import type { ElementChange } from '../part/failure.ts';
import { failuresOf } from '../part/kind.ts';
import type { Conditions } from '../part/kind.ts';
import type { Wiring } from '../part/wiring.ts';
import type { Car, CarPart, CarRun } from './car.ts';
import type { Plain } from '../build/plain-values.ts';
import type { State } from './state.ts';

/** Conductor temperature of a solve that does not say otherwise: 20 °C, where IEC 60228 states resistance. */
const COLD_CONDUCTOR = 293.15;

export interface WiredCar {
  readonly network: Network;
  /** points that a probe can reach, in the order of the file */
  readonly points: readonly string[];
  /** parts that could not be wired, with the values they lack */
  readonly notWired: readonly { readonly part: string; readonly missing: readonly string[] }[];
}

/** What is wired already in this draw: parts by settings and conditions (most are asked the same in every mode), runs by temperature. */
export interface WiredParts {
  readonly parts: Map<string, PartWires>;
  readonly runs: Map<number, readonly Element[]>;
  /** nodes and points by the inside points that the parts' wires have: hardly ever more than one entry */
  readonly places: Map<string, { readonly nodes: readonly string[]; readonly points: readonly string[] }>;
}

export const nothingWired = (): WiredParts => ({ parts: new Map(), runs: new Map(), places: new Map() });

interface PartWires { readonly elements: readonly Element[]; readonly insides: readonly string[]; readonly probed: readonly string[]; readonly isWhole: boolean }

/**
 * The network of the car in a state.
 *
 * @param memory  of the same car only; absent: nothing is remembered
 * Errors: throws for a mode, part or failure that the car does not have; the caller checks names that came from a person.
 */
export function wireCar(car: Car, state: State, memory: WiredParts = nothingWired()): WiredCar {
  const notWired: { part: string; missing: readonly string[] }[] = [];
  const settingsOf = settingsIn(car, state);
  const conditions = conditionsIn(car, state);
  const conditionsKey = conditions === car.conditions ? '' : `${conditions.stateOfCharge} ${conditions.cellTemperature}`;
  const wiring: PartWires[] = [];
  const elements: (readonly Element[])[] = [];

  for (const part of car.parts.values()) {
    const settings = settingsOf(part.name);
    const key = settings === NO_SETTINGS && (conditionsKey === '' || part.cell === undefined) ? part.name : `${part.name} ${conditionsKey} ${JSON.stringify(settings)}`;
    let wires = memory.parts.get(key);
    if (!wires) memory.parts.set(key, (wires = wirePart(part, settings, conditions)));
    if (!wires.isWhole) notWired.push({ part: part.name, missing: part.missing });
    wiring.push(wires);
    elements.push(state.failures === undefined || !wires.isWhole ? wires.elements : withFailures(wires.elements, part, part.now(settings, conditions), state.failures));
  }

  const temperature = state.conductorTemperature ?? COLD_CONDUCTOR;
  let runs = memory.runs.get(temperature);
  if (!runs) memory.runs.set(temperature, (runs = [...car.runs.values()].map((run) => runElement(run, temperature))));
  const without = new Set(state.without);
  elements.push(without.size === 0 ? runs : runs.filter(({ id }) => !without.has(id)));

  const { nodes, points } = placesOf(car, wiring, memory);
  return bridged({ network: { nodes, elements: elements.flat() }, points, notWired }, state);
}

function placesOf(car: Car, wiring: readonly PartWires[], memory: WiredParts): { readonly nodes: readonly string[]; readonly points: readonly string[] } {
  const key = wiring.map(({ insides }) => insides.join(' ')).join(',');
  let places = memory.places.get(key);
  if (places) return places;
  const ports = [...car.parts.values()].map((part) => part.ports.map(({ name }) => part.names.of(name)));
  const along = (inside: (wires: PartWires) => readonly string[]): string[] => [REFERENCE_NODE, ...ports.flatMap((names, index) => [...names, ...inside(wiring[index] as PartWires)])];
  memory.places.set(key, (places = { nodes: along(({ insides }) => insides), points: along(({ probed }) => probed) }));
  return places;
}

function withFailures(whole: readonly Element[], part: CarPart, now: ReturnType<CarPart['now']>, failures: NonNullable<State['failures']>): readonly Element[] {
  const elements = [...whole];
  for (const failure of failures) {
    if (failure.part !== part.name) continue;
    const declared = failuresOf(part.kind, now).find(({ code }) => code === failure.failure);
    if (!declared) throw new Error(`part ${part.name} has no failure ${failure.failure}`);
    for (const change of declared.changes(now)) applyChange(elements, part.name, change);
  }
  return elements;
}

function wirePart(part: CarPart, settings: Plain, conditions: Conditions): PartWires {
  const now = part.now(settings, conditions);
  if (part.missing.length > 0 || (part.cell !== undefined && now.cell === undefined)) return { elements: [], insides: [], probed: [], isWhole: false };
  const elements: Element[] = [];
  const insides: string[] = [];
  const probed: string[] = [];
  part.kind.wire(now, partWiring(part, elements, insides, probed));
  return { elements, insides, probed, isWhole: true };
}

/** What a state lays across or leaves out, on top of a car that is wired without it. What is left out stays in its place, taking nothing. */
export function bridged(wired: WiredCar, { bridges, withoutLoads }: Pick<State, 'bridges' | 'withoutLoads'>): WiredCar {
  if (bridges === undefined && withoutLoads !== true) return wired;
  const { nodes, elements } = wired.network;
  const kept = withoutLoads === true ? elements.map(idle) : elements;
  const across = (bridges ?? []).map(({ a, b, resistance }, index): Element => ({ type: 'resistor', id: bridgeId(index), a, b, resistance }));
  return { ...wired, network: { nodes, elements: [...kept, ...across] } };
}

/** Element of the bridge number `index` of a state. */
export const bridgeId = (index: number): string => `bridge ${index + 1}`;

function idle(element: Element): Element {
  switch (element.type) {
    case 'power': return { ...element, power: 0 };
    case 'draw': return { ...element, current: 0 };
    case 'supply': return { ...element, currentLimit: 0 };
    case 'converter': return { ...element, currentLimit: 0, idlePower: 0, minimumInput: Number.MAX_VALUE };
    default: return element;
  }
}

/** Resistance of a run and its end joints at a conductor temperature [ohm]. A run of unknown length counts as its joints alone; `run.length-known` says so. */
export function runResistance(run: CarRun, temperature: number): number {
  if (run.conductor === undefined || run.length === undefined) return run.jointResistance;
  return resistanceAt(run.conductor.resistancePerLength * run.length, temperature, run.conductor.material) + run.jointResistance;
}

export function conditionsIn(car: Car, state: State): Conditions {
  if (state.stateOfCharge === undefined && state.cellTemperature === undefined) return car.conditions;
  return { ...car.conditions, stateOfCharge: state.stateOfCharge ?? car.conditions.stateOfCharge, cellTemperature: state.cellTemperature ?? car.conditions.cellTemperature };
}

/** Settings of a part in a state: the mode's, then the state's own on top. */
export function settingsIn(car: Car, state: State): (part: string) => Plain {
  const mode = state.mode === undefined ? undefined : car.modes.get(state.mode);
  if (state.mode !== undefined && !mode) throw new Error(`the car has no mode ${state.mode}`);
  for (const part of Object.keys(state.set ?? {})) if (!car.parts.has(part)) throw new Error(`the car has no part ${part}`);
  return (part) => {
    const [ofMode, own] = [mode?.set[part], state.set?.[part]];
    return own === undefined ? (ofMode ?? NO_SETTINGS) : { ...ofMode, ...own };
  };
}

const NO_SETTINGS: Plain = {};

function runElement(run: CarRun, temperature: number): Element {
  return { type: 'resistor', id: run.name, a: run.from, b: run.to, resistance: runResistance(run, temperature) };
}

function partWiring(part: CarPart, elements: Element[], insideNodes: string[], probed: string[]): Wiring {
  const id = part.names.of;
  const insides = new Set<string>();
  return {
    chassis: REFERENCE_NODE,
    port: (name) => {
      const node = part.names.portNode(name);
      if (node === undefined) throw new Error(`kind ${part.kind.kind} wires port ${name}, which it does not declare`);
      return node;
    },
    inside: (name, canBeProbed = false) => {
      if (!insides.has(name)) {
        insides.add(name);
        insideNodes.push(id(name));
        if (canBeProbed) probed.push(id(name));
      }
      return id(name);
    },
    resistor: (name, a, b, resistance) => { elements.push({ type: 'resistor', id: id(name), a, b, resistance }); },
    source: (name, a, b, voltage, resistance) => { elements.push({ type: 'source', id: id(name), a, b, voltage, resistance }); },
    currentSource: (name, a, b, current) => { elements.push({ type: 'current', id: id(name), a, b, current }); },
    capacitor: (name, a, b, capacitance) => { elements.push({ type: 'capacitor', id: id(name), a, b, capacitance }); },
    inductor: (name, a, b, inductance, resistance) => { elements.push({ type: 'inductor', id: id(name), a, b, inductance, resistance }); },
    switch: (name, a, b, closed, resistance) => { elements.push({ type: 'switch', id: id(name), a, b, closed, resistance }); },
    relay: (name, a, b, options) => { elements.push({ type: 'relay', id: id(name), a, b, ...options }); },
    diode: (name, a, b, drop, resistance) => { elements.push({ type: 'diode', id: id(name), a, b, drop, resistance }); },
    powerLoad: (name, a, b, power, knee) => { elements.push({ type: 'power', id: id(name), a, b, power, knee }); },
    currentLoad: (name, a, b, current, knee) => { elements.push({ type: 'draw', id: id(name), a, b, current, knee }); },
    supply: (name, a, b, voltage, currentLimit, resistance) => { elements.push({ type: 'supply', id: id(name), a, b, voltage, currentLimit, resistance }); },
    converter: (name, options) => { elements.push({ type: 'converter', id: id(name), ...options }); },
  };
}

/** A failed element keeps its place in the list, so that a failure changes numbers and not the shape of the network where it can. */
function applyChange(elements: Element[], part: string, change: ElementChange): void {
  if ('add' in change) {
    const at = (point: string): string => (point === REFERENCE_NODE ? point : `${part}.${point}`);
    elements.push({ type: 'resistor', id: `${part}.${change.add}`, a: at(change.a), b: at(change.b), resistance: change.resistance });
    return;
  }
  const id = `${part}.${change.element}`;
  const index = elements.findIndex((element) => element.id === id);
  const element = elements[index];
  if (!element) throw new Error(`a failure of ${part} changes element ${change.element}, which it does not have`);
  const [a, b] = element.type === 'converter' ? element.output : [element.a, element.b];
  switch (change.becomes) {
    case 'open':
    case 'stuck_open':
      elements[index] = { type: 'switch', id, a, b, closed: false, resistance: 0 };
      break;
    case 'shorted':
      elements[index] = { type: 'resistor', id, a, b, resistance: change.resistance };
      break;
    case 'stuck_closed':
      elements[index] = { type: 'switch', id, a, b, closed: true, resistance: 'resistance' in element ? element.resistance : 0 };
      break;
    case 'resistive':
      elements[index] = withSeriesResistance(element, change.resistance);
      break;
  }
}

function withSeriesResistance(element: Element, extra: number): Element {
  if ('resistance' in element) return { ...element, resistance: element.resistance + extra };
  throw new Error(`element ${element.id} of type ${element.type} cannot take a series resistance`);
}
