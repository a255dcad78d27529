/**
 * The low-voltage side in circuits: what feeds it up to the last fuse of each way, what hangs behind each of those fuses, and the signals
 * that no fuse feeds. Worked out from what metal joins and from what lies inside the parts; no part's kind is asked for.
 */
import type { Car, CarRun } from '../../core/car/car.ts';
import { metalOf, ownerOf, unionFind } from '../../core/car/metal-graph.ts';
import { REFERENCE_NODE } from '../../core/solve/element.ts';
import type { Ways } from '../diagram/ways.ts';
import { endsOf } from '../diagram/ways.ts';

export interface Circuit {
  readonly kind: 'supply' | 'feed' | 'signal';
  /** feed: the part with the fuse */
  readonly fuse?: string;
  readonly runs: readonly string[];
}

export interface Circuits {
  readonly circuits: readonly Circuit[];
  /** steps from the sources; points that no source reaches count on from where they hang */
  readonly rank: (point: string) => number;
}

/** Which fuse a point hangs behind; `upstream` of a fuse that a source feeds with no fuse between is ''. */
interface Reach { readonly fuse: string; readonly steps: number }

/** @param runs  those that the sheet draws as lines */
export function circuitsOf(car: Car, ways: Ways, runs: readonly CarRun[]): Circuits {
  const reach = new Map<string, Reach>();
  const upstream = new Map<string, string>();
  const hops = hopsOf(car, runs);
  const starts = [...car.parts.values()].flatMap(({ name, roles }) => [roles.lowVoltageBattery, roles.lowVoltageSupply].flatMap((role) => (role ? [`${name}.${role.positive}`] : [])));
  for (const start of starts) reach.set(start, { fuse: '', steps: 0 });
  const walk = (from: readonly string[], isTaken: (hop: Hop) => boolean): void => {
    const queue = [...from];
    for (const point of queue) {
      const here = reach.get(point)!;
      for (const hop of hops.get(point) ?? []) {
        if (reach.has(hop.to) || !isTaken(hop)) continue;
        if (hop.fuse !== undefined && !upstream.has(hop.fuse)) upstream.set(hop.fuse, here.fuse);
        reach.set(hop.to, { fuse: hop.fuse ?? here.fuse, steps: here.steps + 1 });
        queue.push(hop.to);
      }
    }
  };
  walk(starts, ({ inside }) => inside === undefined || inside === 'metal');
  const units = unitsOf(ways, new Set(metalOf(car).links.map(({ id }) => id)));
  // then through coils, diodes and lamps, which end a way of metal
  const isSmall = (point: string): boolean => (ways.at(point)?.ports.length ?? 0) <= 2;
  // what ends there is the unit's own business: no way leads on through its drivers
  walk([...reach.keys()], ({ inside, to, from }) => inside === undefined || (isSmall(to) && isSmall(from)) || (inside === 'metal' && !units.has(ownerOf(from))));
  const reachedByCurrent = new Set(reach.keys());
  const isSignal = (point: string): boolean => ways.at(point)?.ports.find(({ name }) => point.endsWith(`.${name}`))?.carries === 'signal';
  walk([...reach.keys()], ({ inside, to }) => inside !== 'all' || !isSignal(to));

  const hasFuses = new Set(upstream.values());
  const isSupply = (fuse: string): boolean => fuse === '' || hasFuses.has(fuse) || upstream.get(fuse) === '';
  const supply: string[] = [];
  const feeds = new Map<string, string[]>();
  const signals: CarRun[] = [];
  for (const run of runs) {
    const [a, b] = [reach.get(run.from), reach.get(run.to)];
    const nearer = a && b ? (a.steps <= b.steps ? a : b) : (a ?? b);
    if (!nearer || (run.carries === 'signal' && !(reachedByCurrent.has(run.from) && reachedByCurrent.has(run.to)))) signals.push(run);
    else if (isSupply(nearer.fuse)) supply.push(run.name);
    else feeds.set(nearer.fuse, [...(feeds.get(nearer.fuse) ?? []), run.name]);
  }
  const far = ranksBeyond(reach, signals, ways);
  return {
    rank: (point) => reach.get(point)?.steps ?? far.get(point) ?? 0,
    circuits: [
      ...(supply.length > 0 ? [{ kind: 'supply', runs: supply } satisfies Circuit] : []),
      ...[...feeds].map(([fuse, names]): Circuit => ({ kind: 'feed', fuse: ownerOf(fuse), runs: names })),
      ...signalCircuits(signals, ways).map((names): Circuit => ({ kind: 'signal', runs: names })),
    ],
  };
}

/** Parts with a piece of three or more ports in which more lies than metal. */
function unitsOf(ways: Ways, metal: ReadonlySet<string>): ReadonlySet<string> {
  return new Set([...ways.all.values()].flatMap(({ part, ports, elements }) => (ports.length > 2 && elements.some(({ id }) => !metal.has(id)) ? [part.name] : [])));
}

interface Hop { readonly from: string; readonly to: string; /** undefined: a run; an element that conducts; any other element */ readonly inside: 'metal' | 'all' | undefined; readonly fuse: string | undefined }

function hopsOf(car: Car, runs: readonly CarRun[]): ReadonlyMap<string, readonly Hop[]> {
  const at = new Map<string, Hop[]>();
  const add = (from: string, to: string, inside: Hop['inside'], fuse?: string): void => {
    for (const [a, b] of [[from, to], [to, from]] as const) {
      const list = at.get(a);
      const hop: Hop = { from: a, to: b, inside, fuse };
      if (list) list.push(hop);
      else at.set(a, [hop]);
    }
  };
  for (const { from, to } of runs) add(from, to, undefined);
  const metal = metalOf(car);
  const conducts = new Set(metal.links.map(({ id }) => id));
  const fuses = new Set([...car.parts.values()].flatMap(({ name, roles }) => (roles.protection ?? []).map(({ element }) => `${name}.${element}`)));
  for (const element of metal.elements) {
    if (car.runs.has(element.id)) continue;
    for (const [a, b] of endsOf(element)) if (a !== REFERENCE_NODE && b !== REFERENCE_NODE) add(a, b, conducts.has(element.id) ? 'metal' : 'all', fuses.has(element.id) ? element.id : undefined);
  }
  return at;
}

/** Signals count their steps on from the points that a source reaches, else from the first end in the file. */
function ranksBeyond(reach: ReadonlyMap<string, Reach>, signals: readonly CarRun[], ways: Ways): ReadonlyMap<string, number> {
  const at = new Map<string, { readonly run: CarRun; readonly node: string }[]>();
  const nodeOf = (point: string): string => ways.at(point)?.id ?? point;
  for (const run of signals) for (const node of [nodeOf(run.from), nodeOf(run.to)]) at.set(node, [...(at.get(node) ?? []), { run, node }]);
  const steps = new Map<string, number>();
  const far = new Map<string, number>();
  const walk = (start: string): void => {
    steps.set(start, 0);
    const queue = [start];
    for (const node of queue) {
      for (const { run } of at.get(node) ?? []) {
        const [a, b] = [nodeOf(run.from), nodeOf(run.to)];
        const other = a === node ? b : a;
        if (!steps.has(other)) { steps.set(other, steps.get(node)! + 1); queue.push(other); }
      }
    }
  };
  for (const run of signals) for (const node of [nodeOf(run.from), nodeOf(run.to)]) if (!steps.has(node)) walk(node);
  for (const run of signals) for (const point of [run.from, run.to]) if (!reach.has(point)) far.set(point, steps.get(nodeOf(point)) ?? 0);
  return far;
}

/** fewer runs than this make no diagram of their own */
const FEW = 4;

/**
 * Signals that hang together make a circuit; those that lead along the same parts (the two wires of a bus, pilot and proximity) are one.
 * What is left in bits is put together by the parts that it shares.
 */
function signalCircuits(signals: readonly CarRun[], ways: Ways): readonly (readonly string[])[] {
  const joined = unionFind();
  const isSmall = (point: string): boolean => (ways.at(point)?.ports.length ?? 0) <= 2;
  for (const { name, from, to } of signals) for (const point of [from, to]) joined.join(name, isSmall(point) ? `way ${ways.at(point)?.id ?? point}` : `point ${point}`);
  const along = new Map<string, string>();
  const groups = grouped(signals, ({ name }) => joined.find(name));
  for (const group of groups) {
    const key = [...new Set(group.flatMap(({ from, to }) => [from, to].map(ownerOf)))].sort().join(' ');
    const other = along.get(key);
    if (other === undefined) along.set(key, group[0]!.name);
    else joined.join(other, group[0]!.name);
  }
  const whole = grouped(signals, ({ name }) => joined.find(name));
  const bits = whole.filter((group) => group.length < FEW).flat();
  for (const { name, from, to } of bits) for (const point of [from, to]) if (!isSmall(point)) joined.join(name, `unit ${ways.at(point)?.id ?? point}`);
  return grouped(signals, ({ name }) => joined.find(name)).map((group) => group.map(({ name }) => name));
}

function grouped<T>(list: readonly T[], keyOf: (item: T) => string): readonly (readonly T[])[] {
  const groups = new Map<string, T[]>();
  for (const item of list) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return [...groups.values()];
}
