/**
 * The network of a car under assembly, put right by what the builder's meter read at each module: between two ends of one island the sum
 * of the readings counts in place of the voltages that the charge of the file makes. Leaks and the meter's own load stay as computed.
 */
import type { Car } from '../car/car.ts';
import { assemblyNetwork } from './assembly-network.ts';
import type { AssemblyNetwork, SharedSolves } from './assembly-network.ts';
import type { BatteryJoints } from './battery-joints.ts';
import { islandsOf } from './join-problem.ts';
import type { JoinProblem } from './join-problem.ts';

/** The battery with the voltage of each module as it is now, not full: read, or as the charge of the file makes it. */
export function presentProblem(car: Car, { problem, readings }: BatteryJoints, isByReadings = true): JoinProblem {
  return { ...problem, cells: problem.cells.map((cell, index) => { const { module, voltage } = readings[index]!; const part = car.parts.get(module)!; return { ...cell, voltage: (isByReadings ? voltage : undefined) ?? part.roles.cells!.series * part.cell!.voltage }; }) };
}

export function measuredNetwork(car: Car, battery: BatteryJoints, shared?: SharedSolves): AssemblyNetwork {
  const network = assemblyNetwork(car, [...battery.dead, ...battery.live], shared);
  if (battery.readings.every(({ voltage }) => voltage === undefined)) return network;
  const [read, computed] = [presentProblem(car, battery), presentProblem(car, battery, false)];
  const pieces = new Map(battery.terminals.map(({ point }, index) => [point, battery.problem.terminals[index]!.piece]));
  return {
    seen: network.seen,
    at: (made) => {
      const state = network.at(made);
      const has = (index: number): boolean => made.has(battery.live[index]!.name);
      const [byReadings, byCharge] = [islandsOf(read, has), islandsOf(computed, has)];
      return {
        solved: state.solved,
        meter: (a, b) => {
          const volts = state.meter(a, b);
          const [one, other] = [pieces.get(a), pieces.get(b)];
          if (volts === undefined || one === undefined || other === undefined || byReadings.islandOf(one) !== byReadings.islandOf(other)) return volts;
          return volts + byReadings.voltageOf(one) - byReadings.voltageOf(other) - (byCharge.voltageOf(one) - byCharge.voltageOf(other));
        },
      };
    },
  };
}
