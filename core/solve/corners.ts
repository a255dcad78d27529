/**
 * Corners of laws on a network at work: diodes, limits and loads at their knees, asked where they stand and moved.
 */
import { LEAST_INPUT, loadCurrent, inputCurrent, nextPosition, Position } from './branch-law.ts';
import { Law } from './compile-network.ts';
import type { NetworkSystem } from './network-system.ts';

/**
 * Moves corners to where the unknowns ask for.
 *
 * @param onlyFirst  moves one corner at most (the first in order), which cannot go in circles on passive networks
 * @param slack  share of the largest voltage (and a thousandth of it of the largest current) by which a corner must be crossed
 * @returns how many moved; `system.lastMoved` is one of them
 */
export function moveCorners(system: NetworkSystem, onlyFirst: boolean, slack: number): number {
  const { compiled, numbers, positions, corners } = system;
  if (corners.length === 0) return 0;
  const slackV = slack * Math.max(system.largestVoltage, 1e-3);
  const slackI = slack * 1e-3 * system.largestCurrent + 1e-12;
  const oneWay = system.oneWay();
  let moved = 0;
  for (let n = 0; n < corners.length; n++) {
    const k = corners[n]!;
    const law = compiled.law[k]!;
    const before = positions[k]!;
    if (law === Law.diode && oneWay[k] === 1) continue;
    if (law === Law.converterOut && positions[k + 1] === Position.off) continue;
    const after = nextPosition(k, system.voltageAcross(k), system.current(k), numbers, law, before, slackV, slackI);
    if (after === before) continue;
    positions[k] = after;
    system.lastMoved = k;
    moved++;
    if (onlyFirst) break;
  }
  return moved;
}

/** Whether no corner asks for another position where the unknowns stand; `except` is not asked. */
export function cornersHold(system: NetworkSystem, slack: number, except: number): boolean {
  const { compiled, numbers, positions, corners } = system;
  if (corners.length === 0) return true;
  const slackV = slack * Math.max(system.largestVoltage, 1e-3), slackI = slack * 1e-3 * system.largestCurrent + 1e-12;
  const oneWay = system.oneWay();
  for (let n = 0; n < corners.length; n++) {
    const k = corners[n]!;
    const law = compiled.law[k]!;
    if (k === except || (law === Law.diode && oneWay[k] === 1)) continue;
    if (law === Law.converterOut && positions[k + 1] === Position.off) continue;
    if (law === Law.converterIn && positions[k] === Position.off) {
      if (hasInput(system, k)) return false;
      continue;
    }
    // a diode left without current may have lost its way back: that is for a full solve to say
    if (law === Law.diode && positions[k] === Position.conducting && system.current(k) <= slackI) return false;
    if (nextPosition(k, system.voltageAcross(k), system.current(k), numbers, law, positions[k]!, slackV, slackI) !== positions[k]) return false;
  }
  return true;
}

/** Branches whose law is curved where it stands: Newton's method needs more than one step for them. */
export function curvedBranches(system: NetworkSystem): number[] {
  const { compiled, positions, numbers, corners } = system;
  const curved: number[] = [];
  for (let n = 0; n < corners.length; n++) {
    const k = corners[n]!;
    const law = compiled.law[k], position = positions[k];
    const isLoad = law === Law.power && numbers.amount[k] !== 0 && (position === Position.regulating || position === Position.reversed);
    if (isLoad || (law === Law.converterIn && position !== Position.off) || position === Position.powerLimiting) curved.push(k);
  }
  return curved;
}

/** Ends the waiting of loads: each starts as a load or, where its voltage is below its knee, as a resistor. */
export function wakeLoads(system: NetworkSystem): void {
  const { compiled, positions, numbers, corners } = system;
  for (const k of corners) {
    if (positions[k] !== Position.waiting) continue;
    const v = system.voltageAcross(k);
    positions[k] = Math.abs(v) < numbers.knee[k]! ? Position.starved : v < 0 ? Position.reversed : Position.regulating;
    if (compiled.law[k] === Law.draw && system.oneWay()[k] === 1) positions[k] = Position.starved;
  }
}

/**
 * Converters go on when their input is there and off when, running, they pull it below what they need; such a one stays
 * off until a relay moves (it would hiccup).
 */
export function switchConverters(system: NetworkSystem, latchedOff: Uint8Array): boolean {
  const { compiled, positions, numbers, corners } = system;
  let changed = false;
  for (let n = 0; n < corners.length; n++) {
    const k = corners[n]!;
    if (compiled.law[k] !== Law.converterIn) continue;
    if (positions[k] === Position.starved) {
      positions[k] = Position.off;
      positions[k - 1] = Position.off;
      latchedOff[k] = 1;
      changed = true;
    } else if (positions[k] === Position.off && latchedOff[k] === 0 && hasInput(system, k)) {
      positions[k] = Position.regulating;
      positions[k - 1] = numbers.amount[k - 1]! > 0 ? Position.regulating : Position.off;
      changed = true;
    }
  }
  return changed;
}

/** Whether a converter's input is there while it is off, or gone while it runs. */
export function converterWantsToSwitch(system: NetworkSystem, latchedOff: Uint8Array): boolean {
  const { compiled, positions, corners } = system;
  for (const k of corners) {
    if (compiled.law[k] !== Law.converterIn) continue;
    if (positions[k] === Position.starved || (positions[k] === Position.off && latchedOff[k] === 0 && hasInput(system, k))) return true;
  }
  return false;
}

/** Currents of all branches by their laws: loads from their voltage, all else as solved. */
export function branchCurrents(system: NetworkSystem): Float64Array {
  const { compiled, numbers, positions, corners } = system;
  const currents = system.x.slice(compiled.nodeCount);
  for (let n = 0; n < corners.length; n++) {
    const k = corners[n]!;
    const law = compiled.law[k]!;
    if (law === Law.power || (law === Law.draw && positions[k] === Position.starved)) currents[k] = loadCurrent(law, numbers.amount[k]!, numbers.knee[k]!, system.voltageAcross(k));
    else if (law === Law.converterIn && positions[k] !== Position.off) currents[k] = inputCurrent(k, numbers, system.voltageAcross(k), -system.voltageAcross(k - 1) * system.current(k - 1));
  }
  return currents;
}

/** Ids of converters that are off although their input is there. */
export function hiccups(system: NetworkSystem): readonly string[] {
  const { compiled, positions, corners } = system;
  let found: string[] | undefined;
  for (let n = 0; n < corners.length; n++) {
    const k = corners[n]!;
    if (compiled.law[k] === Law.converterIn && positions[k] === Position.off && hasInput(system, k)) (found ??= []).push(compiled.elementIds[compiled.branchElement[k]!]!);
  }
  return found ?? NONE;
}
const NONE: readonly string[] = [];

function hasInput(system: NetworkSystem, k: number): boolean {
  const { compiled, numbers, joined } = system;
  return system.voltageAcross(k) >= Math.max(numbers.knee[k]!, LEAST_INPUT) && joined.together(compiled.branchA[k]!, compiled.branchB[k]!);
}
