/**
 * The one network of a car while it is put together. Every joint is a switch, made or not, so that all states of assembly have one
 * structure: compiled once, and each state is only other positions of its switches.
 */
import type { Car } from '../car/car.ts';
import { bridged, wireCar } from '../car/wire-car.ts';
import { sweepMaker } from '../solve/changes.ts';
import type { Sweep, SweepMaker } from '../solve/changes.ts';
import type { Network } from '../solve/element.ts';
import type { RestResult } from '../solve/rest-result.ts';
import type { BatteryJoint } from './battery-joints.ts';

/** Digital multimeters on their voltage ranges; common practice, no source [ohm]. */
const METER = 10e6;

export interface AssemblyState {
  /** what a meter of 10 MΩ shows, a minus b [V]; undefined: the network has no operating point */
  readonly meter: (a: string, b: string) => number | undefined;
  /** the operating point */
  readonly solved: RestResult;
}

/** Open voltage [V] and resistance [ohm] between two points, without what only takes or regulates; undefined when nothing ties them together. */
export type Seen = { readonly voltage: number; readonly resistance: number } | undefined;

export interface AssemblyNetwork {
  /** The state with some joints made. The states asked for before it must not be asked any more. */
  readonly at: (made: ReadonlySet<string>) => AssemblyState;
  /** between two points with some joints made */
  readonly seen: (made: ReadonlySet<string>, a: string, b: string) => Seen;
}

/** What several draws of one car share: the structure, and what was solved last. Its earlier states must not be asked any more. */
export interface SharedSolves { loaded: SweepMaker | undefined; bare: SweepMaker | undefined }
export const sharedSolves = (): SharedSolves => ({ loaded: undefined, bare: undefined });

/** @param joints  all high-voltage joints of the car: those that are not made are open, a disconnect that is not in is out; no mode */
export function assemblyNetwork(car: Car, joints: readonly BatteryJoint[], makers: SharedSolves = sharedSolves()): AssemblyNetwork {
  const runs = new Set(joints.filter(({ is }) => is === 'run').map(({ name }) => name));
  // one object a disconnect, because the wiring of a part is kept by it
  const outs = new Map(joints.filter(({ is }) => is === 'disconnect').map(({ name }) => [name, { [car.parts.get(name)!.roles.disconnect!.outSetting]: true }]));
  // only disconnects wire the car anew
  const wired = new Map<string, Network>();
  const networkOf = (made: ReadonlySet<string>, withoutLoads: boolean): Network => {
    const out = [...outs].filter(([name]) => !made.has(name));
    const key = `${withoutLoads} ${out.map(([name]) => name).join(' ')}`;
    const { nodes, elements } = wired.get(key) ?? bridged(wireCar(car, { set: Object.fromEntries(out) }), { withoutLoads }).network;
    wired.set(key, { nodes, elements });
    return { nodes, elements: elements.map((element) => (element.type === 'resistor' && runs.has(element.id) ? { type: 'switch', id: element.id, a: element.a, b: element.b, closed: made.has(element.id), resistance: element.resistance } : element)) };
  };
  const sweepAt = (which: 'loaded' | 'bare', made: ReadonlySet<string>): Sweep | Exclude<RestResult, { outcome: 'solved' }> => {
    const network = networkOf(made, which === 'bare');
    makers[which] ??= sweepMaker(network, {}, makers.loaded ?? makers.bare);
    return makers[which].at(network);
  };
  return {
    at: (made) => {
      const sweep = sweepAt('loaded', made);
      return {
        solved: sweep.outcome === 'ready' ? sweep.result : sweep,
        meter: (a, b) => {
          if (sweep.outcome !== 'ready') return undefined;
          if (a === b) return 0;
          const read = sweep.withChange({ kind: 'join', a, b, resistance: METER });
          return read.outcome === 'solved' ? read.voltageOf(a) - read.voltageOf(b) : undefined;
        },
      };
    },
    seen: (made, a, b) => {
      const sweep = sweepAt('bare', made);
      if (sweep.outcome !== 'ready') return undefined;
      const seen = sweep.thevenin(a, b);
      return seen.outcome === 'connected' ? { voltage: seen.voltage, resistance: Math.max(0, seen.resistance) } : undefined;
    },
  };
}
