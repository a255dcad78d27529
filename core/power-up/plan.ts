/**
 * What all phases need to know of the car, worked out once: its strings, where the pack is left open, what stands for live, who
 * stands where.
 */
import type { Network } from '../car/ask.ts';
import type { Car, CarPart } from '../car/car.ts';
import { mainsRuns } from '../car/mains-runs.ts';
import { openJointsOf } from '../car/open-joints.ts';
import { metalOf } from '../car/metal-graph.ts';
import type { State } from '../car/state.ts';
import { stringsOf } from '../car/strings.ts';
import type { PackString } from '../car/strings.ts';
import { isolationLimits } from '../physics/isolation.ts';
import { closedContacts, driveModes, startModes } from '../topics/modes/mode-graph.ts';

export interface Plan {
  readonly car: Car; readonly ask: Network;
  readonly strings: readonly PackString[];
  /** values without which some module could not be counted */
  readonly notCounted: readonly string[];
  /** highest voltage between two points of the pack, cells full [V]; 0 without cells */
  readonly packVoltage: number;
  /** a joint of each string that stays open until the pack is joined: runs */
  readonly openRuns: readonly string[];
  /** the car with the pack open */
  readonly open: State;
  /** runs at the positive post of each 12 V battery, and what they leave */
  readonly batteryRuns: readonly string[];
  readonly batteries: readonly CarPart[];
  /** where the car begins */
  readonly start: string | undefined;
  /** modes that close no high-voltage contact and plug nothing in, besides where the car begins */
  readonly lowVoltageModes: readonly string[];
  readonly driveModes: readonly string[];
  /** contacts closed in a mode, with the pack joined */
  readonly closedIn: (mode: string) => readonly string[];
  /** what the second person pulls */
  readonly disconnects: readonly CarPart[];
  /** high-voltage runs of the battery's circuit */
  readonly highVoltageRuns: readonly string[];
  /** least isolation [ohm/V] */
  readonly perVolt: number;
}

export function planOf(car: Car, ask: Network): Plan {
  const { packs, notCounted } = stringsOf(car);
  const strings = packs.flatMap((pack) => pack.strings);
  const disconnects = [...car.parts.values()].filter(({ roles }) => roles.disconnect);
  const openRuns = openJointsOf(car);
  const batteries = [...car.parts.values()].filter(({ roles }) => roles.lowVoltageBattery);
  const posts = new Set(batteries.map(({ names, roles }) => names.of(roles.lowVoltageBattery!.positive)));
  const mains = mainsRuns(car);
  const contacts = new Map<string, readonly string[]>();
  const closedIn = (mode: string): readonly string[] => {
    let closed = contacts.get(mode);
    if (!closed) contacts.set(mode, (closed = closedContacts(car, ask, { mode }) ?? []));
    return closed;
  };
  const [start] = startModes(car);
  const insulation = [...car.parts.values()].flatMap(({ roles }) => roles.insulation ?? []);
  return {
    car, ask, strings, notCounted: notCounted.flatMap(({ missing }) => missing), openRuns, batteries, start, closedIn, disconnects, driveModes: driveModes(car),
    packVoltage: strings.reduce((most, { modules }) => Math.max(most, modules.reduce((sum, { part }) => sum + (part.roles.cells?.series ?? 0) * (part.cell?.maximumVoltage ?? 0), 0)), 0),
    open: openRuns.length > 0 ? { without: openRuns } : {},
    batteryRuns: [...car.runs.values()].filter(({ from, to }) => posts.has(from) || posts.has(to)).map(({ name }) => name),
    lowVoltageModes: [...car.modes.values()].filter(({ name, set }) => name !== start && closedIn(name).length === 0 && !isPlugged(car, set) && !hasLimitedSource(car, ask, name)).map(({ name }) => name),
    highVoltageRuns: [...car.runs.values()].filter(({ carries, name }) => carries === 'high_voltage' && !mains.has(name)).map(({ name }) => name),
    perVolt: insulation.some(({ acSide }) => acSide) ? isolationLimits.alternating : isolationLimits.direct,
  };
}

export function isPlugged(car: Car, set: Car['modes'] extends ReadonlyMap<string, infer M> ? M extends { readonly set: infer S } ? S : never : never): boolean {
  return [...car.parts.values()].some(({ name, kind, roles }) => roles.mains?.inlet !== undefined && (kind.worked ?? []).some((setting) => set[name]?.[setting] === true));
}

/** A converter fills the capacitors in this mode. */
export function hasLimitedSource(car: Car, ask: Network, mode: string): boolean {
  const solved = ask.solve({ mode });
  return solved.outcome === 'solved' && runningConverters(car).some(({ part, element }) => part.roles.prechargeConverter && Math.abs(solved.currentOf(element)) > 1e-6);
}

/** Elements of precharge converters through which their supply current flows. */
export function runningConverters(car: Car): readonly { readonly part: CarPart; readonly element: string }[] {
  return [...car.parts.values()].flatMap((part) => (part.roles.prechargeConverter ? (part.roles.consumers ?? []).map(({ element }) => ({ part, element: part.names.of(element) })) : []));
}

/** DC links by the metal their positive poles lie on with every contact closed, largest capacitor first. */
export function linksOf(car: Car): readonly { readonly part: CarPart; readonly positive: string; readonly negative: string; readonly capacitance: number }[] {
  return [...car.parts.values()].flatMap((part) => {
    const link = part.roles.dcLink;
    return link ? [{ part, positive: part.names.of(link.positive), negative: part.names.of(link.negative), capacitance: link.capacitance }] : [];
  }).sort((a, b) => b.capacitance - a.capacitance);
}

/** Nodes that one piece of metal joins share a name. */
export const netOf = (car: Car): ((node: string) => string) => metalOf(car).netOf;

/** Voltage between two points in a state; 0 when nothing ties them together. */
export function voltageBetween(ask: Network, state: State, a: string, b: string): number {
  const solved = ask.solve(state);
  return solved.outcome === 'solved' && solved.islandOf(a) === solved.islandOf(b) ? solved.voltageOf(a) - solved.voltageOf(b) : 0;
}
