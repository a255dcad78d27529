/**
 * The rows of one network's equations where it stands: matrix and right side, written anew only where something moved.
 *
 * Rows of resistors, contacts, diodes, supplies and current loads are the same wherever the unknowns are; they stand in the base
 * and are rewritten when their position or numbers change. Rows of loads of constant power, of converters and, in time, of
 * whatever stores energy are written at every step.
 */
import { emptyRows, writeRow } from './branch-law.ts';
import type { LawContext } from './branch-law.ts';
import { Law } from './compile-network.ts';
import type { Compiled, Numbers } from './compile-network.ts';
import type { SparseMatrix } from './sparse-matrix.ts';

/** [S]: ties one node of each loose island to 0 V; nothing flows through it unless a current source has no way back */
export const PIN = 1e-7;

/** What the rows are written from besides the numbers; the system's own arrays. */
export interface Standing { readonly x: Float64Array; readonly positions: Uint8Array; readonly pinned: Uint8Array; readonly context: LawContext }

export class NetworkRows {
  readonly matrix: SparseMatrix;
  readonly right: Float64Array;
  readonly #compiled: Compiled;
  readonly #numbers: Numbers;
  readonly #from: Standing;
  readonly #rows;
  readonly #factored;
  /** for whoever asks for one row without wanting the matrix to change */
  readonly #aside;
  readonly #base: Float64Array;
  readonly #baseRight: Float64Array;
  /** positions at which the standing rows are written */
  readonly #writtenAt: Uint8Array;
  #isWritten = false;
  #inTime = false;

  constructor(compiled: Compiled, numbers: Numbers, from: Standing) {
    this.#compiled = compiled;
    this.#numbers = numbers;
    this.#from = from;
    const { branchCount } = compiled;
    this.matrix = { ...compiled.pattern, values: new Float64Array(compiled.pattern.values.length) };
    this.right = new Float64Array(this.matrix.size);
    this.#rows = emptyRows(branchCount);
    this.#factored = emptyRows(branchCount);
    this.#aside = emptyRows(branchCount);
    this.#base = new Float64Array(this.matrix.values.length);
    this.#baseRight = new Float64Array(this.matrix.size);
    this.#writtenAt = new Uint8Array(branchCount);
  }

  /** Numbers, or which branches close ideal loops, have changed: everything is written anew. */
  renew(): void { this.#isWritten = false; }

  /**
   * Writes matrix and right side where the network stands.
   *
   * @returns whether the matrix may differ from the one kept by `keepAsFactored` in more than its moving rows
   */
  write(): boolean {
    const { x, positions, pinned, context } = this.#from;
    const { nodeCount, slots } = this.#compiled;
    let differs = false;
    if (!this.#isWritten || this.#inTime !== context.inTime) { this.#writeBase(); differs = true; }
    for (let n = 0; n < this.#compiled.switching.length; n++) {
      const k = this.#compiled.switching[n]!;
      if (positions[k] === this.#writtenAt[k]) continue;
      this.#writeStanding(k);
      differs = true;
    }
    const values = this.matrix.values, right = this.right;
    values.set(this.#base);
    right.set(this.#baseRight);
    for (let n = 0; n < nodeCount; n++) if (pinned[n] === 1) values[slots.nodeDiagonal[n]!]! += PIN;
    this.#writeMoving(this.#compiled.moving, x);
    if (context.inTime) this.#writeMoving(this.#compiled.stores, x);
    return differs;
  }

  /** right - matrix x at the rows last written. */
  residual(into: Float64Array): void {
    const { columnStart, rowIndex, values, size } = this.matrix;
    const x = this.#from.x;
    into.set(this.right);
    for (let c = 0; c < size; c++) {
      const xc = x[c]!;
      if (xc === 0) continue;
      for (let p = columnStart[c]!, end = columnStart[c + 1]!; p < end; p++) into[rowIndex[p]!]! -= values[p]! * xc;
    }
  }

  /**
   * Whether every row of `residual` is as small as the rounding of its own terms, or beneath notice beside the largest.
   * What only leaks decide is known no better than the currents beside it are rounded: then this says that there is no more to win.
   * Source: W. Oettli and W. Prager, Numerische Mathematik 6 (1964), the backward error by components (from memory)
   */
  isRounding(residual: Float64Array): boolean {
    const { columnStart, rowIndex, values, size } = this.matrix;
    const { nodeCount } = this.#compiled;
    const x = this.#from.x;
    const terms = new Float64Array(size), counts = new Uint16Array(size);
    let largestVoltage = 0, largestCurrent = 0;
    for (let c = 0; c < size; c++) {
      const xc = Math.abs(x[c]!);
      if (c < nodeCount) { if (xc > largestVoltage) largestVoltage = xc; } else if (xc > largestCurrent) largestCurrent = xc;
      for (let p = columnStart[c]!, end = columnStart[c + 1]!; p < end; p++) { terms[rowIndex[p]!]! += Math.abs(values[p]!) * xc; counts[rowIndex[p]!]!++; }
    }
    for (let r = 0; r < size; r++) {
      const least = 1e-3 * (r < nodeCount ? largestCurrent : largestVoltage);
      if (!(Math.abs(residual[r]!) <= 4 * (counts[r]! + 1) * Number.EPSILON * (terms[r]! + Math.abs(this.right[r]!) + least))) return false;
    }
    return true;
  }

  /** Row of branch k where the network stands. */
  rowOf(k: number): { alpha: number; beta: number; gamma: number; onOutputVoltage: number; onOutputCurrent: number } {
    const aside = this.#aside;
    this.#writeRow(k, this.#from.x, aside);
    return { alpha: aside.alpha[k]!, beta: aside.beta[k]!, gamma: aside.gamma[k]!, onOutputVoltage: aside.onOutputVoltage[k]!, onOutputCurrent: aside.onOutputCurrent[k]! };
  }

  /** Whether the moving rows are as they were when `keepAsFactored` was called. */
  areAsFactored(): boolean {
    return this.#same(this.#compiled.moving) && (!this.#from.context.inTime || this.#same(this.#compiled.stores));
  }
  keepAsFactored(): void {
    const { alpha, beta, onOutputVoltage, onOutputCurrent } = this.#rows;
    for (const list of [this.#compiled.moving, this.#compiled.stores]) {
      for (let n = 0; n < list.length; n++) {
        const k = list[n]!;
        this.#factored.alpha[k] = alpha[k]!;
        this.#factored.beta[k] = beta[k]!;
        this.#factored.onOutputVoltage[k] = onOutputVoltage[k]!;
        this.#factored.onOutputCurrent[k] = onOutputCurrent[k]!;
      }
    }
  }

  #same(list: Int32Array): boolean {
    const { alpha, beta, onOutputVoltage, onOutputCurrent } = this.#rows;
    const kept = this.#factored;
    for (let n = 0; n < list.length; n++) {
      const k = list[n]!;
      if (alpha[k] !== kept.alpha[k] || beta[k] !== kept.beta[k] || onOutputVoltage[k] !== kept.onOutputVoltage[k] || onOutputCurrent[k] !== kept.onOutputCurrent[k]) return false;
    }
    return true;
  }

  #writeMoving(list: Int32Array, x: Float64Array): void {
    const { nodeCount, slots, law } = this.#compiled;
    const values = this.matrix.values, right = this.right;
    const { alpha, beta, gamma, onOutputVoltage, onOutputCurrent } = this.#rows;
    for (let n = 0; n < list.length; n++) {
      const k = list[n]!;
      this.#writeRow(k, x, this.#rows);
      if (law[k] === Law.converterIn) {
        if (slots.outputA[k]! >= 0) values[slots.outputA[k]!]! += onOutputVoltage[k]!;
        if (slots.outputB[k]! >= 0) values[slots.outputB[k]!]! -= onOutputVoltage[k]!;
        values[slots.outputCurrent[k]!]! += onOutputCurrent[k]!;
      }
      if (slots.alphaA[k]! >= 0) values[slots.alphaA[k]!]! += alpha[k]!;
      if (slots.alphaB[k]! >= 0) values[slots.alphaB[k]!]! -= alpha[k]!;
      values[slots.beta[k]!]! += beta[k]!;
      right[nodeCount + k] = gamma[k]!;
    }
  }

  #writeRow(k: number, x: Float64Array, into: ReturnType<typeof emptyRows>): void {
    const { nodeCount, branchA, branchB, law } = this.#compiled;
    const { positions, context } = this.#from;
    const across = (n: number): number => { const a = branchA[n]!, b = branchB[n]!; return (a < 0 ? 0 : x[a]!) - (b < 0 ? 0 : x[b]!); };
    const onInput = law[k] === Law.converterIn;
    writeRow(k, across(k), this.#numbers, law[k]!, positions[k]!, context, into, onInput ? across(k - 1) : 0, onInput ? x[nodeCount + k - 1]! : 0);
  }

  #writeStanding(k: number): void {
    const { slots, nodeCount } = this.#compiled;
    const base = this.#base;
    this.#writeRow(k, this.#from.x, this.#rows);
    const alpha = this.#rows.alpha[k]!;
    if (slots.alphaA[k]! >= 0) base[slots.alphaA[k]!] = 0;
    if (slots.alphaB[k]! >= 0) base[slots.alphaB[k]!] = 0;
    if (slots.alphaA[k]! >= 0) base[slots.alphaA[k]!]! += alpha;
    if (slots.alphaB[k]! >= 0) base[slots.alphaB[k]!]! -= alpha;
    base[slots.beta[k]!] = this.#rows.beta[k]!;
    this.#baseRight[nodeCount + k] = this.#rows.gamma[k]!;
    this.#writtenAt[k] = this.#from.positions[k]!;
  }

  #writeBase(): void {
    const compiled = this.#compiled, numbers = this.#numbers;
    const { slots, law } = compiled;
    const base = this.#base, right = this.#baseRight;
    base.fill(0);
    right.fill(0);
    this.#inTime = this.#from.context.inTime;
    const { branchCount, nodeCount } = compiled;
    const { redundant } = this.#from.context;
    for (let k = 0; k < branchCount; k++) {
      const leaveA = slots.leaveA[k]!, leaveB = slots.leaveB[k]!, alphaA = slots.alphaA[k]!, alphaB = slots.alphaB[k]!;
      if (leaveA >= 0) base[leaveA]! += 1;
      if (leaveB >= 0) base[leaveB]! -= 1;
      if (law[k] === Law.resistive && redundant[k] === 0) {
        if (alphaA >= 0) base[alphaA]! += 1;
        if (alphaB >= 0) base[alphaB]! -= 1;
        base[slots.beta[k]!] = -numbers.resistance[k]!;
        right[nodeCount + k] = numbers.voltage[k]!;
        continue;
      }
      const isMoving = law[k] === Law.power || law[k] === Law.converterOut || law[k] === Law.converterIn || (this.#inTime && (law[k] === Law.capacitor || law[k] === Law.inductor));
      if (!isMoving) this.#writeStanding(k);
    }
    for (let n = 0; n < numbers.conductance.length; n++) {
      const g = numbers.conductance[n]!;
      for (let corner = 0; corner < 4; corner++) {
        const slot = slots.conductance[4 * n + corner]!;
        if (slot >= 0) base[slot]! += corner < 2 ? g : -g;
      }
    }
    for (let n = 0; n < compiled.injectionElements.length; n++) {
      const e = compiled.injectionElements[n]!;
      const a = compiled.elementA[e]!, b = compiled.elementB[e]!;
      if (a >= 0) right[a]! -= numbers.injected[n]!;
      if (b >= 0) right[b]! += numbers.injected[n]!;
    }
    this.#isWritten = true;
  }
}
