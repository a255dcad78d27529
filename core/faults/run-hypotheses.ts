/**
 * What may be wrong with runs: parted, a bad joint, chafed through on the body, on a live wire or on its neighbour; and two that sit in each
 * other's places. Rates are relative to a wire that parts; common practice, no source.
 */
import type { Car, CarRun } from '../car/car.ts';
import { metalOf } from '../car/metal-graph.ts';
import { REFERENCE_NODE } from '../solve/element.ts';
import type { Disturbed } from './disturbed.ts';
import type { Hypothesis } from './hypothesis.ts';

const RATES = { open: 1, resistive: 1, toChassis: 0.3, toSupply: 0.1, toRun: 0.15, pins: 0.15, swapped: 0.15 };
/** A bad joint may have any of these [ohm]. */
const BAD_JOINTS = [0.5, 5, 50];
/** Bare copper laid on metal [ohm]. */
const CHAFED = 0.02;

/** Busbars and combs have no insulation to chafe and no terminal to crimp. */
const isFlat = (run: CarRun): boolean => run.conductor?.shape.form === 'flat';

export function runHypotheses(car: Car, disturbedAt: (name: string) => Disturbed): readonly Hypothesis[] {
  const supply = liveNode(car);
  const { netOf } = metalOf(car);
  const found: Hypothesis[] = [];
  for (const run of car.runs.values()) {
    const { factor, words: disturbed } = disturbedAt(run.name);
    const common = (code: string): Pick<Hypothesis, 'id' | 'cause' | 'about' | 'path' | 'silent' | 'disturbed'> => ({ id: `${run.name}.${code}`, cause: `${run.name}.${code}`, about: [run.name], path: `runs.${run.name}`, silent: [], disturbed });
    const ends = `${run.from} to ${run.to}`;
    const scale = factor * (isFlat(run) ? 0.4 : 1);
    found.push({ ...common('open'), sort: 'run_open', words: `${run.name} (${ends}) is parted, or never joined`, changes: [{ is: 'open', element: run.name }], weight: RATES.open * scale, confirm: `With the circuit dead, ohms from ${ends}: nothing.`, mend: `Tug at both terminals of ${run.name}; crimp on a new one, or draw a new wire.` });
    for (const more of BAD_JOINTS) {
      found.push({ ...common('resistive'), id: `${run.name}.resistive_${more}`, sort: 'run_resistive', words: `${run.name} (${ends}) has a bad joint or a half-broken strand`, changes: [{ is: 'resistive', element: run.name, more }], weight: (RATES.resistive * scale) / BAD_JOINTS.length, confirm: `Volts from ${ends} under load: more than some tens of millivolts.`, mend: `Make both joints of ${run.name} new: clean metal, right crimp, right torque.` });
    }
    if (run.carries === 'high_voltage' || isFlat(run)) continue;
    const net = netOf(run.from);
    if (net !== netOf(REFERENCE_NODE)) {
      found.push({ ...common('to_chassis'), sort: 'run_to_chassis', words: `${run.name} (${ends}) is chafed through and touches the body`, changes: [{ is: 'joined', id: `${run.name} to chassis`, a: run.from, b: REFERENCE_NODE, resistance: CHAFED }], weight: RATES.toChassis * scale, confirm: `With the circuit dead and ${run.name} taken off at one end, ohms from it to the body: near none.`, mend: `Find where ${run.name} rubs; new wire or sleeve there, and a clip that keeps it off.` });
    }
    if (supply !== undefined && net !== netOf(supply)) {
      found.push({ ...common('to_supply'), sort: 'run_to_supply', words: `${run.name} (${ends}) touches a wire that is always live`, changes: [{ is: 'joined', id: `${run.name} to supply`, a: run.from, b: supply, resistance: CHAFED }], weight: RATES.toSupply * scale, confirm: `Take ${run.name} off at both ends: there must be no volts on it.`, mend: `Part the bundle, find the chafed place, new wire or sleeve there.` });
    }
  }
  return [...found, ...besideEachOther(car, disturbedAt, netOf), ...pinsThatTouch(car, disturbedAt, netOf), ...swapped(car, disturbedAt, netOf)];
}

/** Where wires that are always live come from: behind the first fuse of a 12 V battery, or its post where there is none. */
function liveNode(car: Car): string | undefined {
  const part = [...car.parts.values()].find(({ roles }) => roles.lowVoltageBattery);
  if (!part) return undefined;
  const post = part.names.of(part.roles.lowVoltageBattery!.positive);
  for (const { from, to } of car.runs.values()) {
    const end = from === post ? to : to === post ? from : undefined;
    const fuse = end === undefined ? undefined : car.parts.get(end.split('.')[0]!);
    const role = fuse?.roles.protection?.find(({ a, b }) => [fuse.names.of(a), fuse.names.of(b)].includes(end!));
    if (fuse && role) return fuse.names.of(fuse.names.of(role.a) === end ? role.b : role.a);
  }
  return post;
}

/** Two wires that go the same way from part to part. */
function besideEachOther(car: Car, disturbedAt: (name: string) => Disturbed, netOf: (node: string) => string): readonly Hypothesis[] {
  const ways = new Map<string, CarRun[]>();
  for (const run of car.runs.values()) {
    if (run.carries === 'high_voltage' || isFlat(run)) continue;
    const way = [run.from, run.to].map((end) => end.split('.')[0]!).sort().join(' ');
    ways.set(way, [...(ways.get(way) ?? []), run]);
  }
  return [...ways.values()].flatMap((runs) => runs.slice(1).flatMap((run, index): Hypothesis[] => {
    const other = runs[index]!;
    if (netOf(run.from) === netOf(other.from)) return [];
    const { factor, words: disturbed } = disturbedAt(run.name);
    return [{
      id: `${run.name}.to_${other.name}`, cause: `${run.name}.to_${other.name}`, sort: 'run_to_run', about: [run.name, other.name], path: `runs.${run.name}`, silent: [], disturbed,
      words: `${run.name} and ${other.name} are chafed through and touch each other`, changes: [{ is: 'joined', id: `${run.name} to ${other.name}`, a: run.from, b: other.from, resistance: CHAFED }], weight: RATES.toRun * factor,
      confirm: `With the circuit dead and one end of ${run.name} off, ohms between ${run.from} and ${other.from}: near none.`, mend: 'Part the bundle, find the chafed place, new wires or sleeves there.',
    }];
  }));
}

/** Pins side by side in a plug. */
function pinsThatTouch(car: Car, disturbedAt: (name: string) => Disturbed, netOf: (node: string) => string): readonly Hypothesis[] {
  return [...car.parts.values()].flatMap((part) => {
    const pins = part.roles.pins?.pins ?? [];
    const { factor, words: disturbed } = disturbedAt(part.name);
    return pins.slice(1).flatMap((pin, index): Hypothesis[] => {
      const other = pins[index]!;
      const [a, b] = [other, pin].map(({ pin: name }) => sideOf(part.ports.map((port) => port.name), name));
      if (a === undefined || b === undefined || netOf(part.names.of(a)) === netOf(part.names.of(b))) return [];
      return [{
        id: `${part.name}.pins_${other.pin}_${pin.pin}`, cause: `${part.name}.pins_${other.pin}_${pin.pin}`, sort: 'pins_touch', about: [part.name], path: `parts.${part.name}`, silent: [], disturbed,
        words: `${part.name}: pins ${other.pin} and ${pin.pin} touch, by a strand or a bent pin`, changes: [{ is: 'joined', id: `${part.name} ${other.pin} to ${pin.pin}`, a: part.names.of(a), b: part.names.of(b), resistance: CHAFED }], weight: RATES.pins * factor,
        confirm: `Open ${part.name} and look at pins ${other.pin} and ${pin.pin}; ohms between them with the circuit dead.`, mend: 'Straighten or change the pins; no strand outside a crimp.',
      }];
    });
  });
}

/** The port of a pin on its first side. */
const sideOf = (ports: readonly string[], pin: string): string | undefined => [`a_${pin}`, `a${pin}`].find((name) => ports.includes(name));

/** Two wires of one stock that sit in each other's places at neighbouring ports of a part. */
function swapped(car: Car, disturbedAt: (name: string) => Disturbed, netOf: (node: string) => string): readonly Hypothesis[] {
  const at = new Map<string, CarRun>();
  for (const run of car.runs.values()) for (const end of [run.from, run.to]) if (run.carries !== 'high_voltage') at.set(end, run);
  return [...car.parts.values()].flatMap((part) => {
    const { factor, words: disturbed } = disturbedAt(part.name);
    const wired = part.ports.flatMap(({ name, carries, holds }) => { const end = part.names.of(name), run = at.get(end); return run && holds === 1 && carries !== 'high_voltage' ? [{ end, run, carries }] : []; });
    return wired.slice(1).flatMap((two, index): Hypothesis[] => {
      const one = wired[index]!;
      if (one.run === two.run || one.carries !== two.carries || stockOf(car, one.run) !== stockOf(car, two.run) || netOf(one.end) === netOf(two.end)) return [];
      const moved = (run: CarRun, from: string, to: string) => ({ is: 'moved', element: run.name, a: run.from === from ? to : run.from, b: run.to === from ? to : run.to } as const);
      return [{
        id: `${part.name}.swapped_${one.run.name}_${two.run.name}`, cause: `${part.name}.swapped_${one.run.name}_${two.run.name}`, sort: 'swapped', about: [part.name, one.run.name, two.run.name], path: `runs.${one.run.name}`, silent: [], disturbed,
        words: `${one.run.name} and ${two.run.name} sit in each other’s places at ${part.name}`, changes: [moved(one.run, one.end, two.end), moved(two.run, two.end, one.end)], weight: RATES.swapped * factor,
        confirm: `Compare the colours or labels of ${one.run.name} and ${two.run.name} at ${one.end} and ${two.end}; ohms from end to end with the circuit dead.`, mend: `Put ${one.run.name} on ${one.end} and ${two.run.name} on ${two.end}, or correct the file.`,
      }];
    });
  });
}

const stockOf = (car: Car, run: CarRun): string | undefined => car.build.runs.get(run.name)?.stock;
