/**
 * Where else than across a part a bolted short can lie: between two cables of different potential, and from one bus to the other.
 *
 * A segment is what metal joins with every contact closed and every fuse out: all of it has the same fuses before it, so one
 * short for each pair of segments is enough. A pair is looked at when both its segments leave their boxes as cable, when both
 * are buses, or when a cable can meet an end of the pack.
 */
import type { Car, CarPart } from '../../car/car.ts';
import { carriesHighVoltage } from './fuse-in-fault.ts';
import type { MetalPaths } from './metal-paths.ts';
import type { Groups } from './point-groups.ts';
import type { FaultPoint } from './fault-points.ts';
import type { PackEnds } from './pack-ends.ts';
import { SHORT_LEAD } from './unfused-ends.ts';

/** Two places that a short may join; which is positive is read from a solved mode. */
export interface ConductorPair {
  /** names: a run where there is a cable, else a part */
  readonly at: string; readonly other: string;
  readonly a: string; readonly b: string;
  /** cables of both sides that leave their box; empty: a bar, or the terminal of a module */
  readonly cables: readonly [readonly string[], readonly string[]];
}

const remembered = new WeakMap<object, readonly ConductorPair[]>();

/**
 * Pairs of segments that no short across a part or the pack stands for already. Remembered for all draws with the same metal, so
 * that a length near the border does not make a finding come and go.
 *
 * @param known  the shorts that are looked at anyway
 */
export function conductorPairs(car: Car, paths: MetalPaths, packs: readonly PackEnds[], known: readonly FaultPoint[]): readonly ConductorPair[] {
  let pairs = remembered.get(paths.layout);
  if (!pairs) remembered.set(paths.layout, (pairs = findPairs(car, paths, packs, known)));
  return pairs;
}

/** A cable so long that it leaves its box, and not in a conduit of its own. */
function looseCables(car: Car, paths: MetalPaths): readonly { readonly name: string; readonly from: string }[] {
  const onPack = new Set(paths.branches.map(({ id }) => id));
  return [...car.runs.values()].filter((run) => onPack.has(run.name) && run.conductor?.shape.form !== 'flat' && run.fields['alone'] !== true && (run.length === undefined || run.length > SHORT_LEAD));
}

interface Segment { readonly id: number; readonly node: string; readonly name: string; readonly net: number; readonly cables: string[]; isBus: boolean; isEnd: boolean; hasCells: boolean }

function findPairs(car: Car, paths: MetalPaths, packs: readonly PackEnds[], known: readonly FaultPoint[]): readonly ConductorPair[] {
  const fuseless = paths.groups(({ type, isFuse }) => type !== 'cells' && !isFuse);
  const nets = paths.groups(({ type }) => type !== 'cells');
  const segments = segmentsOf(car, paths, packs, fuseless, nets);
  const seen = new Set(known.map(({ positive, negative }) => pairKey(fuseless.of(positive), fuseless.of(negative))));
  const pairs: ConductorPair[] = [];
  const all = [...segments.values()];
  all.forEach((one, index) => {
    for (const two of all.slice(index + 1)) {
      if (one.net === two.net || seen.has(pairKey(one.id, two.id))) continue;
      const bothLoose = one.cables.length > 0 && two.cables.length > 0;
      const cableAtEnd = (one.cables.length > 0 && two.isEnd) || (two.cables.length > 0 && one.isEnd);
      // behind a further fuse the same pair is only better protected: one side at least is cells or a bus, the other too or between two fuses of the string
      const isMain = (one.hasCells || one.isBus) || (two.hasCells || two.isBus);
      if (!isMain || !(bothLoose || cableAtEnd || (one.isBus && two.isBus))) continue;
      pairs.push({ at: one.cables[0] ?? one.name, other: two.cables[0] ?? two.name, a: one.node, b: two.node, cables: [one.cables, two.cables] });
    }
  });
  return pairs;
}

const pairKey = (a: number, b: number): string => (a < b ? `${a} ${b}` : `${b} ${a}`);

function segmentsOf(car: Car, paths: MetalPaths, packs: readonly PackEnds[], fuseless: Groups, nets: Groups): ReadonlyMap<number, Segment> {
  const segments = new Map<number, Segment>();
  const at = (node: string, name: string): Segment => {
    const id = fuseless.of(node);
    let segment = segments.get(id);
    if (!segment) segments.set(id, (segment = { id, node, name, net: nets.of(node), cables: [], isBus: false, isEnd: false, hasCells: false }));
    return segment;
  };
  for (const { name, from } of looseCables(car, paths)) at(from, name).cables.push(name);
  for (const part of car.parts.values()) {
    const bar = barOf(part, paths, fuseless);
    if (bar !== undefined) at(bar, part.name).isBus = true;
  }
  for (const { positive, negative } of packs) for (const end of [positive, negative]) at(end, ownerOf(end)).isEnd = true;
  for (const part of car.parts.values()) {
    const { cells } = part.roles;
    if (!cells) continue;
    for (const port of [cells.positive, cells.negative]) {
      const segment = segments.get(fuseless.of(part.names.of(port)));
      if (segment) segment.hasCells = true;
    }
  }
  return segments;
}

/** A point of a part that is nothing but a meeting of high-voltage runs (a junction bar, a stud). */
function barOf({ names, ports, roles }: CarPart, paths: MetalPaths, fuseless: Groups): string | undefined {
  if (roles.cells ?? roles.dcLink ?? roles.prechargeResistor ?? roles.prechargeConverter ?? roles.isolationMonitor ?? roles.mains ?? roles.disconnect) return undefined;
  if ((roles.protection ?? []).length > 0 || (roles.switching ?? []).length > 0 || (roles.consumers ?? []).length > 0) return undefined;
  const points = ports.filter((port) => carriesHighVoltage({ ports }, port.name)).map((port) => names.of(port.name));
  const [first, ...rest] = points;
  if (first === undefined || points.length !== ports.length || rest.some((point) => !fuseless.same(first, point))) return undefined;
  const onPack = paths.cellTerminals.length > 0 && paths.branches.some(({ a, b }) => a === first || b === first);
  return onPack ? first : undefined;
}

const ownerOf = (node: string): string => node.slice(0, node.indexOf('.'));
