/**
 * Brings a network to rest: Newton's method for the smooth part, corner by corner for diodes, limits and loads below their
 * knee, and round by round for relays and converters, which switch only on a settled network.
 */
import { Position } from './branch-law.ts';
import { Law } from './compile-network.ts';
import { moveCorners, switchConverters, wakeLoads } from './corners.ts';
import type { NetworkSystem } from './network-system.ts';
import type { RestFailure } from './rest-result.ts';

export interface Budget { iterations: number; readonly most: number; readonly tolerance: number }

export type Settled = { readonly outcome: 'settled'; readonly coilsMoved: boolean } | RestFailure;

/** Corners crossed by less than this share of the largest value are rounding. */
const SLACK = 1e-9;
/** Relative changes below this are rounding once they stop falling … */
const ROUNDING = 1e-6;
/** … and below this when no row is further from balance than the rounding of its terms. */
const MOST_ROUNDING = 1e-2;
/** After a change smaller than this the factors at hand serve the next step, while each change is a tenth of the one before. */
const CHORD_BELOW = 0.1;
const CHORD_RATE = 0.1;
const ROUNDS = 200;
/** Positions that come back more often than this go in circles. */
const MOST_TIMES_SEEN = 2;
/** So many relative changes of this size at unmoved corners are no approach to anything. */
const WILD = 0.2;
const MOST_WILD = 8;
/** While relays and converters still move, a step smaller than this ends a round. */
const ROUGH_ROUND = 1e-3;
/** While loads fall in steps (`settleDamped`) each step need not be sharper than this. */
const ROUGH = 1e-5;

/** From nothing: loads wait until their open voltages are known, relays start as `coils` says. */
export function settleFromNothing(system: NetworkSystem, coils: Uint8Array, budget: Budget): Settled {
  system.x.fill(0);
  system.damping = 0;
  system.setStartPositions(coils);
  return settleRounds(system, coils, budget, ROUGH_ROUND);
}

/**
 * From where the system stands (unknowns and positions of a solution nearby); `coils` moves on with the relays.
 *
 * @param isForStill  only a solution in which no relay moves is wanted: given up, `coilsMoved`, when one wants to
 * @param rough  tolerance while relays and converters still move; what no longer moves is then settled to the budget's tolerance
 */
export function settleRounds(system: NetworkSystem, coils: Uint8Array, budget: Budget, rough = budget.tolerance, isForStill = false): Settled {
  const first = coils.slice();
  let seen: Set<string> | undefined;
  let oneByOne = false;
  let coilsMoved = false;
  const latchedOff = new Uint8Array(system.compiled.branchCount);
  const moves: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    if (system.loops.contradiction !== undefined) return { outcome: 'contradiction', elements: elementsOf(system, system.loops.contradiction) };
    if (!rouse(system, budget, rough) || !settleCorners(system, budget, rough)) return notConverged(system, budget);
    let switched = switchConverters(system, latchedOff), toMove = wantToMove(system, coils);
    if (!switched && toMove.length === 0 && rough > budget.tolerance) {
      if (!settleCorners(system, budget, budget.tolerance)) return notConverged(system, budget);
      switched = switchConverters(system, latchedOff);
      toMove = wantToMove(system, coils);
    }
    if (switched) continue;
    if (toMove.length === 0) return checkPins(system) ?? { outcome: 'settled', coilsMoved };
    coilsMoved = true;
    if (isForStill) return { outcome: 'settled', coilsMoved };
    seen ??= new Set([first.join('')]);
    for (const n of oneByOne ? toMove.slice(0, 1) : toMove) { coils[n] = 1 - coils[n]!; moves.push(n); }
    if (seen.has(coils.join(''))) {
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

function wantToMove(system: NetworkSystem, coils: Uint8Array): number[] {
  const wanting: number[] = [];
  for (let n = 0; n < coils.length; n++) { const demand = system.coilDemand(n); if (demand !== 2 && demand !== coils[n]) wanting.push(n); }
  return wanting;
}

/** Lets every load that is below its knee wait once more, so that the higher of two voltages is found where both exist. */
function rouse(system: NetworkSystem, budget: Budget, tolerance: number): boolean {
  const { compiled, positions, numbers, corners } = system;
  let waiting = false;
  for (let n = 0; n < corners.length; n++) {
    const k = corners[n]!;
    const law = compiled.law[k];
    if (law !== Law.power && law !== Law.draw) continue;
    if (positions[k] === Position.starved && numbers.amount[k]! > 0 && system.mayHaveRisen(k) && mayRise(system, k)) positions[k] = Position.waiting;
    if (positions[k] === Position.waiting) waiting = true;
  }
  if (!waiting) return true;
  if (!settleCorners(system, budget, tolerance)) return false;
  wakeLoads(system);
  return true;
}

/**
 * Whether a load below its knee could have a higher voltage too. Behind a source of E volts and R ohm that can give it its power,
 * R is at most E²/4P; as a resistor knee²/P it then shows at least r/(r²/4 + 1) of its knee, r = E/knee. What shows less has nothing behind it.
 */
function mayRise(system: NetworkSystem, k: number): boolean {
  const knee = system.numbers.knee[k]!;
  const most = system.mostVoltageAt(k);
  const ratio = Math.max(2, (2 * most) / knee);
  return most === 0 || Math.abs(system.voltageAcross(k)) / knee > (0.5 * ratio) / ((ratio * ratio) / 4 + 1);
}

function settleCorners(system: NetworkSystem, budget: Budget, tolerance: number): boolean {
  const { x, positions } = system.keepEntry();
  if (iterate(system, budget, false, 40, tolerance) || iterate(system, budget, true, 60, tolerance)) return true;
  const back = (): void => { system.x.set(x); system.positions.set(positions); };
  back();
  if (fall(system, budget)) return true;
  back();
  return iterate(system, budget, true, 60 + 6 * system.corners.length, tolerance) || fallFromOpen(system, budget);
}

function iterate(system: NetworkSystem, budget: Budget, oneAtATime: boolean, most: number, tolerance = budget.tolerance): boolean {
  system.pinIslands();
  let before = Infinity, keepFactors = false, wild = 0;
  let seen: Map<string, number> | undefined;
  for (let n = 0; n < most && budget.iterations < budget.most; n++) {
    budget.iterations++;
    const factored = system.work.factored;
    if (system.step(keepFactors) >= 0) return false;
    const change = system.lastChange;
    if (!Number.isFinite(change)) return false;
    const isChord = system.work.factored === factored;
    const rate = change / before;
    const still = change < tolerance || (isChord && rate < CHORD_RATE && change * rate < CHORD_RATE * tolerance)
      || (!isChord && change < ROUNDING && rate > 0.2) || (change < MOST_ROUNDING && n > 0 && rate > CHORD_RATE && system.startedAtRounding());
    keepFactors = change < CHORD_BELOW && (!isChord || rate < CHORD_RATE);
    if (change > WILD && before !== Infinity && ++wild > MOST_WILD) return false;
    before = change;
    if (oneAtATime && !still && change > 1e-6 && n % 25 !== 24) continue;
    if (moveCorners(system, oneAtATime, oneAtATime && n > most / 2 ? 100 * SLACK : SLACK) > 0) {
      if (isCircling((seen ??= new Map()), system)) return false;
      system.pinIslands();
      before = Infinity;
      keepFactors = false;
    } else if (still) return true;
  }
  return false;
}

/** Contacts stand still meanwhile: the corners alone say where. */
function isCircling(seen: Map<string, number>, { positions, corners }: NetworkSystem): boolean {
  let key = '';
  for (let n = 0; n < corners.length; n++) key += String.fromCharCode(65 + positions[corners[n]!]!);
  const times = (seen.get(key) ?? 0) + 1;
  seen.set(key, times);
  return times > MOST_TIMES_SEEN;
}

/** `fall` from the voltages that loads would have if none of them took anything. */
function fallFromOpen(system: NetworkSystem, budget: Budget): boolean {
  const { compiled, positions, numbers, corners } = system;
  for (let k = 0; k < system.x.length; k++) if (!Number.isFinite(system.x[k]!)) system.x[k] = 0;
  for (const k of corners) {
    const law = compiled.law[k];
    if ((law === Law.power || law === Law.draw) && numbers.amount[k]! > 0) positions[k] = Position.waiting;
    else if (law === Law.diode) positions[k] = Position.blocking;
    else if ((law === Law.supply || (law === Law.converterOut && positions[k + 1] !== Position.off)) && numbers.amount[k]! > 0) positions[k] = Position.regulating;
    else if (law === Law.converterIn && positions[k] === Position.starved) positions[k] = Position.regulating;
  }
  if (!iterate(system, budget, true, 60 + 6 * corners.length)) return false;
  wakeLoads(system);
  return fall(system, budget);
}

/**
 * The way out when positions go in circles: every load gets a conductance to the voltage it had a step ago, as a capacitor
 * would, and settles as the real thing would, falling to the lower voltage where the higher does not exist.
 */
function fall(system: NetworkSystem, budget: Budget): boolean {
  const { compiled, corners } = system;
  system.damping = 4;
  let done = false;
  for (let step = 0; step < 400 && budget.iterations < budget.most; step++) {
    let moved = 0;
    for (let k = 0; k < compiled.branchCount; k++) {
      const v = system.voltageAcross(k);
      moved = Math.max(moved, Math.abs(v - system.remembered[k]!) / (Math.abs(v) + 1e-3));
      system.remembered[k] = v;
    }
    if (step > 0 && moved < 1e-4) { done = true; break; }
    if (step > 0 && moved < 0.02) system.damping *= 0.5;
    if (!iterate(system, budget, false, 20, ROUGH) && !iterate(system, budget, true, 60, ROUGH)) break;
    // a converter whose input has fallen away switches off before anything else can come of it: see `switchConverters`
    if (corners.some((k) => compiled.law[k] === Law.converterIn && system.positions[k] === Position.starved)) { system.damping = 0; return true; }
  }
  system.damping = 0;
  return done && (iterate(system, budget, false, 20) || iterate(system, budget, true, 60 + 6 * corners.length));
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
  const branch = isLoad ? changing : worstLoad(system, worstRow < compiled.nodeCount ? worstRow : -1);
  const node = worstRow >= 0 && worstRow < compiled.nodeCount ? nameOf(worstRow) : branch >= 0 ? nameOf(compiled.branchA[branch]!) : nameOf(compiled.nodeCount > 0 ? 0 : -1);
  system.rows.write();
  const residual = new Float64Array(system.size);
  system.rows.residual(residual);
  let largest = 0;
  for (const r of residual) if (Math.abs(r) > largest) largest = Math.abs(r);
  return { outcome: 'not_converged', iterations: budget.iterations, residual: Number.isFinite(largest) ? largest : Number.MAX_VALUE, node, element: branch < 0 ? undefined : compiled.elementIds[compiled.branchElement[branch]!] };
}

/** The load that asks for most, as the likeliest reason: of those at the node, if there are any. */
function worstLoad(system: NetworkSystem, node: number): number {
  const { compiled, numbers } = system;
  let worst = system.lastMoved, most = 0, isThere = false;
  for (let k = 0; k < compiled.branchCount; k++) {
    if (compiled.law[k] !== Law.power) continue;
    const amount = Math.abs(numbers.amount[k]!), atNode = node >= 0 && (compiled.branchA[k] === node || compiled.branchB[k] === node);
    if (atNode === isThere ? amount > most : atNode) { most = amount; worst = k; isThere = atNode; }
  }
  return worst;
}

function elementsOf(system: NetworkSystem, branches: readonly number[]): string[] {
  return branches.map((k) => system.compiled.elementIds[system.compiled.branchElement[k]!]!);
}

