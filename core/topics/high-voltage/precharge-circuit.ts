/**
 * The circuit that fills the DC links in a mode, drawn from the network: pack behind a resistor, capacitors side by side,
 * and whatever already draws from them.
 *
 * Assumptions: links on the same two poles count as one capacitor (the milliohms between them are nothing beside the precharge
 * resistor); several loads count as one with the sum of their power and the lowest of their knees (cautious: it draws longer).
 */
import type { Network } from '../../car/ask.ts';
import type { Car, CarPart } from '../../car/car.ts';
import { highVoltageRuns } from '../../car/high-voltage-runs.ts';
import { remembered } from '../../car/remembered.ts';
import type { State } from '../../car/state.ts';
import { elementsOfParts } from '../../car/wire-car.ts';
import type { PrechargeCircuit } from '../../physics/precharge-curve.ts';
import type { Converter, Element } from '../../solve/element.ts';
import type { Link, PrechargePath, ResistorPath } from './link-transitions.ts';
import type { Picture } from './metal-paths.ts';
import { metalPaths } from './metal-paths.ts';

export interface LoadsWhileFilling {
  /** [W] at any voltage above the knee */
  readonly power: number;
  /** [A] at any voltage above the knee */
  readonly current: number;
  /** [V]; below it they are resistors */
  readonly knee: number;
  /** names of the parts that draw, whether at constant power, at constant current or as a resistor */
  readonly parts: readonly string[];
}

/** A part that takes less than this from the links at rest does not count as drawing [W]: bleeders and dividers stay below. */
const DRAWS = 10;

/**
 * What draws from the links while a mode fills them.
 *
 * A converter's demand is taken with the precharge path bridged, that is at the voltage it would have once filled.
 */
export function loadsWhileFilling(car: Car, ask: Network, mode: string, links: readonly Link[], path: PrechargePath): LoadsWhileFilling {
  const here = metalPaths(car, ask).pictureOf(mode);
  const [link] = links;
  if (!here || !link) return NO_LOADS;
  const { metal } = here;
  const across = (a: string, b: string): boolean => (metal.same(a, link.positive) && metal.same(b, link.negative)) || (metal.same(a, link.negative) && metal.same(b, link.positive));
  let [power, current] = [0, 0];
  let knee: number | undefined;
  const parts = new Set<string>();
  const add = (id: string, kneeHere: number): void => {
    knee = Math.min(knee ?? kneeHere, kneeHere);
    parts.add(id.slice(0, id.indexOf('.')));
  };
  for (const element of elementsBetween(car, mode, metal, link)) {
    if (element.type === 'power' && element.power > 0 && across(element.a, element.b)) {
      power += element.power;
      add(element.id, element.knee);
    } else if (element.type === 'draw' && element.current > 0 && across(element.a, element.b)) {
      current += element.current;
      add(element.id, element.knee);
    } else if (element.type === 'converter' && across(element.input[0], element.input[1])) {
      const taken = converterDemand(ask, mode, element, path);
      if (taken <= 0) continue;
      power += taken;
      add(element.id, Math.max(1, element.minimumInput));
    }
  }
  for (const part of resistiveDrawers(car, here, link, path)) parts.add(part);
  return { power, current, knee: Math.max(knee ?? 1, 1e-3), parts: [...parts] };
}

/** Names by pole and pole; the groups are the same in every draw that closes the same contacts. */
const partsAcross = remembered((_: Picture['metal']) => new Map<string, readonly string[]>());

/** Elements of the parts that have a pole on each pole of the link. */
function elementsBetween(car: Car, mode: string, metal: Picture['metal'], { positive, negative }: Link): readonly Element[] {
  const known = partsAcross(metal);
  const key = `${positive} ${negative}`;
  let names = known.get(key);
  if (!names) {
    const touches = (part: CarPart, pole: string): boolean => part.ports.some((port) => port.carries === 'high_voltage' && metal.same(part.names.of(port.name), pole));
    known.set(key, (names = [...car.parts.values()].filter((part) => touches(part, positive) && touches(part, negative)).map(({ name }) => name)));
  }
  return elementsOfParts(car, { mode }, names.map((name) => car.parts.get(name)!));
}

/** Parts across the links that the solved mode shows taking power: what enters at their positive pole times the voltage. */
function resistiveDrawers(car: Car, { metal, solved }: Picture, link: Link, path: PrechargePath): readonly string[] {
  const voltage = solved.voltageOf(link.positive) - solved.voltageOf(link.negative);
  const into = new Map<string, number>();
  for (const run of highVoltageRuns(car)) {
    const current = solved.currentOf(run.name);
    into.set(run.to, (into.get(run.to) ?? 0) + current);
    into.set(run.from, (into.get(run.from) ?? 0) - current);
  }
  return [...car.parts.values()].filter(({ name, names, ports, roles }) => name !== path.part && roles.cells === undefined && ports.some((port) => {
    const node = names.of(port.name);
    return port.pole === 'positive' && port.carries === 'high_voltage' && metal.same(node, link.positive) && ports.some((other) => other.pole === 'negative' && metal.same(names.of(other.name), link.negative)) && voltage * (into.get(node) ?? 0) > DRAWS;
  })).map(({ name }) => name);
}

const NO_LOADS: LoadsWhileFilling = { power: 0, current: 0, knee: 1, parts: [] };

/** Input power of a converter once its input is at the full voltage [W]. */
function converterDemand(ask: Network, mode: string, converter: Converter, path: PrechargePath): number {
  const state: State = path.by === 'resistor' ? { mode, bridges: [{ a: path.a, b: path.b, resistance: 1e-3 }] } : { mode };
  const solved = ask.solve(state);
  if (solved.outcome !== 'solved') return Math.min(converter.powerLimit ?? Infinity, converter.voltage * converter.currentLimit) / converter.efficiency + converter.idlePower;
  const voltage = solved.voltageOf(converter.input[0]) - solved.voltageOf(converter.input[1]);
  return voltage * solved.currentOf(`${converter.id}:in`);
}

/**
 * Voltage of the full pack where a link sits, in a mode in which it is live [V].
 *
 * With one pack it is every cell at its highest in service; with several it is what arrives there at full charge.
 * @returns undefined when no voltage arrives there
 */
export function fullPackAt(car: Car, ask: Network, mode: string, link: Link): number | undefined {
  const { packs } = metalPaths(car, ask).packs;
  return packs.length === 1 && packs[0]!.maximumVoltage > 0 ? packs[0]!.maximumVoltage : openVoltage(ask, { mode, stateOfCharge: 1, withoutLoads: true }, link);
}

/** The same of an empty pack [V]; through the precharge path, bridged, when `mode` is the one that fills. */
export function emptyPackAt(ask: Network, mode: string, link: Link, path?: PrechargePath): number | undefined {
  const bridges = path?.by === 'resistor' ? { bridges: [{ a: path.a, b: path.b, resistance: 1e-3 }] } : {};
  return openVoltage(ask, { mode, ...bridges, stateOfCharge: 0, withoutLoads: true }, link);
}

function openVoltage(ask: Network, state: State, { positive, negative }: Link): number | undefined {
  const solved = ask.solve(state);
  const voltage = solved.outcome === 'solved' && solved.islandOf(positive) === solved.islandOf(negative) ? Math.abs(solved.voltageOf(positive) - solved.voltageOf(negative)) : 0;
  return voltage >= 1 ? voltage : undefined;
}

/**
 * The circuit of a precharge through a resistor.
 *
 * Resistive loads (bleeders, a heater, a divider) are told from the precharge resistor by what they take off the open
 * voltage: V = V0 RL/(R + RL) and Rth = R RL/(R + RL) give R = Rth V0/V and RL = R V/(V0 - V). The share V/V0 is taken at
 * the car's own charge, where the same state of the network gives both.
 *
 * @param pack  voltage of the full pack [V]
 * @returns undefined when no voltage arrives at the link
 */
export function prechargeCircuit(ask: Network, mode: string, links: readonly Link[], path: ResistorPath, pack: number, loads: LoadsWhileFilling): PrechargeCircuit | undefined {
  const [link] = links;
  const state: State = loads.power > 0 || loads.current > 0 ? { mode, withoutLoads: true } : { mode };
  const seen = link && ask.thevenin(state, link.positive, link.negative);
  const solved = ask.solve(state);
  if (seen?.outcome !== 'solved' || solved.outcome !== 'solved' || Math.abs(seen.voltage) < 1 || !(seen.resistance > 0)) return undefined;
  // pack side less link side of the path, added to what the link has: the pack without the drop in the path
  const drop = Math.abs(solved.voltageOf(path.a) - solved.voltageOf(path.b));
  const share = Math.abs(seen.voltage) / (Math.abs(seen.voltage) + drop);
  const capacitance = links.reduce((sum, { role }) => sum + role.capacitance, 0);
  const resistance = seen.resistance / share;
  return {
    source: pack, resistance, capacitance,
    // less than a millionth is rounding
    ...(1 - share > 1e-6 ? { loadResistance: (resistance * share) / (1 - share) } : {}),
    ...(loads.current > 0 ? { loadCurrent: loads.current } : {}),
    ...(loads.power > 0 ? { loadPower: loads.power } : {}),
    knee: loads.knee,
  };
}
