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
import type { Build } from '../build/build.ts';
import type { Car, CarPart, CarRun } from './car.ts';
import type { PartNames } from './part-names.ts';
import type { Plain } from '../build/plain-values.ts';
import { remembered } from './remembered.ts';
import { byShape } from './shape.ts';
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

interface PartWires { readonly elements: readonly Element[]; /** the same list whenever the names are the same */ readonly insides: Insides; readonly isWhole: boolean }
/** Points inside a part, and those of them that a probe can reach. */
interface Insides { readonly nodes: readonly string[]; readonly probed: readonly string[] }
interface Places { readonly insides: readonly Insides[]; readonly nodes: readonly string[]; readonly points: readonly string[] }

/** What is wired already in this draw: most parts are asked the same in every mode and state. */
interface Wired {
  readonly isForMargins: boolean;
  readonly parts: readonly CarPart[];
  /** all parts at rest, by charge and temperature of the cells */
  readonly allAtRest: Map<string, readonly PartWires[]>;
  /** at rest, under the car's own conditions */
  readonly atRest: (PartWires | undefined)[];
  /** parts made of cells at rest under other conditions, by charge and temperature */
  readonly atConditions: Map<string, (PartWires | undefined)[]>;
  /** by the settings of a mode: objects that belong to one mode and part */
  readonly set: Map<Plain, { readonly part: CarPart; readonly conditions: string; readonly wires: PartWires }>;
  /** by conductor temperature */
  readonly runs: Map<number, readonly Element[]>;
}

const wiredIn = remembered((car: Car): Wired => ({ isForMargins: car.isForMargins, parts: [...car.parts.values()], allAtRest: new Map(), atRest: [], atConditions: new Map(), set: new Map(), runs: new Map() }));
/** By the inside points of all parts: the same in every draw and nearly every state of a build. */
const placesKnown = remembered((_: Build): Places[] => []);
const MOST_PLACES = 8;

/**
 * The network of the car in a state.
 *
 * Errors: throws for a mode, part or failure that the car does not have; the caller checks names that came from a person.
 */
export function wireCar(car: Car, state: State): WiredCar {
  const notWired: { part: string; missing: readonly string[] }[] = [];
  const elements: Element[] = [];
  const wired = wiredIn(car);
  const asked = askedIn(car, state);
  const wiring = wiresAtRest(wired, asked).slice();
  for (const name of asked.named) {
    const index = placeOf(car).get(name);
    if (index !== undefined) wiring[index] = wiresOf(wired, index, asked);
  }
  const insides: Insides[] = [];
  for (let index = 0; index < wiring.length; index++) {
    const part = wired.parts[index]!;
    const wires = wiring[index]!;
    if (!wires.isWhole) notWired.push({ part: part.name, missing: part.missing });
    insides.push(wires.insides);
    const own = state.failures === undefined || !wires.isWhole ? wires.elements : withFailures(wires.elements, part, part.now(asked.settingsOf(part.name), asked.conditions), state.failures);
    for (let n = 0; n < own.length; n++) elements.push(own[n]!);
  }
  const runs = runsAt(car, wired, state.conductorTemperature ?? COLD_CONDUCTOR);
  const without = state.without === undefined ? undefined : new Set(state.without);
  for (let n = 0; n < runs.length; n++) if (without?.has(runs[n]!.id) !== true) elements.push(runs[n]!);
  const { nodes, points } = placesOf(car, wired.parts, insides);
  return bridged({ network: { nodes, elements }, points, notWired }, state);
}

/** Elements of some parts in a state, without the rest of the car. */
export function elementsOfParts(car: Car, state: Pick<State, 'mode'>, parts: readonly CarPart[]): readonly Element[] {
  const wired = wiredIn(car);
  const asked = askedIn(car, state);
  const places = placeOf(car);
  return parts.flatMap((part) => wiresOf(wired, places.get(part.name)!, asked).elements);
}

/** Place of each part in the file. */
const placeOf = byShape((car): ReadonlyMap<string, number> => new Map([...car.parts.keys()].map((name, index) => [name, index])));

interface Asked { /** parts that have settings */ readonly named: readonly string[]; readonly settingsOf: (part: string) => Plain; readonly conditions: Conditions; /** empty: the car's own */ readonly conditionsKey: string }

function askedIn(car: Car, state: State): Asked {
  const conditions = conditionsIn(car, state);
  const mode = state.mode === undefined ? undefined : car.modes.get(state.mode)?.set;
  const own = state.set === undefined ? [] : Object.keys(state.set);
  return { named: mode ? [...Object.keys(mode), ...own] : own, settingsOf: settingsIn(car, state), conditions, conditionsKey: conditions === car.conditions ? '' : `${conditions.stateOfCharge} ${conditions.cellTemperature}` };
}

/** Every part at rest under the conditions asked about. */
function wiresAtRest(wired: Wired, { conditions, conditionsKey }: Asked): readonly PartWires[] {
  let all = wired.allAtRest.get(conditionsKey);
  if (!all) {
    const atRest = { named: [], settingsOf: () => NO_SETTINGS, conditions, conditionsKey };
    wired.allAtRest.set(conditionsKey, (all = wired.parts.map((_, index) => wiresOf(wired, index, atRest))));
  }
  return all;
}

function wiresOf(wired: Wired, index: number, { settingsOf, conditions, conditionsKey }: Asked): PartWires {
  const part = wired.parts[index]!;
  const settings = settingsOf(part.name);
  // only cells look at the conditions
  const key = part.cell === undefined ? '' : conditionsKey;
  if (settings === NO_SETTINGS) {
    let known: (PartWires | undefined)[] | undefined = wired.atRest;
    if (key !== '' && !(known = wired.atConditions.get(key))) wired.atConditions.set(key, (known = []));
    return (known[index] ??= wiredAgain(wired, part, settings, conditions));
  }
  const known = wired.set.get(settings);
  if (known?.part === part && known.conditions === key) return known.wires;
  const wires = wiredAgain(wired, part, settings, conditions);
  wired.set.set(settings, { part, conditions: key, wires });
  return wires;
}

/** By values of a part, then settings: what an edit left alone is wired as it was. Draws have values of their own and keep nothing here. */
const wiredBefore = new WeakMap<Plain, WeakMap<Plain, { readonly names: PartNames; readonly wires: PartWires }>>();

function wiredAgain(wired: Wired, part: CarPart, settings: Plain, conditions: Conditions): PartWires {
  if (wired.isForMargins || part.cell !== undefined) return wirePart(part, settings, conditions);
  let bySettings = wiredBefore.get(part.fields);
  if (!bySettings) wiredBefore.set(part.fields, (bySettings = new WeakMap()));
  const known = bySettings.get(settings);
  if (known?.names === part.names) return known.wires;
  const wires = wirePart(part, settings, conditions);
  bySettings.set(settings, { names: part.names, wires });
  return wires;
}

function runsAt(car: Car, wired: Wired, temperature: number): readonly Element[] {
  let runs = wired.runs.get(temperature);
  if (!runs) wired.runs.set(temperature, (runs = [...car.runs.values()].map((run) => (wired.isForMargins ? runElement(run, temperature) : runAgain(run, temperature)))));
  return runs;
}

/** By run, then conductor temperature: the best runs are the same objects from analysis to analysis. */
const runsBefore = new WeakMap<CarRun, Map<number, Element>>();

function runAgain(run: CarRun, temperature: number): Element {
  let byTemperature = runsBefore.get(run);
  if (!byTemperature) runsBefore.set(run, (byTemperature = new Map()));
  let element = byTemperature.get(temperature);
  if (!element) byTemperature.set(temperature, (element = runElement(run, temperature)));
  return element;
}

function placesOf(car: Car, parts: readonly CarPart[], insides: readonly Insides[]): Places {
  const known = placesKnown(car.build);
  const same = known.find((places) => places.insides.length === insides.length && places.insides.every((one, index) => one === insides[index]));
  if (same) return same;
  const along = (inside: (of: Insides) => readonly string[]): string[] => [REFERENCE_NODE, ...parts.flatMap((part, index) => [...part.ports.map(({ name }) => part.names.of(name)), ...inside(insides[index]!)])];
  const places: Places = { insides, nodes: along(({ nodes }) => nodes), points: along(({ probed }) => probed) };
  if (known.length === MOST_PLACES) known.shift();
  known.push(places);
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
  const wiring = new PartWiring(part);
  const isWhole = part.missing.length === 0 && (part.cell === undefined || now.cell !== undefined);
  if (isWhole) part.kind.wire(now, wiring);
  return { elements: wiring.elements, insides: part.names.kept(wiring.insides, wiring.probed), isWhole };
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

/** Collects what a kind declares between the ports of one part. */
class PartWiring implements Wiring {
  readonly chassis = REFERENCE_NODE;
  readonly elements: Element[] = [];
  readonly insides: string[] = [];
  readonly probed: string[] = [];
  readonly #part: CarPart;

  constructor(part: CarPart) { this.#part = part; }

  port(name: string): string {
    const node = this.#part.names.portNode(name);
    if (node === undefined) throw new Error(`kind ${this.#part.kind.kind} wires port ${name}, which it does not declare`);
    return node;
  }

  inside(name: string, canBeProbed = false): string {
    const node = this.#id(name);
    if (!this.insides.includes(node)) {
      this.insides.push(node);
      if (canBeProbed) this.probed.push(node);
    }
    return node;
  }

  resistor(name: string, a: string, b: string, resistance: number): void { this.elements.push({ type: 'resistor', id: this.#id(name), a, b, resistance }); }
  source(name: string, a: string, b: string, voltage: number, resistance: number): void { this.elements.push({ type: 'source', id: this.#id(name), a, b, voltage, resistance }); }
  currentSource(name: string, a: string, b: string, current: number): void { this.elements.push({ type: 'current', id: this.#id(name), a, b, current }); }
  capacitor(name: string, a: string, b: string, capacitance: number): void { this.elements.push({ type: 'capacitor', id: this.#id(name), a, b, capacitance }); }
  inductor(name: string, a: string, b: string, inductance: number, resistance: number): void { this.elements.push({ type: 'inductor', id: this.#id(name), a, b, inductance, resistance }); }
  switch(name: string, a: string, b: string, closed: boolean, resistance: number): void { this.elements.push({ type: 'switch', id: this.#id(name), a, b, closed, resistance }); }
  relay(name: string, a: string, b: string, options: Parameters<Wiring['relay']>[3]): void { this.elements.push({ type: 'relay', id: this.#id(name), a, b, ...options }); }
  diode(name: string, a: string, b: string, drop: number, resistance: number): void { this.elements.push({ type: 'diode', id: this.#id(name), a, b, drop, resistance }); }
  powerLoad(name: string, a: string, b: string, power: number, knee: number): void { this.elements.push({ type: 'power', id: this.#id(name), a, b, power, knee }); }
  currentLoad(name: string, a: string, b: string, current: number, knee: number): void { this.elements.push({ type: 'draw', id: this.#id(name), a, b, current, knee }); }
  supply(name: string, a: string, b: string, voltage: number, currentLimit: number, resistance: number): void { this.elements.push({ type: 'supply', id: this.#id(name), a, b, voltage, currentLimit, resistance }); }
  converter(name: string, options: Parameters<Wiring['converter']>[1]): void { this.elements.push({ type: 'converter', id: this.#id(name), ...options }); }

  #id(name: string): string { return this.#part.names.of(name); }
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
