import { STATE_OF_POSITION } from './branch-law.ts';
import { Law } from './compile-network.ts';
import { converterWantsToSwitch, switchConverters, wakeLoads } from './corners.ts';
import type { Network } from './element.ts';
import { NetworkSystem } from './network-system.ts';
import { budgetOf, startingCoils } from './solve-at-rest.ts';
import { checkPins, settleFromNothing } from './settle.ts';
import { TimeRecord } from './time-record.ts';
import type { HappenedEvent, TimeFailure, TimeRequest, TimeResult } from './time-result.ts';
import { TimeStep } from './time-step.ts';

/** Shares of the duration: the step after a jump, and how closely the moment of a law's corner is looked for. */
const START_SHARE = 1e-8;
const CORNER_SHARE = 1e-4;
const LEAST_SHARE = 1e-13;
const LONGEST_SHARE = 0.1;
const MOST_AT_ONCE = 100;

interface Pending { readonly at: number; readonly coil: number; readonly branch: number; readonly id: string; readonly closed: boolean }

/**
 * Voltages and currents of a network as time runs: switches moved by a schedule, relays by their coils (after their operate and
 * release times), diodes, supplies and loads by their laws.
 *
 * Step length follows the error of what capacitors and inductors store; moments at which a relay's coil or a converter's input
 * crosses its threshold are found to 1e-8 of the duration, corners of laws to 1e-4 (less closely at a tolerance above 1e-6). Reported values between steps follow the
 * quadratic through the step's three points. Of ideal shorts side by side one carries all: their share is not decided in time.
 * @returns samples, integrals, events and the balance of charge and energy; or what failed, when and where
 * Errors:  throws if an event names no switch, a probe names nothing, or the network breaks a rule of element.ts
 * Checked: core/solve/solve-in-time.test.ts (closed forms), checks/reference/network-transient.spice.check.ts (other program)
 */
export function solveInTime(network: Network, request: TimeRequest): TimeResult {
  const { duration, tolerance = 1e-6, maxSteps = 200_000 } = request;
  if (!(duration > 0) || !Number.isFinite(duration)) throw new Error(`a duration must be > 0, got ${duration}`);
  const system = new NetworkSystem(network);
  const coils = startingCoils(system, undefined);
  const scheduled = scheduleOf(system, request);
  const stored = startStored(system, network, coils, request.from ?? 'initial');
  system.inTime = true;
  if (stored.settled) { coils.set(stored.coils); system.setContacts(coils); }
  else { system.setStartPositions(coils); }
  const step = new TimeStep(system);
  step.setStored(step.stores.map((k) => stored.of[k]!));

  const events: HappenedEvent[] = [];
  const startStep = duration * START_SHARE, cornerStep = duration * Math.min(1e-2, CORNER_SHARE * Math.max(1, tolerance / 1e-6));
  let time = 0, h = startStep, starting = true, steps = 0, atOnce = 0, lastJump = -1, nextScheduled = 0;
  let pending: Pending[] = [];
  const latched = new Uint8Array(system.compiled.branchCount);
  const fail = (): TimeFailure => failure(system, time, steps);

  // algebraic start: what the stored voltages and currents make of everything else, before anything moves
  system.pinIslands();
  if (system.loops.contradiction !== undefined) return contradiction(system, time, steps);
  step.standHere();
  if (!step.backward(startStep)) return fail();
  wakeLoads(system);
  system.forget();
  step.standHere();
  if (!step.backward(startStep)) return fail();
  step.standHere();
  const record = new TimeRecord(system, step, request);

  const moveContacts = (moves: { branch: number; closed: boolean; id: string; cause: HappenedEvent['cause'] }[]): void => {
    const real = moves.filter(({ branch, closed }) => (system.positions[branch] === 1) !== closed);
    if (real.length === 0) return;
    system.putContacts(real);
    for (const { id, closed, cause } of real) events.push({ time, element: id, to: closed ? 'closed' : 'open', cause });
    latched.fill(0);
    starting = true;
  };
  /** Lets coils that crossed their thresholds start their contacts moving; converters switch at once. */
  const react = (): void => {
    for (let n = 0; n < coils.length; n++) {
      const demand = system.coilDemand(n);
      if (demand === 2 || demand === coils[n]) continue;
      coils[n] = demand;
      pending = pending.filter(({ coil }) => coil !== n);
      for (const { branch, makes, id, operateTime, releaseTime } of system.compiled.coils[n]!.contacts) {
        pending.push({ at: time + (demand === 1 ? operateTime : releaseTime), coil: n, branch, id, closed: (demand === 1) === makes });
      }
    }
    pending.sort((p, q) => p.at - q.at);
    const before = system.positions.slice();
    if (switchConverters(system, latched)) {
      noteMoves(system, before, time, events);
      system.forget();
      starting = true;
    }
  };
  const due = (at: number): boolean => at <= time + startStep / 4;
  const happen = (): void => {
    const moves: Parameters<typeof moveContacts>[0] = [];
    while (nextScheduled < scheduled.length && due(scheduled[nextScheduled]!.at)) moves.push({ ...scheduled[nextScheduled++]!, cause: 'scheduled' });
    while (pending.length > 0 && due(pending[0]!.at)) moves.push({ ...pending.shift()!, cause: 'relay' });
    moveContacts(moves);
  };
  const wantsToSwitch = (): boolean => {
    for (let n = 0; n < coils.length; n++) { const demand = system.coilDemand(n); if (demand !== 2 && demand !== coils[n]) return true; }
    return converterWantsToSwitch(system, latched);
  };

  for (;;) {
    // everything that jumps here, jump after jump
    react();
    happen();
    if (system.loops.contradiction !== undefined) return contradiction(system, time, steps);
    if (starting) {
      atOnce = time - lastJump <= 4 * startStep ? atOnce + 1 : 0;
      lastJump = time;
      if (atOnce > MOST_AT_ONCE) return { outcome: 'chatter', time, relays: lastMovers(events), steps };
      system.pinIslands();
      step.standHere();
      h = startStep;
    }
    const lost = checkPins(system);
    if (lost !== undefined && !starting) return { ...lost, time, steps };
    if (time >= duration * (1 - 1e-12) || record.ended) break;
    const nextJump = Math.min(duration, scheduled[nextScheduled]?.at ?? Infinity, pending[0]?.at ?? Infinity);
    let taken = false;
    while (!taken) {
      if (++steps > maxSteps) return fail();
      let length = Math.min(h, nextJump - time);
      if (nextJump - time - length < 0.05 * length) length = nextJump - time;
      const settled = starting ? step.backward(length) : step.try(length, tolerance);
      const tooLong = settled && ((length > 2 * startStep && wantsToSwitch()) || (step.cornersMoved && length > cornerStep));
      if (!settled || tooLong || (step.error > 1 && length > LEAST_SHARE * duration)) {
        if (!settled && length <= LEAST_SHARE * duration) return fail();
        h = tooLong ? Math.max(length / 4, startStep) : settled ? length * Math.max(0.1, 0.9 * step.error ** (-1 / 3)) : length / 8;
        step.giveBack();
        continue;
      }
      if (step.cornersMoved) noteMoves(system, step.positionsAtStart, time + length, events);
      record.step(time, length, starting);
      step.take();
      time += length;
      if (Math.abs(nextJump - time) < startStep / 4) time = nextJump;
      if (!starting) { const grown = length * Math.min(8, 0.9 * Math.max(step.error, 1e-4) ** (-1 / 3)); h = length < h ? Math.max(h, grown) : grown; } else h = 2 * length;
      h = Math.min(h, LONGEST_SHARE * duration);
      starting = false;
      taken = true;
    }
  }
  return record.result(events, steps);
}

/** What capacitors and inductors hold at the start, by branch. */
function startStored(system: NetworkSystem, network: Network, coils: Uint8Array, from: 'initial' | 'rest'): { of: Float64Array; settled: boolean; coils: Uint8Array } {
  const { compiled } = system;
  const of = new Float64Array(compiled.branchCount);
  const stated = new Uint8Array(compiled.branchCount);
  let open = from === 'rest';
  network.elements.forEach((element, e) => {
    if (element.type !== 'capacitor' && element.type !== 'inductor') return;
    const k = compiled.elementBranch[e]!;
    if (from === 'initial' && element.initial !== undefined) { of[k] = element.initial; stated[k] = 1; } else open = true;
  });
  if (!open) return { of, settled: false, coils };
  const moving = coils.slice();
  if (settleFromNothing(system, moving, budgetOf(system, {})).outcome !== 'settled') return { of, settled: false, coils };
  for (let k = 0; k < compiled.branchCount; k++) {
    if (stated[k] === 1) continue;
    if (compiled.law[k] === Law.capacitor) of[k] = system.joined.together(compiled.branchA[k]!, compiled.branchB[k]!) ? system.voltageAcross(k) : 0;
    else if (compiled.law[k] === Law.inductor) of[k] = system.current(k);
  }
  return { of, settled: true, coils: moving };
}

function scheduleOf(system: NetworkSystem, { events = [], duration }: TimeRequest): { at: number; branch: number; id: string; closed: boolean }[] {
  return events.map(({ at, element, closed }) => {
    const e = system.compiled.elementIndexOf.get(element);
    if (e === undefined || system.compiled.elementTypes[e] !== 'switch') throw new Error(`an event needs a switch: ${element}`);
    if (!Number.isFinite(at) || at < 0) throw new Error(`an event needs a time >= 0: ${element} at ${at}`);
    return { at, branch: system.compiled.elementBranch[e]!, id: element, closed };
  }).filter(({ at }) => at <= duration).sort((p, q) => p.at - q.at);
}

function noteMoves(system: NetworkSystem, before: Uint8Array, time: number, events: HappenedEvent[]): void {
  const { compiled, positions } = system;
  for (let k = 0; k < positions.length; k++) {
    const from = STATE_OF_POSITION[before[k]!]!, to = STATE_OF_POSITION[positions[k]!]!;
    if (from === to || compiled.law[k] === Law.converterIn) continue;
    events.push({ time, element: compiled.elementIds[compiled.branchElement[k]!]!, to, cause: 'law' });
  }
}

function lastMovers(events: readonly HappenedEvent[]): string[] {
  return [...new Set(events.slice(-40).filter(({ cause }) => cause !== 'scheduled').map(({ element }) => element))].sort();
}

function failure(system: NetworkSystem, time: number, steps: number): TimeFailure {
  const { compiled, worstRow } = system;
  const branch = worstRow - compiled.nodeCount;
  const node = worstRow >= 0 && branch < 0 ? worstRow : branch >= 0 ? compiled.branchA[branch]! : -1;
  const moved = branch >= 0 ? branch : system.lastMoved;
  return { outcome: 'not_converged', time, node: node < 0 ? 'chassis' : compiled.nodeNames[node]!, element: moved < 0 ? undefined : compiled.elementIds[compiled.branchElement[moved]!], steps };
}

function contradiction(system: NetworkSystem, time: number, steps: number): TimeFailure {
  return { outcome: 'contradiction', time, elements: (system.loops.contradiction ?? []).map((k) => system.compiled.elementIds[system.compiled.branchElement[k]!]!), steps };
}
