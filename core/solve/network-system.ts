/**
 * The equations of one network at work: numbers, positions, unknowns, factors. Both the solver at rest and the one in time
 * drive it; it knows neither iteration nor time.
 */
import { emptyRows, loadCurrent, inputCurrent, LEAST_INPUT, nextPosition, Position, tiesVoltages, writeRow } from './branch-law.ts';
import { compileNetwork, emptyNumbers, Law, readNumbers } from './compile-network.ts';
import type { Compiled, Numbers } from './compile-network.ts';
import type { Network } from './element.ts';
import { idealLoops } from './ideal-loops.ts';
import type { IdealBranch, IdealLoops } from './ideal-loops.ts';
import { bridges, Joined } from './islands.ts';
import type { EliminationOrder } from './markowitz-order.ts';
import { SparseLu } from './sparse-lu.ts';
import type { SparseMatrix } from './sparse-matrix.ts';

/** [S]: ties one node of each loose island to 0 V; nothing flows through it unless a current source has no way back */
export const PIN = 1e-7;

export class NetworkSystem {
  readonly compiled: Compiled;
  readonly numbers: Numbers;
  readonly size: number;
  /** node voltages, then branch currents */
  readonly x: Float64Array;
  readonly positions: Uint8Array;
  readonly matrix: SparseMatrix;
  readonly right: Float64Array;
  readonly lu: SparseLu;
  readonly joined: Joined;
  /** 1 where a node is pinned */
  readonly pinned: Uint8Array;
  readonly redundant: Uint8Array;
  readonly slope: Float64Array;
  readonly offset: Float64Array;
  readonly remembered: Float64Array;
  /** branches that can never carry current in the present switch positions (nothing leads back) */
  #oneWay: Uint8Array | undefined;
  inTime = false;
  damping = 0;
  loops: IdealLoops = { redundant: [], loops: [], contradiction: undefined };
  /** largest voltage and current of the last step, for judging what is small */
  largestVoltage = 0;
  largestCurrent = 0;
  /** largest relative change of the last step */
  lastChange = Infinity;
  /** row of the largest change */
  worstRow = -1;
  readonly #rows;
  readonly #factoredRows;
  readonly #base: Float64Array;
  readonly #injections: Float64Array;
  readonly #step: Float64Array;
  readonly #context;
  #factored = false;
  /** contacts for which `#oneWay` was found */
  readonly #contactsAt: Uint8Array;
  #baseChanged = true;
  readonly #hasCorners: number[] = [];

  constructor(network: Network, compiled = compileNetwork(network), order?: EliminationOrder) {
    this.compiled = compiled;
    this.numbers = emptyNumbers(compiled);
    const { nodeCount, branchCount } = compiled;
    this.size = nodeCount + branchCount;
    this.x = new Float64Array(this.size);
    this.positions = new Uint8Array(branchCount);
    this.matrix = { ...compiled.pattern, values: new Float64Array(compiled.pattern.values.length) };
    this.right = new Float64Array(this.size);
    this.lu = new SparseLu(this.size, order);
    this.joined = new Joined(nodeCount);
    this.pinned = new Uint8Array(nodeCount);
    this.redundant = new Uint8Array(branchCount);
    this.slope = new Float64Array(branchCount);
    this.offset = new Float64Array(branchCount);
    this.remembered = new Float64Array(branchCount);
    this.#contactsAt = new Uint8Array(branchCount);
    this.#rows = emptyRows(branchCount);
    this.#factoredRows = emptyRows(branchCount);
    this.#base = new Float64Array(this.matrix.values.length);
    this.#injections = new Float64Array(nodeCount);
    this.#step = new Float64Array(this.size);
    this.#context = { redundant: this.redundant, inTime: false, slope: this.slope, offset: this.offset, damping: 0, remembered: this.remembered };
    for (let k = 0; k < branchCount; k++) {
      const law = compiled.law[k]!;
      if (law === Law.diode || law === Law.supply || law === Law.converterOut || law === Law.power || law === Law.draw || law === Law.converterIn) this.#hasCorners.push(k);
    }
    if (!this.read(network)) throw new Error('a network does not fit the structure it was compiled to');
  }

  /** Takes over other numbers. @returns false if the structure differs */
  read(network: Network): boolean {
    if (!readNumbers(this.compiled, network, this.numbers)) return false;
    this.#baseChanged = true;
    return true;
  }

  voltageAcross(k: number): number {
    const a = this.compiled.branchA[k]!, b = this.compiled.branchB[k]!;
    return (a < 0 ? 0 : this.x[a]!) - (b < 0 ? 0 : this.x[b]!);
  }
  voltageAt(node: number): number { return node < 0 ? 0 : this.x[node]!; }
  current(k: number): number { return this.x[this.compiled.nodeCount + k]!; }

  /** Every corner where it stands when nothing is known: loads waiting for their voltage, sources on, switches as told. */
  setStartPositions(coilPickedUp: Uint8Array): void {
    const { compiled, numbers, positions } = this;
    for (let k = 0; k < compiled.branchCount; k++) {
      switch (compiled.law[k]) {
        case Law.switched: positions[k] = numbers.closed[k] === 1 ? Position.closed : Position.open; break;
        case Law.diode: positions[k] = Position.blocking; break;
        case Law.supply: positions[k] = numbers.amount[k]! > 0 ? Position.regulating : Position.off; break;
        case Law.converterOut: case Law.converterIn: positions[k] = Position.off; break;
        case Law.power: case Law.draw: positions[k] = Position.waiting; break;
        default: positions[k] = Position.none;
      }
    }
    this.setContacts(coilPickedUp);
  }

  /** Puts switches as their numbers say and relay contacts as their coils say. */
  setContacts(coilPickedUp: Uint8Array): void {
    const { compiled, numbers, positions } = this;
    let moved = false;
    const put = (k: number, closed: boolean): void => {
      const position = closed ? Position.closed : Position.open;
      if (this.#contactsAt[k] !== position) moved = true;
      positions[k] = position;
      this.#contactsAt[k] = position;
    };
    for (let k = 0; k < compiled.branchCount; k++) if (compiled.elementTypes[compiled.branchElement[k]!] === 'switch') put(k, numbers.closed[k] === 1);
    compiled.coils.forEach((group, n) => { for (const { branch, makes } of group.contacts) put(branch, (coilPickedUp[n] === 1) === makes); });
    if (moved) this.#oneWay = undefined;
    this.#findIdealLoops();
  }

  /** Moves single contacts, as they move in time. */
  putContacts(moves: readonly { readonly branch: number; readonly closed: boolean }[]): void {
    for (const { branch, closed } of moves) this.positions[branch] = this.#contactsAt[branch] = closed ? Position.closed : Position.open;
    this.#oneWay = undefined;
    this.#findIdealLoops();
    this.#factored = false;
  }

  /** Which coils are energised now: 1 picks up, 0 drops out, 2 between the two (keeps). */
  coilDemand(n: number): 0 | 1 | 2 {
    const group = this.compiled.coils[n]!;
    const v = this.coilVoltage(n);
    const seen = group.polarised ? v : Math.abs(v);
    return seen >= this.numbers.pickUp[n]! ? 1 : seen < this.numbers.dropOut[n]! ? 0 : 2;
  }
  coilVoltage(n: number): number {
    const [a, b] = this.compiled.coils[n]!.coil;
    return this.joined.together(a, b) ? this.voltageAt(a) - this.voltageAt(b) : 0;
  }

  /** Joins nodes by what ties voltages in the present positions and pins every loose island. */
  pinIslands(): void {
    const { compiled, joined, pinned, numbers, positions } = this;
    joined.clear();
    for (const e of compiled.conductanceElements) joined.join(compiled.elementA[e]!, compiled.elementB[e]!);
    for (let k = 0; k < compiled.branchCount; k++) {
      if (tiesVoltages(compiled.law[k]!, positions[k]!, numbers, k, this.inTime)) joined.join(compiled.branchA[k]!, compiled.branchB[k]!);
    }
    for (let n = 0; n < compiled.nodeCount; n++) {
      const pin = joined.root(n) === n ? 1 : 0;
      if (pinned[n] !== pin) { pinned[n] = pin; this.#factored = false; }
    }
  }

  /** Branches with corners through which nothing can flow for want of a way back. */
  oneWay(): Uint8Array {
    if (this.#oneWay !== undefined) return this.#oneWay;
    const { compiled, positions } = this;
    const edges = compiled.branchCount + compiled.elementIds.length;
    const a = new Int32Array(edges), b = new Int32Array(edges);
    a.set(compiled.branchA);
    b.set(compiled.branchB);
    a.set(compiled.elementA, compiled.branchCount);
    b.set(compiled.elementB, compiled.branchCount);
    const present = (edge: number): boolean => {
      if (edge >= compiled.branchCount) return compiled.elementBranch[edge - compiled.branchCount] === -1;
      if (compiled.law[edge] === Law.switched) return positions[edge] === Position.closed;
      return compiled.law[edge] !== Law.capacitor || this.inTime;
    };
    this.#oneWay = bridges(compiled.nodeCount, { a, b, count: edges }, present);
    return this.#oneWay;
  }

  /**
   * One Newton step at the present positions: x moves on.
   *
   * @param keepFactors  goes on with the factors at hand (a chord step); whoever changed more than x a little must have called `forget`
   * @returns the column that had no pivot, or -1
   */
  step(keepFactors = false): number {
    this.#assemble();
    if (!(keepFactors && this.#factored) && this.#mustFactor()) {
      const { singularColumn } = this.lu.refactor(this.matrix);
      this.#factored = singularColumn < 0;
      if (singularColumn >= 0) return singularColumn;
      this.#keepFactoredRows();
    }
    const change = this.#step;
    this.residual(change);
    this.lu.solve(change, change);
    this.#moveBy(change);
    return -1;
  }

  /** right - matrix x at the rows last assembled. */
  residual(into: Float64Array): void {
    const { columnStart, rowIndex, values, size } = this.matrix;
    const x = this.x;
    into.set(this.right);
    for (let c = 0; c < size; c++) {
      const xc = x[c]!;
      if (xc === 0) continue;
      for (let p = columnStart[c]!, end = columnStart[c + 1]!; p < end; p++) into[rowIndex[p]!]! -= values[p]! * xc;
    }
  }

  /** Writes the row of branch k where x stands and returns its three numbers. */
  rowOf(k: number): { alpha: number; beta: number; gamma: number } {
    const onInput = this.compiled.law[k] === Law.converterIn;
    const context = this.#context;
    context.inTime = this.inTime;
    context.damping = this.damping;
    writeRow(k, this.voltageAcross(k), this.numbers, this.compiled.law[k]!, this.positions[k]!, context, this.#rows, onInput ? this.voltageAcross(k - 1) : 0, onInput ? this.current(k - 1) : 0);
    return { alpha: this.#rows.alpha[k]!, beta: this.#rows.beta[k]!, gamma: this.#rows.gamma[k]! };
  }

  /** How far branch k is from its law where x stands. */
  branchResidual(k: number): number {
    const { alpha, beta, gamma } = this.rowOf(k);
    let residual = gamma - alpha * this.voltageAcross(k) - beta * this.current(k);
    if (this.compiled.law[k] === Law.converterIn) residual -= this.#rows.onOutputVoltage[k]! * this.voltageAcross(k - 1) + this.#rows.onOutputCurrent[k]! * this.current(k - 1);
    return residual;
  }

  /** Factors the matrix exactly where x stands. @returns the column without a pivot, or -1 */
  factorHere(): number {
    this.#assemble();
    const { singularColumn } = this.lu.refactor(this.matrix);
    this.#factored = singularColumn < 0;
    if (this.#factored) this.#keepFactoredRows();
    return singularColumn;
  }

  /** Branches whose law is curved (Newton's method needs more than one step for them). */
  curvedBranches(): number[] {
    return this.#hasCorners.filter((k) => {
      const law = this.compiled.law[k];
      return (law === Law.power && this.numbers.amount[k] !== 0) || law === Law.converterIn || this.positions[k] === Position.powerLimiting;
    });
  }

  /** Whether any corner asks for another position where x stands; `except` is not asked. */
  cornersHold(slack: number, except: number): boolean {
    const { compiled, numbers, positions } = this;
    const slackV = slack * Math.max(this.largestVoltage, 1e-3), slackI = slack * 1e-3 * this.largestCurrent + 1e-12;
    const oneWay = this.#hasCorners.length > 0 ? this.oneWay() : undefined;
    for (const k of this.#hasCorners) {
      const law = compiled.law[k]!;
      if (k === except || (law === Law.diode && oneWay![k] === 1)) continue;
      if (law === Law.converterOut && positions[k + 1] === Position.off) continue;
      if (law === Law.converterIn && positions[k] === Position.off) {
        if (this.joined.together(compiled.branchA[k]!, compiled.branchB[k]!) && this.voltageAcross(k) >= Math.max(numbers.knee[k]!, LEAST_INPUT)) return false;
        continue;
      }
      // a diode left without current may have lost its way back: that is for a full solve to say
      if (law === Law.diode && positions[k] === Position.conducting && this.current(k) <= slackI) return false;
      if (nextPosition(k, this.voltageAcross(k), this.current(k), numbers, law, positions[k]!, slackV, slackI) !== positions[k]) return false;
    }
    return true;
  }

  /** Whether a converter's input is there while it is off, or gone while it runs. */
  converterWantsToSwitch(latchedOff: Uint8Array): boolean {
    const { compiled, numbers, positions } = this;
    for (const k of this.#hasCorners) {
      if (compiled.law[k] !== Law.converterIn) continue;
      if (positions[k] === Position.starved) return true;
      if (positions[k] === Position.off && latchedOff[k] === 0 && this.joined.together(compiled.branchA[k]!, compiled.branchB[k]!) && this.voltageAcross(k) >= Math.max(numbers.knee[k]!, LEAST_INPUT)) return true;
    }
    return false;
  }

  /** Writes rows and matrix where x stands (for whoever needs the residual or the Jacobian itself). */
  assemble(): void { this.#assemble(); }

  /**
   * Moves corners to where x asks for.
   *
   * @param onlyFirst  moves one corner at most (the first in order), which cannot go in circles on passive networks
   * @returns how many moved; `lastMoved` is one of them
   */
  moveCorners(onlyFirst: boolean, slack: number): number {
    const { compiled, numbers, positions } = this;
    const slackV = slack * Math.max(this.largestVoltage, 1e-3);
    const slackI = slack * 1e-3 * this.largestCurrent + 1e-12;
    const oneWay = this.#hasCorners.length > 0 ? this.oneWay() : undefined;
    let moved = 0;
    for (const k of this.#hasCorners) {
      const law = compiled.law[k]!;
      const before = positions[k]!;
      if (law === Law.diode && oneWay![k] === 1) continue;
      if ((law === Law.converterOut) && positions[k + 1] === Position.off) continue;
      const after = nextPosition(k, this.voltageAcross(k), this.current(k), numbers, law, before, slackV, slackI);
      if (after === before) continue;
      positions[k] = after;
      this.lastMoved = k;
      moved++;
      if (onlyFirst) break;
    }
    return moved;
  }
  lastMoved = -1;

  /** Ends the waiting of loads: each starts as a load or, where its voltage is below its knee, as a resistor. */
  wakeLoads(): void {
    const { compiled, positions, numbers } = this;
    for (const k of this.#hasCorners) {
      if (positions[k] !== Position.waiting) continue;
      const v = this.voltageAcross(k);
      positions[k] = Math.abs(v) < numbers.knee[k]! ? Position.starved : v < 0 ? Position.reversed : Position.regulating;
      if (compiled.law[k] === Law.draw && this.oneWay()[k] === 1) positions[k] = Position.starved;
    }
  }

  /** Currents of all elements by branch laws: loads from their voltage, all else as solved. Loops of ideal branches are shared. */
  branchCurrents(): Float64Array {
    const { compiled, numbers, positions } = this;
    const currents = this.x.slice(compiled.nodeCount);
    for (const k of this.#hasCorners) {
      const law = compiled.law[k]!;
      if (law === Law.power || law === Law.draw) currents[k] = law === Law.draw && positions[k] !== Position.starved ? currents[k]! : loadCurrent(law, numbers.amount[k]!, numbers.knee[k]!, this.voltageAcross(k));
      else if (law === Law.converterIn && positions[k] !== Position.off) currents[k] = inputCurrent(k, numbers, this.voltageAcross(k), -this.voltageAcross(k - 1) * this.current(k - 1));
    }
    return currents;
  }

  /** Largest current through a pin [A] and the node pinned: not zero only if a current source has no way back. */
  worstPin(): { current: number; node: number } {
    let current = 0, node = -1;
    for (let n = 0; n < this.compiled.nodeCount; n++) {
      if (this.pinned[n] === 1 && PIN * Math.abs(this.x[n]!) > current) { current = PIN * Math.abs(this.x[n]!); node = n; }
    }
    return { current, node };
  }

  #assemble(): void {
    const { compiled, numbers, positions, matrix, right, x } = this;
    const { slots, nodeCount, branchCount, law, branchA, branchB } = compiled;
    if (this.#baseChanged) this.#writeBase();
    const values = matrix.values;
    values.set(this.#base);
    for (let n = 0; n < nodeCount; n++) if (this.pinned[n] === 1) values[slots.nodeDiagonal[n]!]! += PIN;
    right.set(this.#injections);
    const context = this.#context;
    context.inTime = this.inTime;
    context.damping = this.damping;
    const { alpha, beta, gamma, onOutputVoltage, onOutputCurrent } = this.#rows;
    for (let k = 0; k < branchCount; k++) {
      const a = branchA[k]!, b = branchB[k]!;
      const v = (a < 0 ? 0 : x[a]!) - (b < 0 ? 0 : x[b]!);
      const rule = law[k]!;
      if (rule === Law.converterIn) {
        writeRow(k, v, numbers, rule, positions[k]!, context, this.#rows, this.voltageAcross(k - 1), x[nodeCount + k - 1]!);
        if (slots.outputA[k]! >= 0) values[slots.outputA[k]!]! += onOutputVoltage[k]!;
        if (slots.outputB[k]! >= 0) values[slots.outputB[k]!]! -= onOutputVoltage[k]!;
        values[slots.outputCurrent[k]!]! += onOutputCurrent[k]!;
      } else {
        writeRow(k, v, numbers, rule, positions[k]!, context, this.#rows, 0, 0);
      }
      if (slots.alphaA[k]! >= 0) values[slots.alphaA[k]!]! += alpha[k]!;
      if (slots.alphaB[k]! >= 0) values[slots.alphaB[k]!]! -= alpha[k]!;
      values[slots.beta[k]!]! += beta[k]!;
      right[nodeCount + k] = gamma[k]!;
    }
  }

  #writeBase(): void {
    const { compiled, numbers } = this;
    const { slots } = compiled;
    const base = this.#base;
    base.fill(0);
    for (let k = 0; k < compiled.branchCount; k++) {
      if (slots.leaveA[k]! >= 0) base[slots.leaveA[k]!]! += 1;
      if (slots.leaveB[k]! >= 0) base[slots.leaveB[k]!]! -= 1;
    }
    for (let n = 0; n < numbers.conductance.length; n++) {
      const g = numbers.conductance[n]!;
      for (let corner = 0; corner < 4; corner++) {
        const slot = slots.conductance[4 * n + corner]!;
        if (slot >= 0) base[slot]! += corner < 2 ? g : -g;
      }
    }
    this.#injections.fill(0);
    compiled.injectionElements.forEach((e, n) => {
      const a = compiled.elementA[e]!, b = compiled.elementB[e]!;
      if (a >= 0) this.#injections[a]! -= numbers.injected[n]!;
      if (b >= 0) this.#injections[b]! += numbers.injected[n]!;
    });
    this.#baseChanged = false;
    this.#factored = false;
  }

  /** Pins are part of the matrix: whoever changes them (or the form of a time step) forces new factors. */
  forget(): void { this.#factored = false; }

  #mustFactor(): boolean {
    if (!this.#factored) return true;
    const { alpha, beta, onOutputVoltage, onOutputCurrent } = this.#rows;
    const kept = this.#factoredRows;
    for (let k = 0; k < alpha.length; k++) {
      if (alpha[k] !== kept.alpha[k] || beta[k] !== kept.beta[k] || onOutputVoltage[k] !== kept.onOutputVoltage[k] || onOutputCurrent[k] !== kept.onOutputCurrent[k]) return true;
    }
    return false;
  }

  #keepFactoredRows(): void {
    this.#factoredRows.alpha.set(this.#rows.alpha);
    this.#factoredRows.beta.set(this.#rows.beta);
    this.#factoredRows.onOutputVoltage.set(this.#rows.onOutputVoltage);
    this.#factoredRows.onOutputCurrent.set(this.#rows.onOutputCurrent);
  }

  #moveBy(change: Float64Array): void {
    const x = this.x;
    const nodes = this.compiled.nodeCount;
    let voltage = 0, current = 0, voltageChange = 0, currentChange = 0, voltageRow = -1, currentRow = -1;
    for (let n = 0; n < this.size; n++) {
      const d = Math.abs(change[n]!);
      const value = (x[n]! += change[n]!);
      const size = Math.abs(value);
      if (n < nodes) { if (size > voltage) voltage = size; if (d > voltageChange) { voltageChange = d; voltageRow = n; } }
      else { if (size > current) current = size; if (d > currentChange) { currentChange = d; currentRow = n; } }
    }
    this.largestVoltage = voltage;
    this.largestCurrent = current;
    const byVoltage = voltageChange / (voltage + 1e-3), byCurrent = currentChange / (current + 1e-3);
    this.lastChange = Math.max(byVoltage, byCurrent);
    this.worstRow = byVoltage >= byCurrent ? voltageRow : currentRow;
  }

  #findIdealLoops(): void {
    const { compiled, numbers, positions } = this;
    const ideal: IdealBranch[] = [];
    for (let k = 0; k < compiled.branchCount; k++) {
      const law = compiled.law[k]!;
      const stores = law === Law.inductor && (!this.inTime || numbers.amount[k] === 0);
      if (numbers.resistance[k] !== 0 || !(law === Law.resistive || stores || (law === Law.switched && positions[k] === Position.closed))) continue;
      ideal.push({ branch: k, a: compiled.branchA[k]!, b: compiled.branchB[k]!, voltage: law === Law.resistive ? numbers.voltage[k]! : 0 });
    }
    this.redundant.fill(0);
    this.loops = idealLoops(compiled.nodeCount, ideal);
    for (const k of this.loops.redundant) this.redundant[k] = 1;
  }
}
