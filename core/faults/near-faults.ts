/**
 * One state of the car, solved once, and every fault in it as a neighbour of that solution: relays, limits, knees and loads of constant power are
 * followed until all of them stay, fuses that carry too much are opened one after the other, the worst first.
 *
 * The fault was there before the car was switched on: a relay is up when its coil has its pick-up voltage in the end; where that is close, or relays
 * buzz, all of them begin down. While a short circuit stands,
 * contacts stay as they are: the fuse is quicker. What does not come to rest here is left to a whole solve.
 * Checked: core/faults/near-faults.test.ts (against the whole solve of the faulty network)
 */
import { BLOWS, fusesAtRisk, isShort } from './blown-fuses.ts';
import { loadCurrent, Position } from '../solve/branch-law.ts';
import { moveCorners } from '../solve/corners.ts';
import { fits, Law, readBranch } from '../solve/compile-network.ts';
import type { Element, Network } from '../solve/element.ts';
import { NearSystem } from '../solve/near-system.ts';
import { settleFromNothing, settleRounds } from '../solve/settle.ts';
import { budgetOf, startingCoils } from '../solve/solve-at-rest.ts';
import type { FaultChange } from './fault-change.ts';

/** So many times its rating, and what else moves in the car does not matter to a fuse. */
const AT_ONCE = 4;
/** Shares of the largest current before the relays are up, and of that with them up. */
const MUCH = 0.3;
const LESS = 0.7;
/** A coil with less than this much of its pick-up voltage, where the car with nothing wrong gives it more. */
const LITTLE_TO_SPARE = 1.1;
/** Fuses that open one after the other. */
const MOST_FUSES = 6;
/** Steps for one neighbour; what needs more is solved in full. */
const MOST_STEPS = 120;

export interface NearFaults {
  readonly system: NearSystem;
  /**
   * Makes the car faulty and brings it to rest; the system then stands there until `mend`.
   * @param becomes  elements that have other numbers in the state at hand: what a unit does that hears nobody
   * @returns fuses that opened [elements]; `buzzes`: relays that take away their own voltage; undefined: it does not come to rest this way
   */
  readonly plant: (changes: readonly FaultChange[], becomes?: readonly Element[]) => readonly string[] | 'buzzes' | undefined;
  readonly mend: () => void;
  /** place of an element; -1: the network does not have it */
  readonly indexOf: (element: string) => number;
  /** [A] a to b where the system stands; NaN for an element that the network does not have */
  readonly current: (index: number) => number;
  /** whether a contact is closed where the system stands */
  readonly isClosed: (index: number) => boolean;
}

/**
 * @param fuses  ratings by element [A]
 * @param like   another state of the same car: its compiled form is shared where it fits
 * @returns undefined: the network has no answer, or none that neighbours can be found from
 */
export function nearFaults(network: Network, fuses: ReadonlyMap<string, number>, like?: NearSystem): NearFaults | undefined {
  const isAlike = like !== undefined && fits(like.compiled, network);
  const system = isAlike ? new NearSystem(network, like.compiled, like.lu.order) : new NearSystem(network);
  const { compiled, numbers } = system;
  const coils = startingCoils(system, undefined);
  if (settleFromNothing(system, coils, budgetOf(system, {})).outcome !== 'settled' || !system.stand(fuseBranches(system, fuses))) return undefined;
  const dropOut = numbers.dropOut.slice(), dropped = new Uint8Array(coils.length);
  numbers.dropOut.set(numbers.pickUp);
  const healthyCoils = Float64Array.from(coils, (_, n) => Math.abs(system.coilVoltage(n)));
  const kept = { resistance: numbers.resistance.slice(), voltage: numbers.voltage.slice(), amount: numbers.amount.slice(), knee: numbers.knee.slice(), efficiency: numbers.efficiency.slice(), idlePower: numbers.idlePower.slice(), powerLimit: numbers.powerLimit.slice(), closed: numbers.closed.slice(), conductance: numbers.conductance.slice() };
  /** paths that carry the current of an element elsewhere */
  const byElement = new Map<number, number>();
  const indexOf = (id: string): number => compiled.elementIndexOf.get(id) ?? -1;
  const rated = [...fuses].flatMap(([element, rating]) => { const e = indexOf(element), k = e < 0 ? -1 : compiled.elementBranch[e]!; return k < 0 ? [] : [{ element, k, rating }]; }).filter(({ k, rating }) => Math.abs(system.current(k)) < BLOWS * rating);
  const atRisk = fusesAtRisk(network);
  const nodeOf = (name: string): number => compiled.nodeIndexOf.get(name) ?? -1;
  const touchedForms: number[] = [];
  const path = (a: number, b: number, resistance: number): number => system.further.push({ a, b, resistance, current: 0 }) - 1;
  /** Another conductance of a resistor that has no current of its own. */
  const setConductance = (e: number, to: number): void => {
    const n = compiled.formIndex[e]!;
    const difference = to - numbers.conductance[n]!;
    if (difference === 0) return;
    path(compiled.elementA[e]!, compiled.elementB[e]!, 1 / difference);
    numbers.conductance[n] = to;
    touchedForms.push(n);
  };
  const touch = (k: number): void => { system.touched[k] = 1; };
  const open = (e: number): boolean => {
    const k = compiled.elementBranch[e]!;
    if (k < 0) { if (compiled.elementTypes[e] === 'current') return false; setConductance(e, 0); return true; }
    touch(k);
    switch (compiled.law[k]) {
      case Law.switched: system.positions[k] = Position.open; system.held[k] = 1; break;
      case Law.diode: system.positions[k] = Position.blocking; numbers.voltage[k] = Number.MAX_VALUE; break;
      case Law.power: case Law.draw: numbers.amount[k] = 0; break;
      case Law.supply: system.positions[k] = Position.off; numbers.amount[k] = 0; break;
      case Law.converterOut: system.positions[k] = system.positions[k + 1] = Position.off; numbers.amount[k] = 0; numbers.knee[k + 1] = Number.MAX_VALUE; touch(k + 1); break;
      default: system.opened[k] = 1;
    }
    return true;
  };
  const apply = (change: FaultChange): boolean => {
    if (change.is === 'joined') { path(nodeOf(change.a), nodeOf(change.b), change.resistance); return true; }
    const e = indexOf(change.element);
    const k = compiled.elementBranch[e]!, type = compiled.elementTypes[e]!;
    const [a, b] = [compiled.elementA[e]!, compiled.elementB[e]!];
    const insteadPath = (from: number, to: number, resistance: number): boolean => { if (!open(e)) return false; byElement.set(e, path(from, to, resistance)); return true; };
    const isContact = type === 'switch' || type === 'relay';
    switch (change.is) {
      case 'open':
      case 'stuck_open': return open(e);
      case 'stuck_closed':
        if (!isContact) return k < 0 ? true : insteadPath(a, b, numbers.resistance[k]!);
        touch(k); system.positions[k] = Position.closed; system.held[k] = 1;
        return true;
      case 'shorted':
        if (k < 0) { if (type === 'current') return false; if (change.resistance > 1e-3) setConductance(e, 1 / change.resistance); else return insteadPath(a, b, change.resistance); return true; }
        if (type === 'resistor') { touch(k); numbers.resistance[k] = change.resistance; return true; }
        return insteadPath(a, b, change.resistance);
      case 'resistive':
        if (k < 0) { if (type === 'current') return false; setConductance(e, 1 / (1 / numbers.conductance[compiled.formIndex[e]!]! + change.more)); return true; }
        touch(k); numbers.resistance[k]! += change.more;
        return true;
      case 'weak': if (k < 0) return false; touch(k); numbers.voltage[k] = change.voltage; return true;
      case 'moved': {
        if (type !== 'resistor' && type !== 'switch') return false;
        const isOpen = type === 'switch' && system.positions[k] !== Position.closed;
        const resistance = k < 0 ? 1 / numbers.conductance[compiled.formIndex[e]!]! : numbers.resistance[k]!;
        return isOpen ? open(e) : insteadPath(nodeOf(change.a), nodeOf(change.b), resistance);
      }
    }
  };
  /** The same element with other numbers. @returns false where it is another sort of element */
  const become = (element: Element): boolean => {
    const e = indexOf(element.id);
    if (e < 0 || compiled.elementTypes[e] !== element.type) return false;
    const k = compiled.elementBranch[e]!;
    if (k < 0) { if (element.type !== 'resistor') return false; setConductance(e, 1 / element.resistance); return true; }
    touch(k);
    readBranch(element, k, numbers);
    if (element.type === 'switch') system.positions[k] = element.closed ? Position.closed : Position.open;
    else if (element.type === 'power' || element.type === 'draw') system.positions[k] = Position.waiting;
    else if (element.type === 'supply') system.positions[k] = element.currentLimit > 0 ? Position.regulating : Position.off;
    else if (element.type === 'converter') { touch(k + 1); system.positions[k] = system.positions[k + 1] = Position.off; }
    return element.type !== 'relay';
  };
  /** Some relay is up with little to spare, and would perhaps not have come up: what helps it may only run because it is up. */
  const isClose = (): boolean => {
    for (let n = 0; n < coils.length; n++) {
      const volts = Math.abs(system.coilVoltage(n));
      if (system.coilDemand(n) === 1 && volts < LITTLE_TO_SPARE * numbers.pickUp[n]! && volts < 0.99 * healthyCoils[n]!) return true;
    }
    return false;
  };
  /** As the car is switched on with the fault in it: every relay begins down. */
  const fromRest = (): ReturnType<typeof settleRounds>['outcome'] => {
    system.restart();
    system.setContacts(dropped);
    numbers.dropOut.set(dropOut);
    const { outcome } = settleRounds(system, dropped.slice(), { iterations: 0, most: 2 * MOST_STEPS, tolerance: 1e-9 });
    numbers.dropOut.set(numbers.pickUp);
    return outcome;
  };
  let atRest: { readonly currents: Float64Array; readonly most: number } | undefined;
  /** Currents of the branches before any relay has come up. */
  const restCurrents = (): NonNullable<typeof atRest> => {
    if (atRest) return atRest;
    const currents = new Float64Array(compiled.branchCount);
    system.setContacts(dropped);
    system.isFrozen = true;
    if (settleRounds(system, dropped.slice(), { iterations: 0, most: MOST_STEPS, tolerance: 1e-9 }).outcome === 'settled') {
      system.complete();
      for (let k = 0; k < currents.length; k++) currents[k] = Math.abs(system.current(k));
    }
    system.stepBack();
    return (atRest = { currents, most: currents.reduce((most, current) => Math.max(most, current), 0) });
  };
  /** Whether a fault lies where much flows before the relays are up, and less with all of them up: then the car may not come so far. */
  const hindersStart = (changes: readonly FaultChange[]): boolean => changes.some((change) => {
    if (change.is !== 'open' && change.is !== 'resistive' && change.is !== 'stuck_open') return false;
    const e = indexOf(change.element), k = e < 0 ? -1 : compiled.elementBranch[e]!;
    if (k < 0) return false;
    const { currents, most } = restCurrents();
    return currents[k]! >= MUCH * most && Math.abs(system.current(k)) < LESS * currents[k]!;
  });
  const settle = (): ReturnType<typeof settleRounds>['outcome'] => settleRounds(system, coils.slice(), { iterations: 0, most: MOST_STEPS, tolerance: 1e-9 }).outcome;
  return {
    system,
    plant: (changes, becomes = []) => {
      const seen = new Map<string, FaultChange>();
      for (const change of changes) {
        if (change.is === 'joined') continue;
        const before = seen.get(change.element);
        if (before !== undefined && JSON.stringify(before) !== JSON.stringify(change)) return undefined;
        seen.set(change.element, change);
      }
      const isHindered = coils.length > 0 && hindersStart(changes);
      for (const element of becomes) if (!become(element)) return undefined;
      for (const change of changes) {
        if (change.is !== 'joined' && seen.get(change.element) !== change) continue;
        if (!apply(change)) return undefined;
      }
      system.keepStart();
      const blown: string[] = [];
      const opens = (from: number, mayOpen?: (fuse: string) => boolean): boolean => {
        let worst = -1, most = from;
        rated.forEach(({ element, k, rating }, index) => { if (system.opened[k] === 1 || mayOpen?.(element) === false) return; const load = Math.abs(system.current(k)) / rating; if (load >= most) { most = load; worst = index; } });
        if (worst < 0) return false;
        const { element } = rated[worst]!;
        open(indexOf(element));
        blown.push(element);
        return true;
      };
      const mayOpen = atRisk(changes);
      for (const isFrozen of changes.some(isShort) ? [true, false] : [false]) {
        system.isFrozen = isFrozen;
        // a short circuit of many times its rating opens a fuse before anything else has come to rest
        while (isFrozen && blown.length < MOST_FUSES) {
          if (system.step() >= 0) return undefined;
          moveCorners(system, false, 1e-9);
          if (system.step() >= 0) return undefined;
          if (!opens(AT_ONCE)) break;
          system.restart();
        }
        for (;;) {
          let outcome = settle();
          if (!isFrozen && (outcome === 'chatter' || isHindered || (outcome === 'settled' && isClose()))) outcome = fromRest();
          if (outcome !== 'settled') return outcome === 'chatter' ? 'buzzes' : undefined;
          if (!mayOpen || blown.length >= MOST_FUSES || !opens(BLOWS, mayOpen)) break;
        }
      }
      system.complete();
      return blown;
    },
    mend: () => {
      for (const k of system.touchedRows()) {
        numbers.resistance[k] = kept.resistance[k]!;
        numbers.voltage[k] = kept.voltage[k]!;
        numbers.amount[k] = kept.amount[k]!;
        numbers.knee[k] = kept.knee[k]!;
        numbers.efficiency[k] = kept.efficiency[k]!;
        numbers.idlePower[k] = kept.idlePower[k]!;
        numbers.powerLimit[k] = kept.powerLimit[k]!;
        numbers.closed[k] = kept.closed[k]!;
      }
      for (const n of touchedForms) numbers.conductance[n] = kept.conductance[n]!;
      touchedForms.length = 0;
      byElement.clear();
      system.stepBack();
    },
    indexOf,
    current: (e) => {
      if (e < 0) return NaN;
      const instead = byElement.size > 0 ? byElement.get(e) : undefined;
      if (instead !== undefined) return system.further[instead]!.current;
      const k = compiled.elementBranch[e]!;
      if (k < 0) return compiled.elementTypes[e] === 'current' ? numbers.injected[compiled.formIndex[e]!]! : numbers.conductance[compiled.formIndex[e]!]! * (system.voltageAt(compiled.elementA[e]!) - system.voltageAt(compiled.elementB[e]!));
      const law = compiled.law[k]!;
      if (law === Law.power || (law === Law.draw && system.positions[k] === Position.starved)) return loadCurrent(law, numbers.amount[k]!, numbers.knee[k]!, system.voltageAcross(k));
      return law === Law.converterOut ? -system.current(k) : system.current(k);
    },
    isClosed: (e) => { const k = e < 0 ? -1 : compiled.elementBranch[e]!; return k >= 0 && system.opened[k] === 0 && system.positions[k] === Position.closed; },
  };
}

/** Places of the currents of fuses among the unknowns. */
function fuseBranches({ compiled }: NearSystem, fuses: ReadonlyMap<string, number>): readonly number[] {
  return [...fuses.keys()].flatMap((element) => { const e = compiled.elementIndexOf.get(element), k = e === undefined ? -1 : compiled.elementBranch[e]!; return k < 0 ? [] : [compiled.nodeCount + k]; });
}
