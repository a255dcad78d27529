/**
 * What metal joins in a mode: which points are one point, which belong to the pack, and which fuse, contact or disconnect lies between.
 *
 * Metal is every run, joint, bar, whole fuse and closed contact: less than `METAL_RESISTANCE`. Precharge resistors, bleeders
 * and leaks are not, nor is what joins the two poles inside one part (a 48 V heater has half an ohm). One wiring of the car and
 * one solve a mode are enough for all of it; both are remembered for the life of one draw.
 */
import type { Network } from '../../car/ask.ts';
import type { Car, CarPart } from '../../car/car.ts';
import { wireCar } from '../../car/wire-car.ts';
import type { RestSolved } from '../../solve/rest-result.ts';
import type { Packs } from './pack-ends.ts';
import { packsOf } from './pack-ends.ts';
import { sections } from './pack-sections.ts';
import type { Groups, Numbering } from './point-groups.ts';
import { groupsOver, numbering } from './point-groups.ts';

/** Joints, bars, shunts, fuses and contacts stay below this; precharge and bleed resistors far above [ohm]. */
export const METAL_RESISTANCE = 1;

export interface Branch {
  /** element of the network */
  readonly id: string;
  /** place in `MetalPaths.branches` */
  readonly index: number;
  readonly a: string; readonly b: string;
  /** `cells`: a is the positive side; `contact`: a switch or relay, closed or not by the mode */
  readonly type: 'metal' | 'contact' | 'cells';
  /** melts by itself (a pyrotechnic disconnect does not) */
  readonly isFuse: boolean;
  /** pulled by hand */
  readonly isDisconnect: boolean;
  /** every cell at its highest voltage in service [V]; 0 unless `cells` */
  readonly voltage: number;
  /** numbers of its two points */
  readonly from: number; readonly to: number;
}

export interface Picture {
  /** undefined: nothing is asked of anything */
  readonly mode: string | undefined;
  readonly solved: RestSolved;
  readonly isClosed: (branch: Branch) => boolean;
  /** which contacts that matter to the cells are closed */
  readonly signature: string;
  /** joined by metal alone: one potential */
  readonly metal: Groups;
  /** joined by metal and cells: the pack and all that hangs on it */
  readonly live: Groups;
}

export interface MetalPaths {
  /** those that could ever be joined to the cells */
  readonly branches: readonly Branch[];
  /** undefined when that mode could not be solved: `high-voltage.mode-computed` says so */
  readonly pictureOf: (mode: string | undefined) => Picture | undefined;
  readonly pointOf: (node: string) => number;
  /** a terminal of each part with cells */
  readonly cellTerminals: readonly string[];
  /** the packs of the car, worked out once; none while the values of a module or cell are missing */
  readonly packs: Packs;
  /** for other questions than a mode: groups over the branches that `joins` */
  readonly groups: (joins: (branch: Branch) => boolean) => Groups;
  /** the same over all metal of the car, whether or not it could be joined to the cells */
  readonly groupsOfAll: (joins: (branch: Branch) => boolean) => Groups;
  /** the first mode of the file that closes the same contacts around the cells: its answers are likely known already */
  readonly likeMode: (mode: string) => string;
}

const remembered = new WeakMap<Network, MetalPaths>();

/** The metal of the car. */
export function metalPaths(car: Car, ask: Network): MetalPaths {
  const known = remembered.get(ask);
  if (known) return known;
  const points = numbering();
  const all = branchesOf(car, points.of);
  const everything = groupsOver(all, points, () => true);
  const cellTerminals = [...car.parts.values()].flatMap((part) => (part.roles.cells ? [`${part.name}.${part.roles.cells.positive}`] : []));
  const onPack = new Set(cellTerminals.map((terminal) => everything.of(terminal)));
  const branches = all.filter((branch) => onPack.has(everything.ofPoint(branch.from))).map((branch, index) => ({ ...branch, index }));
  const signatures = new Map<string, string>();
  const pictures = new Map<string | undefined, Picture | undefined>();
  const paths: MetalPaths = {
    branches, pointOf: points.of,
    pictureOf: (mode) => {
      if (!pictures.has(mode)) pictures.set(mode, picture(branches, points, mode, ask));
      return pictures.get(mode);
    },
    cellTerminals,
    packs: packsOf(car),
    groups: (joins) => groupsOver(branches, points, joins),
    groupsOfAll: (joins) => groupsOver(all, points, joins),
    likeMode: (mode) => {
      const here = paths.pictureOf(mode);
      if (!here) return mode;
      const first = signatures.get(here.signature);
      if (first !== undefined) return first;
      for (const other of car.modes.keys()) {
        const signature = paths.pictureOf(other)?.signature;
        if (signature !== undefined && !signatures.has(signature)) signatures.set(signature, other);
      }
      return signatures.get(here.signature) ?? mode;
    },
  };
  const whole = { ...paths, packs: withVoltage(paths) };
  remembered.set(ask, whole);
  return whole;
}

/** Cells joined in a closed ring have no two ends: their voltage is then the highest that stands between two points of the ring. */
function withVoltage(paths: MetalPaths): Packs {
  const { packs } = paths.packs;
  const missing = [...new Set(paths.packs.missing)];
  // with a module that is not known the voltage of the rest says nothing
  if (missing.length > 0) return { packs: [], missing };
  if (packs.every(({ maximumVoltage }) => maximumVoltage > 0)) return paths.packs;
  const highest = sections(paths, () => true).reduce((most, section) => Math.max(most, section.highest), 0);
  return { packs: packs.map((pack) => (pack.maximumVoltage > 0 ? pack : { ...pack, maximumVoltage: highest })).filter(({ maximumVoltage }) => maximumVoltage > 0), missing };
}

/** True when a point hangs on the pack by metal (and cells). */
export function isOnPack(paths: MetalPaths, groups: Groups, node: string): boolean {
  return paths.cellTerminals.some((terminal) => groups.same(terminal, node));
}

/** It has a positive and a negative high-voltage port and no cells: no way of the pack leads through it. */
function sitsBetweenPoles({ ports, roles }: CarPart): boolean {
  const has = (pole: 'positive' | 'negative'): boolean => ports.some((port) => port.carries === 'high_voltage' && port.pole === pole);
  return roles.cells === undefined && has('positive') && has('negative');
}

function isHighVoltagePort(part: CarPart, port: string): boolean {
  return part.ports.some(({ name, carries }) => name === port && carries === 'high_voltage');
}

function branchesOf(car: Car, pointOf: (node: string) => number): Branch[] {
  const fuses = new Set<string>();
  const disconnects = new Set<string>();
  const precharge = new Set<string>();
  const cellVoltage = new Map<string, number>();
  for (const part of car.parts.values()) {
    for (const { element, style } of part.roles.protection ?? []) if (style !== 'pyrotechnic') fuses.add(`${part.name}.${element}`);
    for (const { element, a, by } of part.roles.switching ?? []) if (by === 'hand' && isHighVoltagePort(part, a)) disconnects.add(`${part.name}.${element}`);
    if (part.roles.disconnect) disconnects.add(`${part.name}.${part.roles.disconnect.element}`);
    if (part.roles.prechargeResistor) precharge.add(`${part.name}.${part.roles.prechargeResistor.resistorElement}`);
    if (part.roles.cells) cellVoltage.set(part.name, part.roles.cells.series * (part.cell?.maximumVoltage ?? 0));
  }
  const branches: Branch[] = [];
  const sources = new Map<string, { index: number; emf: number }[]>();
  for (const element of wireCar(car, {}).network.elements) {
    const { id } = element;
    if (element.type === 'converter') continue;
    const { a, b } = element;
    const add = (type: Branch['type']): void => { branches.push({ id, index: branches.length, a, b, type, isFuse: fuses.has(id), isDisconnect: disconnects.has(id), voltage: 0, from: pointOf(a), to: pointOf(b) }); };
    if (element.type === 'resistor' || element.type === 'inductor') {
      if (element.resistance < METAL_RESISTANCE && !precharge.has(id)) add('metal');
    } else if (element.type === 'switch' || element.type === 'relay') {
      if (element.resistance < METAL_RESISTANCE && !precharge.has(id)) add('contact');
    } else if (element.type === 'source') {
      const part = id.slice(0, id.indexOf('.'));
      if (!cellVoltage.has(part)) continue;
      const list = sources.get(part) ?? [];
      list.push({ index: branches.length, emf: element.voltage });
      sources.set(part, list);
      add('cells');
    }
  }
  // a module may be wired as several sources: each has its share of the module's highest voltage
  for (const [part, list] of sources) {
    const total = list.reduce((sum, { emf }) => sum + emf, 0);
    for (const { index, emf } of list) branches[index] = { ...branches[index]!, voltage: cellVoltage.get(part)! * (total > 0 ? emf / total : 1 / list.length) };
  }
  return withoutLoadPaths(car, branches, sources.size > 0);
}

/** A part whose own insides would join its two poles is a load of little resistance, not metal. */
function withoutLoadPaths(car: Car, branches: readonly Branch[], hasCells: boolean): Branch[] {
  const loads = new Set<string>();
  const own = new Map<string, Branch[]>();
  if (hasCells) {
    for (const branch of branches) {
      const dot = branch.id.indexOf('.');
      if (dot < 0) continue;
      const list = own.get(branch.id.slice(0, dot));
      if (list) list.push(branch);
      else own.set(branch.id.slice(0, dot), [branch]);
    }
  }
  for (const [name, inside] of own) {
    const part = car.parts.get(name);
    if (!part || !sitsBetweenPoles(part)) continue;
    const reached = new Set(part.ports.filter((port) => port.carries === 'high_voltage' && port.pole === 'positive').map((port) => `${name}.${port.name}`));
    for (let grew = true; grew;) {
      grew = false;
      for (const { a, b } of inside) {
        if (reached.has(a) === reached.has(b)) continue;
        reached.add(a).add(b);
        grew = true;
      }
    }
    if (part.ports.some((port) => port.carries === 'high_voltage' && port.pole === 'negative' && reached.has(`${name}.${port.name}`))) loads.add(name);
  }
  return loads.size === 0 ? [...branches] : branches.filter(({ id }) => !loads.has(id.slice(0, Math.max(0, id.indexOf('.'))))).map((branch, index) => ({ ...branch, index }));
}

function picture(branches: readonly Branch[], points: Numbering, mode: string | undefined, ask: Network): Picture | undefined {
  const solved = ask.solve(mode === undefined ? {} : { mode });
  if (solved.outcome !== 'solved') return undefined;
  const closed = branches.map(({ type, id }) => type !== 'contact' || solved.stateOf(id) === 'closed');
  const isClosed = (branch: Branch): boolean => closed[branch.index] === true;
  return {
    mode, solved, isClosed, signature: closed.map((is) => (is ? '1' : '0')).join(''),
    metal: groupsOver(branches, points, (branch) => branch.type !== 'cells' && isClosed(branch)),
    live: groupsOver(branches, points, isClosed),
  };
}
