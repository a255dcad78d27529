/**
 * What metal joins in a mode: which points are one point, which belong to the pack, and which fuse, contact or disconnect lies between.
 *
 * Metal is what `core/car/metal-graph.ts` says it is. One solve a mode is enough for all of it; the answers are remembered for
 * the life of one draw, and what no draw changes (which branches there are, what they join) for the life of the build.
 */
import type { Network } from '../../car/ask.ts';
import type { Car, CarPart } from '../../car/car.ts';
import { metalOf, ownerOf } from '../../car/metal-graph.ts';
import { remembered } from '../../car/remembered.ts';
import type { RestSolved } from '../../solve/rest-result.ts';
import type { Packs } from './pack-ends.ts';
import { packsOf } from './pack-ends.ts';
import { sections } from './pack-sections.ts';
import type { Groups, Numbering } from './point-groups.ts';
import { groupsOver, numbering } from './point-groups.ts';

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
  /** the same object in every draw of a build that has the same metal: a key for what rests on nothing else */
  readonly layout: object;
  /** those that could ever be joined to the cells */
  readonly branches: readonly Branch[];
  /** undefined when that mode could not be solved: `high-voltage.mode-computed` says so */
  readonly pictureOf: (mode: string | undefined) => Picture | undefined;
  readonly pointOf: (node: string) => number;
  /** a terminal of each part with cells */
  readonly cellTerminals: readonly string[];
  /** the packs of the car, worked out once; none while the values of a module or cell are missing */
  readonly packs: Packs;
  /** as `live`, with these elements (`Part.element`) open too */
  readonly liveWithout: (here: Picture, open: readonly string[]) => Groups;
  /** whether current could still flow through an element with another one open and two points shorted; false for what is no branch */
  readonly carriesWithout: (here: Picture, short: readonly [string, string]) => (open: string, id: string) => boolean;
  /** for other questions than a mode: groups over the branches that `joins` */
  readonly groups: (joins: (branch: Branch) => boolean) => Groups;
  /** the same over all metal of the car, whether or not it could be joined to the cells */
  readonly groupsOfAll: (joins: (branch: Branch) => boolean) => Groups;
  /** the first mode of the file that closes the same contacts around the cells: its answers are likely known already */
  readonly likeMode: (mode: string) => string;
}

/** The metal of the car. */
export function metalPaths(car: Car, ask: Network): MetalPaths {
  return pathsIn(ask, car);
}

const pathsIn = remembered((ask: Network, car: Car): MetalPaths => {
  const layout = layoutOf(car);
  const { points, cellTerminals } = layout;
  const branches = withVoltages(car, layout.branches);
  const signatures = new Map<string, string>();
  const pictures = new Map<string | undefined, Picture | undefined>();
  const paths: MetalPaths = {
    layout, branches, pointOf: points.of,
    pictureOf: (mode) => {
      if (!pictures.has(mode)) pictures.set(mode, picture(layout, mode, ask));
      return pictures.get(mode);
    },
    cellTerminals,
    packs: packsOf(car),
    liveWithout: (here, open) => {
      const key = `${here.signature} ${open.join(' ')}`;
      let groups = layout.without.get(key);
      if (!groups) layout.without.set(key, (groups = groupsOver(layout.branches, points, (branch) => here.isClosed(branch) && !open.includes(branch.id))));
      return groups;
    },
    carriesWithout: (here, short) => {
      const known = entry(layout.carries, `${here.signature} ${short.join(' ')}`);
      return (open, id) => {
        const answers = entry(known, open);
        let carries = answers.get(id);
        if (carries === undefined) answers.set(id, (carries = isOnLoop(layout, here, open, id, short)));
        return carries;
      };
    },
    groups: (joins) => groupsOver(branches, points, joins),
    groupsOfAll: (joins) => groupsOver(layout.all, points, joins),
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
  return { ...paths, packs: voltageOfRings(paths) };
});

/** Cells joined in a closed ring have no two ends: their voltage is then the highest that stands between two points of the ring. */
function voltageOfRings(paths: MetalPaths): Packs {
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

/** What the file alone decides: the same in every draw with the same metal. */
interface Layout {
  readonly points: Numbering;
  readonly all: readonly Branch[];
  readonly branches: readonly Branch[];
  readonly cellTerminals: readonly string[];
  /** groups by the signature of the closed contacts */
  readonly groups: Map<string, Pick<Picture, 'metal' | 'live'>>;
  /** the same with more elements open */
  readonly without: Map<string, Groups>;
  /** answers of `carriesWithout`, by signature and short, then the open element, then the one asked about */
  readonly carries: Map<string, Map<string, Map<string, boolean>>>;
}

/** Remembered for all draws with the same metal. */
const layoutFor = remembered((_: object, car: Car): Layout => {
  const { links, elements } = metalOf(car);
  const cells = elements.filter(({ type, id }) => type === 'source' && car.parts.get(ownerOf(id))?.roles.cells !== undefined);
  return newLayout(car, [...links.map(({ id }) => id), ...cells.map(({ id }) => id)]);
});

const layoutOf = (car: Car): Layout => layoutFor(metalOf(car).layout, car);

function newLayout(car: Car, ids: readonly string[]): Layout {
  const points = numbering();
  const all = branchesOf(car, ids, points.of);
  const everything = groupsOver(all, points, () => true);
  const cellTerminals = [...car.parts.values()].flatMap((part) => (part.roles.cells ? [part.names.of(part.roles.cells.positive)] : []));
  const onPack = new Set(cellTerminals.map((terminal) => everything.of(terminal)));
  const branches = all.filter((branch) => onPack.has(everything.ofPoint(branch.from))).map((branch, index) => ({ ...branch, index }));
  return { points, all, branches, cellTerminals, groups: new Map(), without: new Map(), carries: new Map() };
}

function branchesOf(car: Car, ids: readonly string[], pointOf: (node: string) => number): readonly Branch[] {
  const { links, elements } = metalOf(car);
  const isLink = new Map(links.map((link) => [link.id, link]));
  const isCell = new Map(elements.flatMap((element) => (element.type === 'source' ? [[element.id, element] as const] : [])));
  const fuses = new Set<string>();
  const disconnects = new Set<string>();
  for (const part of car.parts.values()) {
    for (const { element, style } of part.roles.protection ?? []) if (style !== 'pyrotechnic') fuses.add(part.names.of(element));
    for (const { element, a, by } of part.roles.switching ?? []) if (by === 'hand' && isHighVoltagePort(part, a)) disconnects.add(part.names.of(element));
    if (part.roles.disconnect) disconnects.add(part.names.of(part.roles.disconnect.element));
  }
  return ids.map((id, index): Branch => {
    const link = isLink.get(id);
    const { a, b } = link ?? isCell.get(id)!;
    const type = link === undefined ? 'cells' : link.isContact ? 'contact' : 'metal';
    return { id, index, a, b, type, isFuse: fuses.has(id), isDisconnect: disconnects.has(id), voltage: 0, from: pointOf(a), to: pointOf(b) };
  });
}

function isHighVoltagePort(part: CarPart, port: string): boolean {
  return part.ports.some(({ name, carries }) => name === port && carries === 'high_voltage');
}

/** A module may be wired as several sources: each has its share of the module's highest voltage. */
function withVoltages(car: Car, branches: readonly Branch[]): readonly Branch[] {
  const emf = new Map<string, number>();
  for (const element of metalOf(car).elements) if (element.type === 'source') emf.set(element.id, element.voltage);
  const sources = new Map<string, { total: number; count: number }>();
  for (const { id, type } of branches) {
    if (type !== 'cells') continue;
    const own = sources.get(ownerOf(id)) ?? { total: 0, count: 0 };
    sources.set(ownerOf(id), { total: own.total + emf.get(id)!, count: own.count + 1 });
  }
  return branches.map((branch) => {
    if (branch.type !== 'cells') return branch;
    const part = car.parts.get(ownerOf(branch.id))!;
    const { total, count } = sources.get(part.name)!;
    const share = total > 0 ? emf.get(branch.id)! / total : 1 / count;
    return { ...branch, voltage: part.roles.cells!.series * (part.cell?.maximumVoltage ?? 0) * share };
  });
}

/** The map that stands under a key, made when it is first asked for. */
function entry<V>(maps: Map<string, Map<string, V>>, key: string): Map<string, V> {
  let map = maps.get(key);
  if (!map) maps.set(key, (map = new Map()));
  return map;
}

/** A branch carries current only on a loop: its two ends must be joined by the rest. */
function isOnLoop({ branches, points }: Layout, here: Picture, open: string, id: string, [a, b]: readonly [string, string]): boolean {
  const branch = branches.find((one) => one.id === id);
  if (!branch) return false;
  const rest = branches.filter((one) => one !== branch && one.id !== open && here.isClosed(one));
  return groupsOver([...rest, { from: points.of(a), to: points.of(b) }], points, () => true).same(branch.a, branch.b);
}

function picture({ branches, points, groups }: Layout, mode: string | undefined, ask: Network): Picture | undefined {
  const solved = ask.solve(mode === undefined ? {} : { mode });
  if (solved.outcome !== 'solved') return undefined;
  const closed = branches.map(({ type, id }) => type !== 'contact' || solved.stateOf(id) === 'closed');
  const isClosed = (branch: Branch): boolean => closed[branch.index] === true;
  const signature = closed.map((is) => (is ? '1' : '0')).join('');
  let joined = groups.get(signature);
  if (!joined) {
    groups.set(signature, (joined = {
      metal: groupsOver(branches, points, (branch) => branch.type !== 'cells' && isClosed(branch)),
      live: groupsOver(branches, points, isClosed),
    }));
  }
  return { mode, solved, isClosed, signature, ...joined };
}
