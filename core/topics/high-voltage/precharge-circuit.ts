/**
 * The circuit that fills the DC links in a mode, drawn from the network: pack behind a resistor, capacitors side by side,
 * and whatever already draws from them.
 *
 * Assumptions: links on the same two poles count as one capacitor (the milliohms between them are nothing beside the precharge
 * resistor); several loads count as one with the sum of their power and the lowest of their knees (cautious: it draws longer).
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import type { State } from '../../car/state.ts';
import { wireCar } from '../../car/wire-car.ts';
import type { PrechargeCircuit } from '../../physics/precharge-curve.ts';
import type { Converter } from '../../solve/element.ts';
import type { Link, PrechargePath } from './link-transitions.ts';
import { metalPaths } from './metal-paths.ts';

export interface LoadsWhileFilling {
  /** [W] at any voltage above the knee */
  readonly power: number;
  /** [A] at any voltage above the knee */
  readonly current: number;
  /** [V]; below it they are resistors */
  readonly knee: number;
  /** names of the parts that draw */
  readonly parts: readonly string[];
}

/** The pack as the link sees it with the main contacts closed. */
export interface PackBehind { /** [V] */ readonly voltage: number; /** pack, wiring and contacts [ohm] */ readonly resistance: number }

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
  for (const element of wireCar(car, { mode }).network.elements) {
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
  return { power, current, knee: Math.max(knee ?? 1, 1e-3), parts: [...parts] };
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

/** @returns undefined when no voltage arrives there */
export function packBehind(ask: Network, mode: string, link: Link, stateOfCharge: number): PackBehind | undefined {
  const seen = ask.thevenin({ mode, stateOfCharge, withoutLoads: true }, link.positive, link.negative);
  return seen.outcome === 'solved' && Math.abs(seen.voltage) >= 1 ? { voltage: Math.abs(seen.voltage), resistance: Math.max(seen.resistance, 1e-6) } : undefined;
}

/** The same with the precharge resistor bridged, when no mode closes the main contactor. */
export function packBehindBridge(ask: Network, mode: string, link: Link, path: PrechargePath, stateOfCharge: number): PackBehind | undefined {
  if (path.by !== 'resistor') return undefined;
  const seen = ask.thevenin({ mode, bridges: [{ a: path.a, b: path.b, resistance: 1e-3 }], stateOfCharge, withoutLoads: true }, link.positive, link.negative);
  return seen.outcome === 'solved' && Math.abs(seen.voltage) >= 1 ? { voltage: Math.abs(seen.voltage), resistance: Math.max(seen.resistance, 1e-6) } : undefined;
}

/**
 * The circuit of a precharge through a resistor.
 *
 * Resistive loads (bleeders, a heater, a divider) are told from the precharge resistor by what they take off the open
 * voltage: V = V0 RL/(R + RL) and Rth = R RL/(R + RL) give R = Rth V0/V and RL = R V/(V0 - V).
 *
 * @returns undefined when no voltage arrives at the link
 */
export function prechargeCircuit(ask: Network, mode: string, links: readonly Link[], pack: PackBehind, loads: LoadsWhileFilling, stateOfCharge: number): PrechargeCircuit | undefined {
  const [link] = links;
  const seen = link && ask.thevenin({ mode, stateOfCharge, withoutLoads: true }, link.positive, link.negative);
  if (seen?.outcome !== 'solved' || Math.abs(seen.voltage) < 1 || !(seen.resistance > 0)) return undefined;
  const capacitance = links.reduce((sum, { role }) => sum + role.capacitance, 0);
  const open = Math.min(Math.abs(seen.voltage), pack.voltage);
  const resistance = (seen.resistance * pack.voltage) / open;
  const missing = pack.voltage - open;
  return {
    source: pack.voltage, resistance, capacitance,
    // less than a millionth is rounding
    ...(missing > 1e-6 * pack.voltage ? { loadResistance: (resistance * open) / missing } : {}),
    ...(loads.current > 0 ? { loadCurrent: loads.current } : {}),
    ...(loads.power > 0 ? { loadPower: loads.power } : {}),
    knee: loads.knee,
  };
}
