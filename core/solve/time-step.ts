import { Law } from './compile-network.ts';
import { curvedBranches, moveCorners } from './corners.ts';
import type { NetworkSystem } from './network-system.ts';

/** Share of a step after which its middle point lies; this value lets both stages share one matrix. */
export const GAMMA = 2 - Math.SQRT2;
/** weights of the quadratic through start, middle and end, integrated over a step of 1 */
export const MIDDLE_WEIGHT = 1 / (6 * GAMMA * (1 - GAMMA));
export const END_WEIGHT = 1 / 2 - MIDDLE_WEIGHT * GAMMA;
export const START_WEIGHT = 1 - MIDDLE_WEIGHT - END_WEIGHT;

const C2 = (2 - GAMMA) / (1 - GAMMA), C1 = 1 / (GAMMA * (1 - GAMMA)), C0 = (1 - GAMMA) / GAMMA;
const ERROR_FACTOR = Math.abs((-3 * GAMMA * GAMMA + 4 * GAMMA - 2) / (12 * (2 - GAMMA))) * 2;
const STILL = 1e-9;
const ROUNDING = 1e-6;
const MOST = 40;

/**
 * One step in time of a network with capacitors and inductors, tried and then taken or given back.
 *
 * `backward` is the implicit Euler step, for starting after a jump (it asks nothing of the past but stored voltages and currents);
 * `try` is TR-BDF2: the trapezoidal rule to the middle point, then the two-step backward formula to the end. Both damp what is
 * faster than the step. Diodes, limits and knees move within a step until every one agrees with the law it follows there.
 * Source: R. E. Bank et al., IEEE Trans. Electron Devices 32 (1985); error constant after M. E. Hosea and L. F. Shampine,
 * Applied Numerical Mathematics 20 (1996) (both from memory)
 */
export class TimeStep {
  /** unknowns at the start, the middle and the end of the last step tried */
  readonly start: Float64Array;
  readonly middle: Float64Array;
  readonly end: Float64Array;
  /** branches that store energy */
  readonly stores: readonly number[];
  /** largest error of the last `try`, as a share of what is allowed */
  error = 0;
  /** whether any diode, limit or knee moved in the last step tried */
  cornersMoved = false;
  readonly #system: NetworkSystem;
  readonly #isInductor: boolean[];
  /** voltage of a capacitor, current of an inductor; and its current, its inner voltage */
  readonly #state: Float64Array;
  readonly #rate: Float64Array;
  readonly #middleRate: Float64Array;
  readonly #positions: Uint8Array;
  readonly #largest: Float64Array;
  #slopeTime = -1;
  /** relative change at which Newton's method has done its part: well below what a step may be wrong by */
  #still = STILL;
  #isCurved: boolean;

  constructor(system: NetworkSystem) {
    this.#system = system;
    const { compiled, numbers } = system;
    const stores: number[] = [];
    for (let k = 0; k < compiled.branchCount; k++) if ((compiled.law[k] === Law.capacitor || compiled.law[k] === Law.inductor) && numbers.amount[k]! > 0) stores.push(k);
    this.stores = stores;
    this.#isInductor = stores.map((k) => compiled.law[k] === Law.inductor);
    this.#state = new Float64Array(stores.length);
    this.#rate = new Float64Array(stores.length);
    this.#middleRate = new Float64Array(stores.length);
    this.#largest = new Float64Array(stores.length);
    this.start = system.x.slice();
    this.middle = system.x.slice();
    this.end = system.x.slice();
    this.#positions = system.positions.slice();
    this.#isCurved = curvedBranches(system).length > 0;
  }

  /** Sets what is stored (volts of capacitors, amperes of inductors), in the order of `stores`. */
  setStored(stored: ArrayLike<number>): void { for (let n = 0; n < this.stores.length; n++) { this.#state[n] = stored[n]!; this.#largest[n] = Math.max(this.#largest[n]!, Math.abs(stored[n]!)); } }
  /** positions at the start of the step */
  get positionsAtStart(): Uint8Array { return this.#positions; }
  stored(n: number): number { return this.#state[n]!; }
  largest(n: number): number { return this.#largest[n]!; }
  storedEnergy(): number { let sum = 0; this.stores.forEach((k, n) => { sum += 0.5 * this.#system.numbers.amount[k]! * this.#state[n]! ** 2; }); return sum; }

  /** Takes the present unknowns and positions as the start of the next step (after contacts or converters were moved). */
  standHere(): void {
    this.start.set(this.#system.x);
    this.#positions.set(this.#system.positions);
    this.#isCurved = curvedBranches(this.#system).length > 0;
  }

  /** Implicit Euler over h. @returns false if it did not settle */
  backward(h: number): boolean {
    const { slope, offset, numbers } = this.#system;
    for (let n = 0; n < this.stores.length; n++) {
      const k = this.stores[n]!, amount = numbers.amount[k]!;
      if (this.#isInductor[n]) { slope[k] = amount / h; offset[k] = -slope[k]! * this.#state[n]!; }
      else { slope[k] = h / amount; offset[k] = this.#state[n]!; }
    }
    this.#useSlope(h);
    this.#still = STILL;
    this.error = 0;
    const settled = this.#settle();
    this.middle.set(this.#system.x);
    this.end.set(this.#system.x);
    this.#seeCorners();
    return settled;
  }

  /** TR-BDF2 over h. @returns false if it did not settle; else `error` says whether to take it */
  try(h: number, tolerance: number): boolean {
    const system = this.#system;
    const { slope, offset, numbers } = system;
    const part = GAMMA * h / 2;
    this.#still = Math.max(STILL, 1e-2 * tolerance);
    for (let n = 0; n < this.stores.length; n++) {
      const k = this.stores[n]!, amount = numbers.amount[k]!;
      if (this.#isInductor[n]) { slope[k] = amount / part; offset[k] = -slope[k]! * this.#state[n]! - this.#rate[n]!; }
      else { slope[k] = part / amount; offset[k] = this.#state[n]! + slope[k]! * this.#rate[n]!; }
    }
    this.#useSlope(part);
    if (!this.#settle()) return false;
    this.middle.set(system.x);
    for (let n = 0; n < this.stores.length; n++) {
      const k = this.stores[n]!, amount = numbers.amount[k]!;
      const middle = this.#stateIn(n);
      this.#middleRate[n] = this.#rateIn(n);
      if (this.#isInductor[n]) offset[k] = -(amount / h) * (C1 * middle - C0 * this.#state[n]!);
      else offset[k] = (C1 * middle - C0 * this.#state[n]!) / C2;
    }
    if (!this.#settle()) return false;
    this.end.set(system.x);
    this.#seeCorners();
    let error = 0;
    for (let n = 0; n < this.stores.length; n++) {
      const amount = numbers.amount[this.stores[n]!]!;
      const curve = this.#rate[n]! / GAMMA - this.#middleRate[n]! * C1 + this.#rateIn(n) / (1 - GAMMA);
      const state = Math.abs(this.#stateIn(n));
      const floor = 1e-2 * (this.#isInductor[n] ? Math.max(system.largestCurrent, 1e-3) : Math.max(system.largestVoltage, 1e-2));
      const size = Math.max(this.#largest[n]!, state, floor);
      error = Math.max(error, (ERROR_FACTOR * h * Math.abs(curve)) / amount / (tolerance * size));
    }
    this.error = error;
    return Number.isFinite(error);
  }

  /** The step counts: its end is the new start. */
  take(): void {
    for (let n = 0; n < this.stores.length; n++) {
      this.#state[n] = this.#stateIn(n);
      this.#rate[n] = this.#rateIn(n);
      this.#largest[n] = Math.max(this.#largest[n]!, Math.abs(this.#state[n]!));
    }
    this.standHere();
  }

  /** The step does not count: all is as at its start. */
  giveBack(): void {
    const system = this.#system;
    system.x.set(this.start);
    for (let k = 0; k < this.#positions.length; k++) {
      if (system.positions[k] === this.#positions[k]) continue;
      system.positions.set(this.#positions);
      system.forget();
      break;
    }
    system.pinIslands();
  }

  #stateIn(n: number): number {
    const k = this.stores[n]!;
    return this.#isInductor[n] ? this.#system.current(k) : this.#system.voltageAcross(k);
  }
  #rateIn(n: number): number {
    const k = this.stores[n]!;
    return this.#isInductor[n] ? this.#system.voltageAcross(k) - this.#system.numbers.resistance[k]! * this.#system.current(k) : this.#system.current(k);
  }

  #useSlope(time: number): void {
    if (Math.abs(time - this.#slopeTime) > 1e-12 * time) this.#system.forget();
    this.#slopeTime = time;
  }

  #seeCorners(): void {
    this.cornersMoved = false;
    const positions = this.#system.positions;
    for (let k = 0; k < positions.length; k++) if (positions[k] !== this.#positions[k]) { this.cornersMoved = true; return; }
  }

  #settle(): boolean {
    const system = this.#system;
    let before = Infinity;
    for (let n = 0; n < MOST; n++) {
      // with nothing curved the matrix alone says when it must change; curved laws keep it for a few steps first
      if (system.step(this.#isCurved && n < 3) >= 0 || !Number.isFinite(system.lastChange)) return false;
      if (moveCorners(system, n > 20, STILL) > 0) { system.forget(); system.pinIslands(); this.#isCurved = curvedBranches(system).length > 0; before = Infinity; continue; }
      if (!this.#isCurved || system.lastChange < this.#still || (system.lastChange < ROUNDING && system.lastChange > 0.5 * before && n > 3)) return true;
      before = system.lastChange;
    }
    return false;
  }
}
