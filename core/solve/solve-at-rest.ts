import type { Network } from './element.ts';
import { NetworkSystem } from './network-system.ts';
import type { RestResult, RestSolved } from './rest-result.ts';
import { restSolved } from './rest-solved.ts';
import { settleFromNothing, settleRounds } from './settle.ts';
import type { Budget, Settled } from './settle.ts';

/** What the relays were before: an earlier solution of the same car. */
export type RestStart = Pick<RestSolved, 'stateOf'>;

export interface RestOptions {
  /** relays between pick-up and drop-out keep what they were here; absent: `initiallyPickedUp` */
  readonly start?: RestStart;
  /** Newton steps in all; default 2000, for large networks less (about what 20 ms allow) */
  readonly maxIterations?: number;
  /** largest relative change of the last step; default 1e-9 (Newton's next error is its square) */
  readonly tolerance?: number;
}

/** A network compiled once, for many solves with the same elements and other numbers. */
export interface PreparedRest {
  /** the solution of the network it was prepared with */
  readonly result: RestResult;
  /**
   * Solves the same structure with other numbers, `closed` flags or initial relay states, starting from `result`: relays start
   * as they are there (unless an `initiallyPickedUp` was changed or `start` is given), so this is `solveAtRest(network, { start: result })`.
   * Does not depend on what was solved in between; a network of other structure is compiled anew and solved all the same.
   */
  solve(network: Network, start?: RestStart): RestResult;
}

/**
 * Voltages and currents of a network at rest.
 *
 * Capacitors are open, inductors are their resistance. Where a load has two possible voltages (it asks for constant power)
 * the higher is found. A load below its knee is solved as the resistor it is there and its state is `limiting`:
 * it does not get what it asks for. A converter that, running, would pull its input below its minimum is `off`.
 * Two ideal shorts side by side share equally.
 *
 * @param network  see element.ts
 * @returns voltages, currents, positions, loose islands and the balance of currents; or what could not be solved and where
 * Range:   diodes, supplies and converter outputs have at least 1e-6 ohm
 * Errors:  throws if the network breaks a rule of element.ts (double id, resistance < 0, number not finite)
 * Checked: core/solve/solve-at-rest.test.ts (closed forms), checks/reference/network-rest.spice.check.ts (other program)
 */
export function solveAtRest(network: Network, options: RestOptions = {}): RestResult {
  const system = new NetworkSystem(network);
  return solveSystem(system, startingCoils(system, options.start), options);
}

/** See `PreparedRest`. Errors: as `solveAtRest`. */
export function prepareRest(network: Network, options: RestOptions = {}): PreparedRest {
  const near = new NearbySolver(new NetworkSystem(network), options);
  const result = near.solve();
  return {
    result,
    solve: (other, start) => {
      if (!near.system.read(other)) return solveAtRest(other, start === undefined ? options : { ...options, start });
      return near.solve(start);
    },
  };
}

/**
 * Solves one system again and again with other numbers, each time from the first solution it found: what comes out does not depend
 * on what was solved in between.
 */
export class NearbySolver {
  readonly system: NetworkSystem;
  /** relay coils as they came to rest in the last solution */
  coils: Uint8Array;
  readonly #options: RestOptions;
  #base: { readonly x: Float64Array; readonly positions: Uint8Array; readonly coils: Uint8Array; readonly initial: Uint8Array } | undefined;

  constructor(system: NetworkSystem, options: RestOptions) {
    this.system = system;
    this.#options = options;
    this.coils = new Uint8Array(system.compiled.coils.length);
  }

  /** @param start  relays keep their states from it; absent: those of the options. The first solution is near when it started with the same. */
  solve(start?: RestStart): RestResult {
    const { system } = this;
    const effort = budgetOf(system, this.#options);
    const base = this.#base;
    const starting = startingCoils(system, start ?? this.#options.start);
    if (base !== undefined && starting.every((on, n) => on === base.initial[n])) {
      system.forget();
      system.lu.takeKeptPivots();
      system.x.set(base.x);
      system.positions.set(base.positions);
      this.coils = base.coils.slice();
      system.setContacts(this.coils);
      const warm = settleRounds(system, this.coils, effort, effort.tolerance, true);
      // where relays move, positions left over from before must not decide: from nothing, with the relays as they were
      if (warm.outcome === 'settled' && !warm.coilsMoved) return finish(system, warm, effort);
      this.coils = base.coils.slice();
    } else this.coils = starting.slice();
    system.forget();
    system.lu.takeKeptPivots();
    const settled = settleFromNothing(system, this.coils, effort);
    if (this.#isFirst && settled.outcome === 'settled') {
      system.lu.keepPivots();
      this.#base = { x: system.x.slice(), positions: system.positions.slice(), coils: this.coils.slice(), initial: starting };
    }
    this.#isFirst = false;
    return finish(system, settled, effort);
  }
  #isFirst = true;
}

/** Solves a system from nothing, its relay coils starting as `coils` says (it moves on with them). */
export function solveSystem(system: NetworkSystem, coils: Uint8Array, options: RestOptions): RestResult {
  const effort = budgetOf(system, options);
  return finish(system, settleFromNothing(system, coils, effort), effort);
}

function finish(system: NetworkSystem, settled: Settled, budget: Budget): RestResult {
  return settled.outcome === 'settled' ? restSolved(system, budget.iterations) : settled;
}

/** A step costs about 50 ns for each unknown. */
const STEPS_TIMES_UNKNOWNS = 270_000;

/** Effort allowed by the options. */
export function budgetOf(system: NetworkSystem, options: RestOptions): Budget {
  return { iterations: 0, most: options.maxIterations ?? Math.min(2000, Math.max(200, Math.round(STEPS_TIMES_UNKNOWNS / system.size))), tolerance: options.tolerance ?? 1e-9 };
}

/** Which coils start picked up. */
export function startingCoils(system: NetworkSystem, start: RestStart | undefined): Uint8Array {
  return system.numbers.pickedUp.map((initially, n) => {
    const contact = system.compiled.coils[n]!.contacts[0]!;
    return start === undefined ? initially : Number((start.stateOf(contact.id) === 'closed') === contact.makes);
  });
}
