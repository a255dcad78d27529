/**
 * Filling the DC links from the 12 V side: how long it takes, how far it gets, and what the 12 V side feels.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import { elementsOfParts } from '../../car/wire-car.ts';
import { converterPrecharge } from '../../physics/precharge-converter-curve.ts';
import type { ConverterPath, Filling } from './link-transitions.ts';
import type { LoadsWhileFilling } from './precharge-circuit.ts';

export interface ConverterFilling {
  /** highest voltage it brings the links to [V] */
  readonly endVoltage: number;
  /** positive when its positive pole is the links' positive pole */
  readonly polarity: 1 | -1;
  readonly voltageAt: (time: number) => number;
  /** undefined: never reached */
  readonly timeTo: (voltage: number) => number | undefined;
  /** [A] */ readonly currentAt: (voltage: number) => number;
  readonly supply: ConverterSupply;
  /** taken from the 12 V side until `voltage` is reached [J]; undefined: never reached */
  readonly supplyEnergyTo: (voltage: number) => number | undefined;
}

export interface ConverterSupply {
  /** at its supply terminals at full output [V] */
  readonly voltage: number;
  /** before it starts [V] */
  readonly openVoltage: number;
  /** between battery and converter [ohm] */
  readonly resistance: number;
  /** [A] */ readonly current: number;
  /** false: the wiring cannot bring that much power there at any voltage; `voltage` is then half the open voltage */
  readonly holds: boolean;
}

/**
 * @param capacitance  of all links it fills [F]
 * Range: constant power and current loads count as taken off the converter's power at its set voltage (cautious);
 *        below their knee they are resistors, which decides whether it gets past them
 * @returns undefined when the mode could not be solved
 */
export function converterFilling(car: Car, ask: Network, filling: Filling & { readonly path: ConverterPath }, capacitance: number, loads: LoadsWhileFilling): ConverterFilling | undefined {
  const { mode, path } = filling;
  const [link] = filling.links;
  const solved = ask.solve({ mode });
  if (solved.outcome !== 'solved' || !link) return undefined;
  const final = solved.voltageOf(path.positive) - solved.voltageOf(path.negative);
  const atLink = solved.voltageOf(link.positive) - solved.voltageOf(link.negative);
  const supply = supplyOf(ask, filling);
  if (!supply) return undefined;
  const { outputCurrent, outputPower, efficiency } = path.role;
  const setVoltage = commandedVoltage(car, mode, path) ?? path.role.outputVoltage;
  const powerLimit = outputPower - loads.power - loads.current * setVoltage;
  const currentLimit = outputCurrent;
  // what a load takes at its knee is the hump it must get over
  const atKnee = loads.current + (loads.power > 0 ? loads.power / loads.knee : 0);
  const stuckAt = atKnee >= currentLimit ? (currentLimit * loads.knee) / atKnee : powerLimit <= 0 ? loads.knee : undefined;
  const drain = ask.thevenin({ mode, withoutLoads: true }, link.positive, link.negative);
  const loadResistance = drain.outcome === 'solved' && drain.resistance > 0 && Math.abs(drain.voltage) < 1 ? drain.resistance : undefined;
  const converter = { setVoltage, currentLimit, powerLimit: Math.max(powerLimit, 1e-9), efficiency, supply: supply.voltage };
  const to = (voltage: number) => converterPrecharge(converter, capacitance, loadResistance, voltage);
  const endVoltage = Math.min(stuckAt ?? Infinity, Math.abs(final), setVoltage);
  const timeTo = (voltage: number): number | undefined => {
    if (voltage > endVoltage) return undefined;
    const reached = to(voltage);
    return reached.outcome === 'reached' ? reached.time : undefined;
  };
  return {
    endVoltage, polarity: atLink * final < 0 || atLink < 0 ? -1 : 1, supply, timeTo,
    voltageAt: (time) => voltageAfter(timeTo, endVoltage, time),
    currentAt: (voltage) => Math.min(currentLimit, voltage > 0 ? converter.powerLimit / voltage : currentLimit),
    supplyEnergyTo: (voltage) => {
      if (voltage > endVoltage) return undefined;
      const reached = to(voltage);
      return reached.outcome === 'reached' ? reached.supplyEnergy : undefined;
    },
  };
}

/** Time rises with voltage: halve the interval until it is a ten-thousandth. */
function voltageAfter(timeTo: (voltage: number) => number | undefined, end: number, time: number): number {
  const whole = timeTo(end);
  if (whole !== undefined && whole <= time) return end;
  let [low, high] = [0, end];
  for (let round = 0; round < 24; round++) {
    const middle = (low + high) / 2;
    const needed = timeTo(middle);
    if (needed !== undefined && needed <= time) low = middle;
    else high = middle;
  }
  return low;
}

/** What the mode tells it to charge to: the voltage of its element in the network [V]. */
function commandedVoltage(car: Car, mode: string, path: ConverterPath): number | undefined {
  const part = car.parts.get(path.part)!;
  const found = elementsOfParts(car, { mode }, [part]).find((element) => element.type === 'converter' && element.output[0] === path.positive && element.output[1] === path.negative);
  return found?.type === 'converter' && found.voltage > 0 ? found.voltage : undefined;
}

/** V = Vth - R P/V at full output: the higher of the two roots, or half the open voltage when there is none. */
function supplyOf(ask: Network, { mode, path }: Filling & { readonly path: ConverterPath }): ConverterSupply | undefined {
  const seen = ask.thevenin({ mode }, `${path.part}.${path.role.supplyPositive}`, `${path.part}.${path.role.supplyNegative}`);
  if (seen.outcome !== 'solved' || !(seen.voltage > 0)) return undefined;
  const power = Math.min(path.role.outputPower, path.role.outputCurrent * path.role.outputVoltage) / path.role.efficiency;
  const resistance = Math.max(0, seen.resistance);
  const discriminant = seen.voltage ** 2 - 4 * resistance * power;
  const voltage = discriminant < 0 ? seen.voltage / 2 : (seen.voltage + Math.sqrt(discriminant)) / 2;
  return { voltage, openVoltage: seen.voltage, resistance, current: power / voltage, holds: discriminant >= 0 };
}
