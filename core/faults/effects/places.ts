/**
 * Where the table looks in the car: the high voltage outside its contactors, contacts, consumers, inputs of controllers, monitors, loops.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import { mainsSide } from '../../car/mains-runs.ts';
import { ownerOf } from '../../car/metal-graph.ts';
import { stringsOf } from '../../car/strings.ts';
import { wireCar } from '../../car/wire-car.ts';
import { pointsIn } from '../../condition/condition.ts';
import type { State } from '../../car/state.ts';
import { ampacity } from '../../topics/low-voltage/ampacity.ts';
import { coilContacts } from '../../topics/modes/mode-graph.ts';
import { fusesOf } from '../blown-fuses.ts';
import type { Watched } from '../predict-state.ts';
import { thingsOf } from '../things.ts';

/**
 * Laid across each bus while it is looked at [ohm]: a pole that only leakage reaches then reads nearly nothing, one that a contact feeds reads
 * the pack. Our choice: 60 V drive 3 mA through it, and it takes some watts of a pack of 400 V.
 */
const PROBE = 20e3;

export interface Bus { readonly part: string; readonly a: string; readonly b: string }
export interface Fed { readonly part: string; readonly name: string; readonly a: string; readonly b: string; readonly least: number | undefined }

export interface Places {
  readonly watched: Watched;
  readonly placeOf: ReadonlyMap<string, number>;
  readonly buses: readonly Bus[];
  readonly probes: NonNullable<State['bridges']>;
  /** elements of high-voltage contacts that a coil moves, with their part */
  readonly contacts: readonly { readonly part: string; readonly element: string }[];
  readonly consumers: readonly Fed[];
  /** points at which controllers listen */
  readonly inputs: readonly string[];
  /** by place among the watched runs [A]; NaN where the file does not say enough */
  readonly ampacities: Float64Array;
  readonly monitors: readonly { readonly part: string; readonly warnBelow: number; /** elements without which it sees nothing */ readonly looks: ReadonlySet<string>; /** contact or bus is wired */ readonly isHeard: boolean }[];
  /** runs at outputs of electronics that have a limit [A] */
  readonly outputs: readonly { readonly part: string; readonly run: string; readonly rating: number }[];
  /** runs at each end of each fuse, and its rating [A] */
  readonly fuses: readonly { readonly part: string; readonly ends: readonly (readonly string[])[]; readonly rating: number }[];
  /** points whose voltages conditions ask for */
  readonly asked: readonly string[];
  /** points at mains voltage */
  readonly mains: ReadonlySet<string>;
  /** highest of the strings, cells full [V] */
  readonly packVoltage: number;
  /** interlock contacts: the elements between their ports */
  readonly loop: readonly { readonly part: string; readonly a: string; readonly b: string; readonly elements: readonly string[] }[];
}

export function placesIn(car: Car, ask: Network): Places {
  const parts = [...car.parts.values()].filter(({ missing }) => missing.length === 0);
  const conditions = [...car.build.modes.values()].flatMap(({ needs, asserts }) => [...needs, ...asserts]);
  const asked = conditions.flatMap(pointsIn).filter((point) => car.parts.get(point.split('.')[0]!)?.missing.length === 0);
  const points = [...new Set([...ask.points, ...asked])];
  const runs = [...car.runs.keys()];
  const buses = parts.flatMap(({ name, names, roles }) => (roles.dcLink ? [{ part: name, a: names.of(roles.dcLink.positive), b: names.of(roles.dcLink.negative) }] : []));
  const { network: { elements } } = wireCar(car, {});
  const memo = new Map();
  const ended = new Set([...car.runs.values()].flatMap(({ from, to }) => [from, to]));
  return {
    watched: { points, things: thingsOf(car, ask), runs },
    placeOf: new Map(points.map((point, index) => [point, index])),
    buses, probes: buses.map(({ a, b }) => ({ a, b, resistance: PROBE })),
    contacts: coilContacts(car),
    consumers: parts.flatMap(({ name, names, roles }) => (roles.switching?.some(({ by }) => by === 'coil') === true || roles.indicator ? [] : (roles.consumers ?? []).map((one) => ({ part: name, name: one.name, a: names.of(one.positive), b: names.of(one.negative), least: one.minimumVoltage })))),
    inputs: parts.flatMap(({ kind, names, ports, roles }) => {
      const outputs = new Set((roles.switching ?? []).flatMap(({ a, b }) => [a, b]));
      return kind.family !== 'low_voltage' || roles.switching?.some(({ by }) => by === 'electronics') !== true ? [] : ports.filter(({ name, carries }) => carries === 'signal' && !outputs.has(name) && !/^can_/.test(name)).map(({ name }) => names.of(name));
    }),
    ampacities: Float64Array.from(runs, (run) => { const can = ampacity(car, car.runs.get(run)!, memo); return can.outcome === 'current' ? can.current : NaN; }),
    monitors: parts.flatMap(({ name, names, roles, ports }) => {
      if (!roles.isolationMonitor) return [];
      const poles = new Set((roles.insulation ?? []).map(({ port }) => names.of(port)));
      const own = elements.flatMap((element) => (element.type !== 'converter' && element.id.startsWith(`${name}.`) && poles.has(element.a) !== poles.has(element.b) ? [element] : []));
      const looking = new Set(own.map(({ a, b }) => (poles.has(a) ? b : a)));
      const wires = [...car.runs.values()].filter(({ from, to }) => looking.has(from) || looking.has(to)).map((run) => run.name);
      return [{ part: name, warnBelow: Math.max(100e3, roles.isolationMonitor.warnBelow ?? 0), looks: new Set([...own.map(({ id }) => id), ...(wires.length === 1 ? wires : [])]), isHeard: ports.some(({ name: port, carries }) => carries === 'signal' && ended.has(names.of(port))) }];
    }),
    outputs: parts.flatMap(({ name, names, roles }) => (roles.switching ?? []).flatMap(({ by, a, b, rating }) => {
      const ends = new Set([names.of(a), names.of(b)]);
      const own = (roles.consumers ?? []).flatMap(({ positive, negative }) => [names.of(positive), names.of(negative)]);
      return by !== 'electronics' || rating === undefined ? [] : [...car.runs.values()].filter(({ from, to }) => [from, to].some((end) => ends.has(end) && !own.includes(end))).map((run) => ({ part: name, run: run.name, rating }));
    })),
    fuses: [...fusesOf(car)].flatMap(([fuse, rating]) => {
      const own = elements.find(({ id }) => id === fuse);
      return own === undefined || own.type === 'converter' ? [] : [{ part: ownerOf(fuse), ends: [own.a, own.b].map((end) => [...car.runs.values()].filter(({ from, to }) => end === from || end === to).map(({ name }) => name)), rating }];
    }),
    asked: [...new Set(asked)], mains: mainsSide(car).nodes,
    packVoltage: stringsOf(car).packs.flatMap(({ strings }) => strings).reduce((most, { modules }) => Math.max(most, modules.reduce((sum, { part }) => sum + (part.roles.cells?.series ?? 0) * (part.cell?.maximumVoltage ?? 0), 0)), 0),
    loop: parts.flatMap(({ name, names, roles }) => (roles.interlock ?? []).map(([one, other]) => {
      const [a, b] = [names.of(one), names.of(other)];
      return { part: name, a, b, elements: elements.flatMap((element) => (element.type !== 'converter' && ((element.a === a && element.b === b) || (element.a === b && element.b === a)) ? [element.id] : [])) };
    })),
  };
}
