/**
 * Brings a network to rest: Newton's method for the smooth part, corner by corner for diodes, limits and loads below their
 * knee, and round by round for relays and converters, which switch only on a settled network.
 */
import { LEAST_INPUT, Position } from './branch-law.ts';
import { Law } from './compile-network.ts';
import type { NetworkSystem } from './network-system.ts';
import type { RestFailure } from './rest-result.ts';

export interface Budget { iterations: number; readonly most: number; readonly tolerance: number }

export type Settled = { readonly outcome: 'settled'; readonly coilsMoved: boolean } | RestFailure;

/** Corners crossed by less than this share of the largest value are rounding. */
const SLACK = 1e-9;
/** Relative changes below this are rounding once they stop falling. */
const ROUNDING = 1e-6;
const ROUNDS = 200;

/** From nothing: loads wait until their open voltages are known, relays start as `coils` says. */
export function settleFromNothing(system: NetworkSystem, coils: Uint8Array, budget: Budget): Settled {
  system.x.fill(0);
  system.damping = 0;
  system.setStartPositions(coils);
  return settleRounds(system, coils, budget);
}

/** From where the system stands (unknowns and positions of a solution nearby); `coils` moves on with the relays. */
export function settleRounds(system: NetworkSystem, coils: Uint8Array, budget: Budget): Settled {
  const first = coils.slice();
  const seen = new Set<string>();
  let oneByOne = false;
  let coilsMoved = false;
  const latchedOff = new Uint8Array(system.compiled.branchCount);
  const moves: number[] = [];
  seen.add(coils.join(''));
  for (let round = 0; round < ROUNDS; round++) {
    if (system.loops.contradiction !== undefined) return { outcome: 'contradiction', elements: elementsOf(system, system.loops.contradiction) };
    if (!rouse(system, budget) || !settleCorners(system, budget)) return notConverged(system, budget);
    if (switchConverters(system, latchedOff)) continue;
    const moving = coils.map((on, n) => { const demand = system.coilDemand(n); return demand === 2 || demand === on ? 0 : 1; });
    const toMove = [...moving.keys()].filter((n) => moving[n] === 1);
    if (toMove.length === 0) return checkPins(system) ?? { outcome: 'settled', coilsMoved };
    coilsMoved = true;
    for (const n of oneByOne ? toMove.slice(0, 1) : toMove) { coils[n] = 1 - coils[n]!; moves.push(n); }
    const key = coils.join('');
    if (seen.has(key)) {
      if (oneByOne) return { outcome: 'chatter', relays: chattering(system, moves, coils), iterations: budget.iterations };
      // relays that race each other may still come to rest when they move one at a time
      oneByOne = true;
      seen.clear();
      coils.set(first);
      moves.length = 0;
    }
    seen.add(coils.join(''));
    system.setContacts(coils);
    latchedOff.fill(0);
  }
  return { outcome: 'chatter', relays: chattering(system, moves, coils), iterations: budget.iterations };
}

/** Lets every load that is below its knee wait once more, so that the higher of two voltages is found where both exist. */
function rouse(system: NetworkSystem, budget: Budget): boolean {
  const { compiled, positions, numbers } = system;
  let waiting = false;
  for (let k = 0; k < compiled.branchCount; k++) {
    const law = compiled.law[k];
    if (law !== Law.power && law !== Law.draw) continue;
    if (positions[k] === Position.starved && numbers.amount[k]! > 0 && mayRise(system, k)) positions[k] = Position.waiting;
    if (positions[k] === Position.waiting) waiting = true;
  }
  if (!waiting) return true;
  if (!settleCorners(system, budget)) return false;
  system.wakeLoads();
  return true;
}

/**
 * Whether a load below its knee could have a higher voltage too. Behind a source of E volts and R ohm that can give it its power,
 * R is at most E²/4P; as a resistor knee²/P it then shows at least r/(r²/4 + 1) of its knee, r = E/knee. What shows less has nothing behind it.
 */
function mayRise(system: NetworkSystem, k: number): boolean {
  const knee = system.numbers.knee[k]!;
  const ratio = Math.max(2, (2 * system.largestVoltage) / knee);
  return system.largestVoltage === 0 || Math.abs(system.voltageAcross(k)) / knee > (0.5 * ratio) / ((ratio * ratio) / 4 + 1);
}

function settleCorners(system: NetworkSystem, budget: Budget): boolean {
  if (iterate(system, budget, false, 40)) return true;
  if (iterate(system, budget, true, 60 + 6 * system.compiled.branchCount)) return true;
  return settleDamped(system, budget);
}

function iterate(system: NetworkSystem, budget: Budget, oneAtATime: boolean, most: number): boolean {
  system.pinIslands();
  let before = Infinity;
  for (let n = 0; n < most && budget.iterations < budget.most; n++) {
    budget.iterations++;
    if (system.step() >= 0) return false;
    if (!Number.isFinite(system.lastChange)) return false;
    // a small change that no longer shrinks is rounding: what leaks alone decide is not known better beside large currents
    const still = system.lastChange < budget.tolerance || (system.lastChange < ROUNDING && system.lastChange > 0.2 * before);
    before = system.lastChange;
    if (oneAtATime && !still && system.lastChange > 1e-6 && n % 25 !== 24) continue;
    if (system.moveCorners(oneAtATime, oneAtATime && n > most / 2 ? 100 * SLACK : SLACK) > 0) system.pinIslands();
    else if (still) return true;
  }
  return false;
}

/**
 * The way out when positions go in circles: every load gets a conductance to the voltage it had a step ago, as a capacitor
 * would, and settles as the real thing would, falling to the lower voltage where the higher does not exist.
 */
function settleDamped(system: NetworkSystem, budget: Budget): boolean {
  const { compiled, positions, numbers } = system;
  for (let k = 0; k < system.x.length; k++) if (!Number.isFinite(system.x[k]!)) system.x[k] = 0;
  for (let k = 0; k < compiled.branchCount; k++) {
    const law = compiled.law[k];
    if ((law === Law.power || law === Law.draw) && numbers.amount[k]! > 0) positions[k] = Position.waiting;
    else if (law === Law.diode) positions[k] = Position.blocking;
    else if (law === Law.supply && numbers.amount[k]! > 0) positions[k] = Position.regulating;
  }
  if (!iterate(system, budget, true, 60 + 6 * compiled.branchCount)) return false;
  const isWaiting = positions.some((position) => position === Position.waiting);
  if (isWaiting) system.wakeLoads();
  system.damping = 4;
  let done = false;
  for (let step = 0; step < 400 && budget.iterations < budget.most; step++) {
    let moved = 0;
    for (let k = 0; k < compiled.branchCount; k++) {
      const v = system.voltageAcross(k);
      moved = Math.max(moved, Math.abs(v - system.remembered[k]!) / (Math.abs(v) + 1e-3));
      system.remembered[k] = v;
    }
    if (step > 0 && moved < 0.02) system.damping *= moved < 1e-6 ? 0.1 : 0.5;
    if (!iterate(system, budget, false, 20) && !iterate(system, budget, true, 60)) break;
    if (system.damping < 1e-6) { done = true; break; }
  }
  system.damping = 0;
  return done && (iterate(system, budget, false, 20) || iterate(system, budget, true, 60 + 6 * compiled.branchCount));
}

/**
 * Converters go on when their input is there and off when, running, they pull it below what they need; such a one stays
 * off until a relay moves (it would hiccup).
 */
export function switchConverters(system: NetworkSystem, latchedOff: Uint8Array): boolean {
  const { compiled, positions, numbers } = system;
  let changed = false;
  for (let k = 0; k < compiled.branchCount; k++) {
    if (compiled.law[k] !== Law.converterIn) continue;
    if (positions[k] === Position.starved) {
      positions[k] = Position.off;
      positions[k - 1] = Position.off;
      latchedOff[k] = 1;
      changed = true;
    } else if (positions[k] === Position.off && latchedOff[k] === 0) {
      const a = compiled.branchA[k]!, b = compiled.branchB[k]!;
      if (!system.joined.together(a, b) || system.voltageAcross(k) < Math.max(numbers.knee[k]!, LEAST_INPUT)) continue;
      positions[k] = Position.regulating;
      positions[k - 1] = numbers.amount[k - 1]! > 0 ? Position.regulating : Position.off;
      changed = true;
    }
  }
  return changed;
}

function chattering(system: NetworkSystem, moves: readonly number[], coils: Uint8Array): string[] {
  const last = new Set(moves.slice(-2 * coils.length));
  return system.compiled.coils.flatMap((group, n) => (last.has(n) ? group.contacts.map(({ id }) => id) : []));
}

/** A current source (or a supply at its limit) that drives current into an island with no way back. */
export function checkPins(system: NetworkSystem): Extract<RestFailure, { outcome: 'contradiction' }> | undefined {
  const { current, node } = system.worstPin();
  if (current <= 1e-9 * system.largestCurrent + 1e-9) return undefined;
  const { compiled, joined, positions } = system;
  const crosses = (a: number, b: number): boolean => joined.together(a, node) !== joined.together(b, node);
  const elements: string[] = [];
  compiled.injectionElements.forEach((e, n) => { if (system.numbers.injected[n] !== 0 && crosses(compiled.elementA[e]!, compiled.elementB[e]!)) elements.push(compiled.elementIds[e]!); });
  for (let k = 0; k < compiled.branchCount; k++) {
    const setsCurrent = positions[k] === Position.limiting || (compiled.law[k] === Law.draw && positions[k] !== Position.starved);
    if (setsCurrent && crosses(compiled.branchA[k]!, compiled.branchB[k]!)) elements.push(compiled.elementIds[compiled.branchElement[k]!]!);
  }
  return { outcome: 'contradiction', elements };
}

function notConverged(system: NetworkSystem, budget: Budget): RestFailure {
  const { compiled, worstRow } = system;
  const nameOf = (node: number): string => (node < 0 ? 'chassis' : compiled.nodeNames[node]!);
  const changing = worstRow - compiled.nodeCount;
  const isLoad = changing >= 0 && (compiled.law[changing] === Law.power || compiled.law[changing] === Law.converterIn);
  const branch = isLoad ? changing : worstLoad(system);
  const node = worstRow >= 0 && worstRow < compiled.nodeCount ? nameOf(worstRow) : branch >= 0 ? nameOf(compiled.branchA[branch]!) : nameOf(compiled.nodeCount > 0 ? 0 : -1);
  system.assemble();
  const residual = new Float64Array(system.size);
  system.residual(residual);
  let largest = 0;
  for (const r of residual) if (Math.abs(r) > largest) largest = Math.abs(r);
  return { outcome: 'not_converged', iterations: budget.iterations, residual: Number.isFinite(largest) ? largest : Number.MAX_VALUE, node, element: branch < 0 ? undefined : compiled.elementIds[compiled.branchElement[branch]!] };
}

/** The load that asks for most, as the likeliest reason. */
function worstLoad(system: NetworkSystem): number {
  const { compiled, numbers } = system;
  let worst = system.lastMoved, most = 0;
  for (let k = 0; k < compiled.branchCount; k++) {
    if (compiled.law[k] === Law.power && numbers.amount[k]! > most) { most = numbers.amount[k]!; worst = k; }
  }
  return worst;
}

function elementsOf(system: NetworkSystem, branches: readonly number[]): string[] {
  return branches.map((k) => system.compiled.elementIds[system.compiled.branchElement[k]!]!);
}

